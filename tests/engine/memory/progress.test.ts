import fc from "fast-check";
import { expect, test } from "vitest";
import { monthWords, progressByItem, progressBySkill, progressOf } from "../../../engine/memory/index.ts";
import { someResults } from "./laws.ts";
import { result } from "./results.ts";

const results = [
  result("style:samba", "new", "2025-11-10"),
  result("style:samba", "known", "2025-11-24"),
  result("style:samba", "slipped", "2026-02-02"),
  result("style:tango", "known", "2026-02-02", 1),
  result("symbol:fermata", "known", "2026-02-02", 2),
  result("own:a", "known", "2026-02-02", 3),
];

test("an item's months and lessons are counted, those without a lesson too", () => {
  expect(progressByItem(results).get("style:samba")).toEqual({
    lessons: [
      { day: "2025-11-10", known: 0, slipped: 0, new: 1 },
      { day: "2025-11-24", known: 1, slipped: 0, new: 0 },
      { day: "2026-02-02", known: 0, slipped: 1, new: 0 },
    ],
    months: [
      { month: "2025-11", known: 1, slipped: 0, new: 1 },
      { month: "2025-12", known: 0, slipped: 0, new: 0 },
      { month: "2026-01", known: 0, slipped: 0, new: 0 },
      { month: "2026-02", known: 0, slipped: 1, new: 0 },
    ],
  });
});

test("a skill's months are those of its items; the teacher's own words belong to none", () => {
  const skills = progressBySkill(results);
  expect([...skills.keys()]).toEqual(["grooves", "reading"]);
  expect(skills.get("grooves")?.months.at(-1)).toEqual({ month: "2026-02", known: 1, slipped: 1, new: 0 });
  expect(skills.get("grooves")?.lessons.at(-1)).toEqual({ day: "2026-02-02", known: 1, slipped: 1, new: 0 });
});

test("no results, no months", () => {
  expect(progressOf([])).toEqual({ months: [], lessons: [] });
});

test.each([
  [{ month: "2026-02", known: 4, slipped: 1, new: 0 }, "4 held, 1 missed"],
  [{ month: "2026-02", known: 0, slipped: 0, new: 2 }, "2 new"],
  [{ month: "2026-02", known: 0, slipped: 0, new: 0 }, "not asked"],
])("%j in words", (figures, words) => {
  expect(monthWords(figures)).toBe(words);
});

test("law: every result is counted once, whatever the order", () => {
  fc.assert(
    fc.property(
      someResults.chain((all) =>
        fc.tuple(fc.constant(all), fc.shuffledSubarray(all, { minLength: all.length })),
      ),
      ([all, mixed]) => {
        const progress = progressOf(all);
        for (const counts of [progress.months, progress.lessons]) {
          const counted = counts.reduce((sum, each) => sum + each.known + each.slipped + each.new, 0);
          expect(counted).toBe(all.length);
        }
        const days = progress.lessons.map(({ day }) => day);
        expect(days).toEqual([...new Set(all.map(({ day }) => day))].sort());
        expect(progressOf(mixed)).toEqual(progress);
        const names = progress.months.map(({ month }) => month);
        expect(names).toEqual([...new Set(names)].sort());
      },
    ),
  );
});
