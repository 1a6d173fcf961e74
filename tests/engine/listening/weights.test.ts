import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Weight, weighed, weightSchema } from "../../../engine/listening/weights.ts";

const finite = fc.double({ min: -100, max: 100, noNaN: true });

describe("weighed features", () => {
  const weights: readonly Weight[] = [
    { weight: 3, low: -1, high: 5 },
    { weight: -2, low: 0, high: 1 },
  ];

  test.each([
    { features: [2, 0.5], sum: 5 },
    { features: [9, 0.5], sum: 14 },
    { features: [-9, 7], sum: -5 },
    { features: [2], sum: 6 },
    { features: [2, 0.5, 99], sum: 5 },
    { features: [], sum: 0 },
  ])("$features come to $sum", ({ features, sum }) => {
    expect(weighed(features, weights)).toBeCloseTo(sum, 12);
  });

  test("never lie beyond what the limits allow", () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(finite, finite, finite, finite), { maxLength: 6 }), (rows) => {
        const own = rows.map(([weight, a, b]) => ({ weight, low: Math.min(a, b), high: Math.max(a, b) }));
        const sum = weighed(
          rows.map(([, , , feature]) => feature),
          own,
        );
        const ends = own.map(({ weight, low, high }) => [weight * low, weight * high] as const);
        expect(sum).toBeGreaterThanOrEqual(ends.reduce((all, [a, b]) => all + Math.min(a, b), 0) - 1e-6);
        expect(sum).toBeLessThanOrEqual(ends.reduce((all, [a, b]) => all + Math.max(a, b), 0) + 1e-6);
      }),
    );
  });
});

test("a weight without limits is refused", () => {
  expect(weightSchema.safeParse({ weight: 1 }).success).toBe(false);
});
