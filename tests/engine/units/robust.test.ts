/** The worked values of published sources are in tests/reference/grading-figures.test.ts; here are the laws. */
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  median,
  medianDeviation,
  normal,
  robustLine,
  robustSpread,
  seededChance,
  theilSen,
} from "../../../engine/units/index.ts";

const numbers = fc.array(fc.double({ min: -1000, max: 1000, noNaN: true }), { minLength: 1, maxLength: 60 });

describe("median", () => {
  test("as many values lie above as below, and the argument is left alone", () => {
    fc.assert(
      fc.property(numbers, (values) => {
        const given = [...values];
        const middle = median(values);
        expect(values).toEqual(given);
        expect(values.filter((value) => value < middle).length).toBeLessThanOrEqual(values.length / 2);
        expect(values.filter((value) => value > middle).length).toBeLessThanOrEqual(values.length / 2);
      }),
    );
  });

  test("moves with the numbers; the median deviation does not", () => {
    fc.assert(
      fc.property(numbers, fc.integer({ min: -500, max: 500 }), (values, shift) => {
        const moved = values.map((value) => value + shift);
        expect(median(moved)).toBeCloseTo(median(values) + shift, 6);
        expect(medianDeviation(moved)).toBeCloseTo(medianDeviation(values), 6);
      }),
    );
  });
});

describe("mean and deviation without mistakes", () => {
  test("on clean data they are the plain ones", () => {
    const values = [10, 12, 14, 9, 15, 11, 13, 12];
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1);
    const { mean: found, sd, count } = robustSpread(values);
    expect(found).toBeCloseTo(mean, 12);
    expect(sd).toBeCloseTo(Math.sqrt(variance), 12);
    expect(count).toBe(8);
  });

  test.each([1, 2, 3, 4, 5])("seed %s: a fifth of wild mistakes change little", (seed) => {
    const chance = seededChance(seed);
    const clean = Array.from({ length: 80 }, () => 7 + 12 * normal(chance));
    const wild = Array.from({ length: 20 }, () => 400 + 300 * chance());
    const without = robustSpread(clean);
    const withThem = robustSpread([...clean, ...wild]);
    // Half the standard error of the mean of 80 strokes.
    expect(Math.abs(withThem.mean - without.mean)).toBeLessThan((0.5 * 12) / Math.sqrt(80));
    expect(Math.abs(withThem.sd / without.sd - 1)).toBeLessThan(0.1);
    expect(withThem.count).toBeLessThanOrEqual(80);
  });

  test("when nearly all are equal, the odd one is a mistake", () => {
    const { mean, sd, count } = robustSpread([5, 5, 5, 5, 6]);
    expect({ mean, count }).toEqual({ mean: 5, count: 4 });
    expect(sd).toBe(0);
    expect(robustSpread([5, 5, 5, 5])).toEqual({ mean: 5, sd: 0, count: 4 });
  });

  test("one number has a middle and no width; none has neither", () => {
    expect(robustSpread([8])).toEqual({ mean: 8, sd: 0, count: 1 });
    expect(robustSpread([])).toEqual({ mean: Number.NaN, sd: Number.NaN, count: 0 });
    expect(median([])).toBeNaN();
    expect(medianDeviation([])).toBeNaN();
  });
});

describe("lines", () => {
  const x = Array.from({ length: 50 }, (_, at) => at / 2);

  test.each([
    { at0: 3, slope: 0 },
    { at0: -2, slope: 1.5 },
    { at0: 0, slope: -0.02 },
  ])("a clean line is found exactly: $at0 + $slope x", ({ at0, slope }) => {
    const y = x.map((value) => at0 + slope * value);
    for (const line of [theilSen(x, y), robustLine(x, y)]) {
      expect(line.at0).toBeCloseTo(at0, 9);
      expect(line.slope).toBeCloseTo(slope, 9);
    }
  });

  test.each([1, 2, 3, 4])("seed %s: a fifth of wild points do not turn it", (seed) => {
    const chance = seededChance(seed);
    const y = x.map((value) => 5 + 0.3 * value + 2 * normal(chance) + (chance() < 0.2 ? 150 : 0));
    // Standard error of a slope over these x with noise of 2: 2 / √Σ(x − x̄)² = 0.039; four of them.
    expect(Math.abs(robustLine(x, y).slope - 0.3)).toBeLessThan(0.16);
    expect(Math.abs(theilSen(x, y).slope - 0.3)).toBeLessThan(0.2);
  });

  test("the ten-minute take: thousands of points give the line of all of them", () => {
    const long = Array.from({ length: 5000 }, (_, at) => at * 0.1);
    const chance = seededChance(2);
    const y = long.map((value) => 0.004 * value + normal(chance));
    // 1 / √Σ(x − x̄)² = 0.0001.
    expect(Math.abs(robustLine(long, y).slope - 0.004)).toBeLessThan(0.0004);
  });

  test("without two different x the slope is 0, and without points the line is 0", () => {
    expect(theilSen([], [])).toEqual({ at0: 0, slope: 0 });
    expect(theilSen([3, 3, 3], [1, 2, 9])).toEqual({ at0: 2, slope: 0 });
    expect(robustLine([], [])).toEqual({ at0: 0, slope: 0 });
    expect(robustLine([3], [4])).toEqual({ at0: 4, slope: 0 });
  });
});
