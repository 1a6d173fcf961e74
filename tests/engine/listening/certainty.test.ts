import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { certainty, certaintyWords } from "../../../engine/listening/certainty.ts";

describe("chances", () => {
  test("sum to one and keep the order of what speaks for the grooves", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -500, max: 500, noNaN: true }), { maxLength: 15 }), (scores) => {
        const { grooves, none } = certainty(scores);
        expect(grooves.reduce((sum, chance) => sum + chance, none)).toBeCloseTo(1, 9);
        scores.forEach((score, a) => {
          scores.forEach((other, b) => {
            if (score >= other) expect(grooves[a] ?? 0).toBeGreaterThanOrEqual((grooves[b] ?? 0) - 1e-12);
          });
        });
      }),
    );
  });

  test.each([
    { scores: [20], known: true },
    { scores: [-20], known: false },
    { scores: [], known: false },
  ])("evidence $scores: known $known", ({ scores, known }) => {
    expect(certainty(scores).known).toBe(known);
  });

  test.each([
    [1, "sure"],
    [0.95, "nearly sure"],
    [0.8, "fairly sure"],
    [0.55, "half sure"],
    [0.2, "not sure"],
  ])("%f is said as %s", (confidence, words) => {
    expect(certaintyWords(confidence)).toBe(words);
  });
});
