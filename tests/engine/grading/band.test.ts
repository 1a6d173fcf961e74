import fc from "fast-check";
import { expect, test } from "vitest";
import { bandMs, hearableMs, placeOf } from "../../../engine/grading/index.ts";
import { LEVELS } from "../../../engine/score/index.ts";

test.each([
  { level: "first-year", tempoBpm: 120, expected: 60 },
  { level: "second-year", tempoBpm: 120, expected: 45 },
  { level: "steady", tempoBpm: 100, expected: 30 },
  { level: "working", tempoBpm: 200, expected: 20 },
  { level: "steady", tempoBpm: 50, expected: 45 },
  { level: "working", tempoBpm: 60, expected: 20 * (1 + 0.5 * (1000 / 600 - 1)) },
] as const)("$level at $tempoBpm beats a minute: ± $expected ms", ({ level, tempoBpm, expected }) => {
  expect(bandMs(level, tempoBpm)).toBeCloseTo(expected, 9);
});

test("bands narrow from level to level and never with a slower tempo", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 30, max: 300, noNaN: true }),
      fc.double({ min: 30, max: 300, noNaN: true }),
      (a, b) => {
        const widths = LEVELS.map((level) => bandMs(level, a));
        expect(widths).toEqual([...widths].sort((x, y) => y - x));
        for (const level of LEVELS)
          expect(bandMs(level, Math.min(a, b))).toBeGreaterThanOrEqual(bandMs(level, Math.max(a, b)));
      },
    ),
  );
});

test.each([
  { offsetMs: -14, place: "ahead" },
  { offsetMs: -12.5, place: "in the pocket" },
  { offsetMs: 0, place: "in the pocket" },
  { offsetMs: 13, place: "behind" },
] as const)("$offsetMs ms against quarters at 120 is $place", ({ offsetMs, place }) => {
  expect(placeOf(offsetMs, hearableMs(500))).toBe(place);
});
