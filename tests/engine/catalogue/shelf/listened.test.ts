import { expect, test } from "vitest";
import {
  type AboutEntry,
  type EntryKind,
  grooveOf,
  listenedFor,
  MOST_LISTENED_FOR,
  readBody,
  type ShelfEntry,
  shelfEntry,
  stockEntries,
} from "../../../../engine/catalogue/index.ts";

const BAR = "metre: 4/4\ntempo: 60-90\nkick | x... |";
const TEXTS: Readonly<Record<EntryKind, string>> = {
  groove: BAR,
  fill: `level: steady\n${BAR}`,
  phrase: `role: call\n${BAR}`,
  part: `section: Verse\ntempo: 80\nplay: bar, 4 bars\n\ngroove: bar\nname: Bar\n${BAR}`,
};

function entry(
  id: string,
  changedAtMs: number,
  from: AboutEntry["from"]["kind"],
  kind: EntryKind = "groove",
): ShelfEntry {
  const music = readBody(kind, TEXTS[kind], { id, name: id });
  const came =
    from === "imported" ? ({ kind: from, file: "a.mid", bar: 1 } as const) : ({ kind: "written" } as const);
  return shelfEntry(music, { id, name: id, from: came, madeAtMs: 0, changedAtMs });
}

test("the studio's own grooves, those by hand first, the latest first; nothing of the stock, no phrase", () => {
  const entries = [
    ...stockEntries(),
    entry("imported-new", 9, "imported"),
    entry("old", 1, "written"),
    entry("new", 5, "written"),
    entry("phrase", 7, "written", "phrase"),
  ];
  expect(listenedFor(entries).grooves.map(({ id, name }) => [id, name])).toEqual([
    ["new", "new"],
    ["old", "old"],
    ["imported-new", "imported-new"],
  ]);
});

test("fills and drum parts likewise", () => {
  const entries = [
    entry("grid", 1, "written"),
    entry("old-fill", 1, "written", "fill"),
    entry("new-fill", 2, "written", "fill"),
    entry("part", 3, "written", "part"),
  ];
  const { grooves, fills, parts } = listenedFor([...stockEntries(), ...entries]);
  const ids = (own: readonly { readonly id: string }[]) => own.map(({ id }) => id);
  expect([ids(grooves), ids(fills), ids(parts)]).toEqual([["grid"], ["new-fill", "old-fill"], ["part"]]);
});

test("so many and no more; one that cannot be read is left out", () => {
  const many = Array.from({ length: MOST_LISTENED_FOR + 5 }, (_, index) =>
    entry(`own/${index}`, index, "imported"),
  );
  expect(listenedFor(many).grooves).toHaveLength(MOST_LISTENED_FOR);
  const broken = { ...entry("broken", 1, "written"), grid: "kick | ? |" };
  expect(grooveOf(broken)).toBeUndefined();
  expect(listenedFor([broken, entry("whole", 0, "written")]).grooves.map(({ id }) => id)).toEqual(["whole"]);
});
