import { describe, expect, test } from "vitest";
import {
  cycled,
  EntryError,
  inBars,
  readBody,
  type ShelfEntry,
  shelfEntry,
  stockEntries,
} from "../../../../engine/catalogue/index.ts";
import { GridError } from "../../../../engine/score/index.ts";
import { fraction } from "../../../../engine/units/index.ts";
import {
  blank,
  changed,
  copied,
  type Draft,
  entryOf,
  isChanged,
  keptAs,
  opened,
  redone,
  undone,
  withBars,
  withLevel,
} from "../../../../renderer/screens/shelf/draft.ts";

const about = { id: "own/1", name: "Mill wheel", from: { kind: "written" }, madeAtMs: 3 } as const;
const ENTRY = shelfEntry(
  readBody("groove", "metre: 4/4\ntempo: 60-90\nsnare | .... |\nkick | x... |", about),
  { ...about, alsoNamed: ["lesson three"] },
);
const FILL = stockEntries().find(({ kind }) => kind === "fill") as ShelfEntry;
const body = (text: string) => (draft: Draft) => changed(draft, { body: text });

test("an entry that was opened and not changed is the same again", () => {
  const draft = opened(ENTRY);
  expect(isChanged(draft)).toBe(false);
  expect(entryOf(draft, ENTRY.changedAtMs)).toEqual(ENTRY);
});

test("strokes go into the text, the text into the strokes", () => {
  const struck = withBars(opened(ENTRY), (bars) => cycled(bars, { voice: "snare", position: fraction(1) }));
  expect(struck.now.body).toContain("snare | . x . . |");
  expect(inBars(struck.written).notes).toHaveLength(2);
  const typed = body("metre: 4/4\ntempo: 60-90\nkick | xxxx |")(struck);
  expect(inBars(typed.written).notes).toHaveLength(4);
});

test("while the text cannot be read, the last that could be is shown, and why is said", () => {
  const wrong = body("metre: 4/4\ntempo: 60-90\nkick | x?.. |")(opened(ENTRY));
  expect(wrong.problem).toMatchObject({ line: 3, column: 9 });
  expect(wrong.written).toEqual(opened(ENTRY).written);
  expect(() => entryOf(wrong, 0)).toThrow(GridError);
  expect(undone(wrong).problem).toBeNull();
});

describe("the way back", () => {
  test("leads over each change, and forth again", () => {
    const first = opened(ENTRY);
    const second = changed(first, { name: "Other" });
    const third = changed(second, { level: "steady" });
    expect(undone(third).now).toEqual(second.now);
    expect(undone(undone(third)).now).toEqual(first.now);
    expect(undone(undone(undone(third))).now).toEqual(first.now);
    expect(redone(undone(third)).now).toEqual(third.now);
    expect(redone(third)).toBe(third);
  });

  test("takes the letters of a word as one change, another word as the next", () => {
    const typed = ["M", "Mi", "Mil", "Mill", "Mill ", "Mill w"].reduce(
      (draft, name) => changed(draft, { name }),
      changed(opened(ENTRY), { name: "" }),
    );
    expect(undone(typed).now.name).toBe("Mill");
    // The name that was typed over.
    expect(undone(undone(typed)).now.name).toBe("Mill wheel");
  });

  test("ends where something else is done", () => {
    const other = changed(undone(changed(opened(ENTRY), { name: "Other" })), { name: "Third" });
    expect(redone(other).now.name).toBe("Third");
  });
});

test("a fill keeps its level in its text, and begins where its first stroke stands", () => {
  const draft = withLevel(opened(FILL), "working");
  expect(draft.now.body).toMatch(/^level: working$/m);
  expect(draft.now.level).toBe("working");
  const longer = withBars(draft, (bars) =>
    cycled(bars, { voice: bars.voices[0] ?? "snare", position: fraction(0) }),
  );
  expect(longer.written.kind === "fill" && longer.written.music.beats).toBe(4);
  const silent = withBars(draft, (bars) => ({ ...bars, notes: [] }));
  expect(silent.problem?.words).toContain("a fill needs a stroke");
});

test("a copy is a new entry that knows where it came from", () => {
  const copy = copied(opened(ENTRY), { id: "own/2", madeAtMs: 9 });
  expect(isChanged(copy)).toBe(true);
  expect(entryOf(copy, 9)).toMatchObject({
    id: "own/2",
    name: "Mill wheel, copy",
    alsoNamed: [],
    from: { kind: "copied", of: "own/1", name: "Mill wheel" },
  });
});

test.each(["groove", "fill", "phrase", "part"] as const)(
  "a blank %s can be read, and needs a name",
  (kind) => {
    const draft = blank(kind, { id: "own/3", madeAtMs: 1 });
    expect(draft.problem).toBeNull();
    expect(() => entryOf(draft, 1)).toThrow(EntryError);
    const entry = entryOf(changed(draft, { name: "Stair" }), 1);
    expect(entry.kind).toBe(kind);
    const kept = keptAs(changed(draft, { name: "Stair" }), entry);
    expect(isChanged(kept)).toBe(false);
  },
);
