import { expect, test } from "vitest";
import { signNames } from "../../../../engine/memory/index.ts";
import type { Shown } from "../../../../engine/rounds/index.ts";
import type { TallyPart } from "../../../../renderer/out/print/sheet.ts";
import { type RoundOnPaper, tallySheet } from "../../../../renderer/screens/round/tallySheet.ts";

const TABLE: TallyPart = { kind: "table", heading: "Taken for what", columns: ["sounded"], rows: [["kick"]] };

function sheet(shown: readonly Shown[], about: Partial<RoundOnPaper> = {}) {
  const made = tallySheet({
    title: "Card Table",
    day: "2 March 2026",
    shown,
    nameOf: (by) => ({ ottilie: "Ottilie", bram: "Bram" })[by ?? ""] ?? "The teacher",
    tables: [],
    ...about,
  });
  if (made.kind !== "tally") throw new Error("It is a tally.");
  return made;
}

const held = (by: string | null, item: Shown["item"]): Shown => ({ by, item, outcome: "held", words: "" });
const missed = (by: string | null, item: Shown["item"]): Shown => ({
  by,
  item,
  outcome: "missed",
  words: "Taken for something else.",
});

test("each thing once, as it stood when it was asked last, under its heading; then the round's tables", () => {
  const { parts, nickname, of } = sheet(
    [missed("ottilie", "symbol:coda"), held("ottilie", "symbol:segno"), held("ottilie", "symbol:coda")],
    { tables: [TABLE] },
  );
  expect([of, nickname]).toEqual(["Card Table", "Ottilie"]);
  expect(parts).toEqual([
    {
      kind: "lines",
      heading: "Held",
      lines: [
        { key: "symbol:coda", name: "Coda", remark: "" },
        { key: "symbol:segno", name: "Segno", remark: "" },
      ],
    },
    TABLE,
  ]);
});

test("of a group, each by name, and nobody's page", () => {
  const { parts, nickname } = sheet([held("ottilie", "symbol:coda"), missed("bram", "symbol:coda")]);
  expect(nickname).toBe("");
  expect(parts.map(({ heading }) => heading)).toEqual(["Ottilie: held", "Bram: missed"]);
  expect(parts[1]).toMatchObject({ lines: [{ remark: "Taken for something else." }] });
});

test("by the names the studio uses", () => {
  const { parts } = sheet([held(null, "symbol:quarter-note")], { ownNames: signNames("uk") });
  expect(parts).toMatchObject([{ lines: [{ name: "Crotchet" }] }]);
});

test("what is said of many is said once", () => {
  const many = ["flam", "flam-tap", "drag", "pataflafla"].map(
    (id): Shown => ({
      by: null,
      item: `rudiment:${id}`,
      outcome: "missed",
      words: "Not named after a look.",
    }),
  );
  expect(sheet(many).parts).toMatchObject([
    { lines: [{ name: "Flam, Flam Tap, Drag, Pataflafla", remark: "Not named after a look." }] },
  ]);
  expect(sheet(many.slice(0, 3)).parts).toMatchObject([
    { lines: [{ name: "Flam" }, { name: "Flam Tap" }, {}] },
  ]);
});
