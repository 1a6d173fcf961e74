import fc from "fast-check";
import { expect, test } from "vitest";
import { groupingsOf, groupStarts, groupsName, usualGrouping } from "../../../engine/score/index.ts";

test.each([
  ["4/4", 4, 4, []],
  ["6/8, by dotted beats", 6, 8, []],
  ["6/4", 6, 4, []],
  ["5/4", 5, 4, ["2 + 3", "3 + 2"]],
  ["7/8", 7, 8, ["2 + 2 + 3", "2 + 3 + 2", "3 + 2 + 2"]],
  ["8/8", 8, 8, ["2 + 2 + 2 + 2", "2 + 3 + 3", "3 + 2 + 3", "3 + 3 + 2"]],
] as const)("%s", (_, numerator, denominator, names) => {
  expect(groupingsOf({ numerator, denominator }).map(groupsName)).toEqual(names);
});

test.each([
  [5, "3 + 2"],
  [7, "2 + 2 + 3"],
  [11, "3 + 3 + 3 + 2"],
  [13, "3 + 3 + 3 + 2 + 2"],
])("%i eighths are usually counted %s", (numerator, name) => {
  expect(groupsName(usualGrouping({ numerator, denominator: 8 }))).toBe(name);
});

test("groups fill the bar, and begin where the one before ends", () => {
  fc.assert(
    fc.property(
      fc.record({ numerator: fc.integer({ min: 1, max: 19 }), denominator: fc.constantFrom(4, 8, 16) }),
      (metre) => {
        for (const grouping of [usualGrouping(metre), ...groupingsOf(metre)]) {
          expect(grouping.reduce((sum, size) => sum + size, 0)).toBe(metre.numerator);
          const starts = groupStarts(grouping);
          expect(starts[0]).toBe(1);
          starts.slice(1).forEach((start, at) => {
            expect(start - (starts[at] ?? 0)).toBe(grouping[at]);
          });
        }
      },
    ),
  );
});
