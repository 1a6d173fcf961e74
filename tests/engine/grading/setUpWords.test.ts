import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { isWithinSetUp, leanWords, setUpMs, setUpWords } from "../../../engine/grading/index.ts";

test.each([
  [4, 6, "A lean of 4 ms is within what this set-up can tell (±6 ms)."],
  [-1, 1.46, "A lean of 1 ms is within what this set-up can tell (±1.5 ms)."],
  [24, 6, null],
  [40, 22, "The delay of this set-up is known to ±22 ms only."],
  [9, null, "The delay of this set-up was never measured and is part of this lean. Measure it in Kit."],
  [null, 6, null],
])("lean %s, set-up ±%s", (leanMs, giveOrTakeMs, words) => {
  expect(setUpWords(leanMs, giveOrTakeMs)).toBe(words);
});

test("within is within on both sides, and nothing is certain of a set-up that was never measured", () => {
  fc.assert(
    fc.property(
      fc.double({ min: -300, max: 300, noNaN: true }),
      fc.double({ min: 0, max: 100, noNaN: true }),
      (lean, limit) => {
        expect(isWithinSetUp(lean, limit)).toBe(Math.abs(lean) <= limit);
        expect(isWithinSetUp(-lean, limit)).toBe(isWithinSetUp(lean, limit));
        expect(isWithinSetUp(lean, null)).toBe(true);
      },
    ),
  );
});

test.each([
  [0.25, "0.3"],
  [1.5, "1.5"],
  [7.4, "7"],
])("%s ms is shown as %s", (ms, shown) => {
  expect(setUpMs(ms)).toBe(shown);
});

describe("the lean of a take, beside how well the set-up is known", () => {
  const report = { leanMs: 20, spreadMs: 6, tempoBpm: 120, driftPercent: 0, start: { time: 0, stretch: 1 } };

  test.each([
    [20, 6, 0, "A little behind as a whole, steadily: that is feel."],
    [20, 6, 12, "A little behind as a whole, steadily: that is feel."],
    [20, 6, 22, "With the click as a whole, as far as this set-up can tell; steadily."],
    [
      -20,
      60,
      22,
      "With the click as a whole, as far as this set-up can tell; the single strokes still wander.",
    ],
    [4, 6, 22, "In the pocket as a whole, steadily."],
  ])("%i ms, spread %i ms, set-up ±%i ms", (leanMs, spreadMs, giveOrTakeMs, words) => {
    expect(leanWords({ ...report, leanMs, spreadMs }, "steady", giveOrTakeMs)).toBe(words);
  });
});
