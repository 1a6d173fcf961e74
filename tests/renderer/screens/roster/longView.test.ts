import { expect, test } from "vitest";
import type { Result } from "../../../../engine/memory/index.ts";
import { type ChartLook, FIRST_SETTINGS } from "../../../../engine/rounds/index.ts";
import { type LongView, longView } from "../../../../renderer/screens/roster/longView.ts";

function result(item: Result["item"], outcome: Result["outcome"], day: string): Result {
  return {
    item,
    outcome,
    studentId: "ottilie",
    day,
    at: `${day}T15:00:00.000Z`,
    evidence: { words: "", roundId: "round1" },
  };
}

function look(named: readonly string[], about: Partial<ChartLook["settings"]> = {}): ChartLook {
  const settings = { ...FIRST_SETTINGS, ...about };
  return { by: "ottilie", settings, forSeconds: 120, seconds: 120, named, stray: [], ofTeacher: false };
}

function view(about: Partial<LongView>) {
  const made = longView({
    nickname: "Ottilie",
    today: "2026-03-23",
    evidence: { results: [], ownNames: new Map() },
    heard: { answers: [], heard: [] },
    looks: [],
    ...about,
  });
  if (made.kind !== "tally") throw new Error("It is a tally.");
  return made;
}

test("items by how they stood last, with the evidence; a state of which there is none is left out", () => {
  const results = [
    result("symbol:coda", "slipped", "2026-03-02"),
    result("symbol:coda", "known", "2026-03-09"),
    result("sticking:flam-tap", "new", "2026-03-09"),
  ];
  const { parts, of } = view({ evidence: { results, ownNames: new Map() } });
  expect(of).toBe("Ottilie, so far");
  expect(parts.map(({ heading }) => heading)).toEqual(["Held", "New"]);
  expect(parts[0]).toMatchObject({
    lines: [{ name: "Coda, read", remark: expect.stringContaining("2 weeks ago") }],
  });
  expect(parts[1]).toMatchObject({ lines: [{ name: "Flam Tap, the hands" }] });
});

test("what was taken for what, in a table of words", () => {
  const heard = [
    { sounded: "kick", named: "kick" },
    { sounded: "kick", named: "floor-tom" },
    { sounded: "kick", named: null },
  ] as const;
  expect(view({ heard: { answers: [], heard } }).parts).toEqual([
    {
      kind: "table",
      heading: "By ear: taken for what",
      columns: ["sounded", "named rightly", "taken for"],
      rows: [["kick", "1 of 3", expect.stringMatching(/floor tom once/)]],
    },
  ]);
});

test("look by look, the days of one part of the chart below each other", () => {
  const looks = [
    { day: "2026-03-02", looks: [look(["flam"]), look(["flam", "flam-tap"])] },
    { day: "2026-03-09", looks: [look([], { from: 1, to: 10 })] },
    { day: "2026-03-16", looks: [look(["flam", "flam-tap", "pataflafla"])] },
  ];
  const { parts } = view({ looks });
  expect(parts.map(({ heading }) => heading)).toEqual([
    "Wall Chart, look by look: The whole chart",
    "Wall Chart, look by look: 1 to 10",
  ]);
  expect(parts[0]).toMatchObject({
    rows: [
      ["2026-03-02", "1", "2:00", "1", "1", "1 of 40"],
      ["2026-03-02", "2", "2:00", "2", "1", "2 of 40"],
      ["2026-03-16", "1", "2:00", "3", "3", "3 of 40"],
    ],
  });
});
