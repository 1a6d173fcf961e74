/**
 * The statistics by which listening is judged, against worked cases.
 */
import { describe, expect, test } from "vitest";
import { seededChance, wilson } from "../../engine/units/index.ts";
import { auroc } from "../measures/auroc.ts";
import { balancedAccuracy } from "../measures/balancedAccuracy.ts";
import {
  calibrationInterval,
  expectedCalibrationError,
  reliability,
  type Told,
} from "../measures/calibrationError.ts";
import { meanInterval } from "../measures/meanInterval.ts";
import { withinNormal } from "../measures/normal.ts";

describe("Wilson's interval", () => {
  // Newcombe, Statistics in Medicine 17 (1998), table I, method 3 (data from memory, values recomputed); the last two computed.
  test.each([
    { right: 81, asked: 263, low: 0.2553, high: 0.3662 },
    { right: 15, asked: 148, low: 0.0624, high: 0.1605 },
    { right: 0, asked: 20, low: 0, high: 0.1611 },
    { right: 1, asked: 29, low: 0.0061, high: 0.1718 },
    { right: 9, asked: 10, low: 0.5958, high: 0.9821 },
    { right: 10, asked: 10, low: 0.7225, high: 1 },
  ])("$right of $asked", ({ right, asked, low, high }) => {
    expect(wilson(right, asked).low).toBeCloseTo(low, 4);
    expect(wilson(right, asked).high).toBeCloseTo(high, 4);
  });

  test("of nothing asked there is none", () => {
    expect(() => wilson(0, 0)).toThrow("at least one case");
  });
});

describe("the area under the curve", () => {
  test.each([
    { name: "all above", positives: [3, 4], negatives: [1, 2], area: 1 },
    { name: "all below", positives: [1, 2], negatives: [3, 4], area: 0 },
    { name: "all tied", positives: [1, 1], negatives: [1, 1, 1], area: 0.5 },
    // Of four pairs three are won and one is tied (computed).
    { name: "one tie", positives: [0.9, 0.8], negatives: [0.1, 0.8], area: 0.875 },
  ])("$name: $area", ({ positives, negatives, area }) => {
    expect(auroc(positives, negatives).area).toBe(area);
  });

  test("Hanley & McNeil 1982: computed tomography of 109 patients has an area of 0.893, standard error 0.032", () => {
    // Their table I: ratings 1 to 5 of 58 normal and 51 abnormal images.
    const rated = (counts: readonly number[]): readonly number[] =>
      counts.flatMap((count, index) => new Array<number>(count).fill(index + 1));
    const { area, high, low } = auroc(rated([3, 2, 2, 11, 33]), rated([33, 6, 6, 11, 2]));
    expect(area).toBeCloseTo(0.893, 3);
    expect((high - area) / 1.96).toBeCloseTo(0.032, 3);
    expect(area - low).toBeCloseTo(high - area, 12);
  });
});

test("balanced accuracy is the mean of both shares, however many there are of either (computed)", () => {
  // Confusion matrix [[50, 10], [5, 35]]: 50/60 and 35/40.
  const calls = (right: number, wrong: number): readonly boolean[] => [
    ...new Array<boolean>(right).fill(true),
    ...new Array<boolean>(wrong).fill(false),
  ];
  const { accuracy, low, high } = balancedAccuracy(calls(50, 10), calls(35, 5));
  expect(accuracy).toBeCloseTo((50 / 60 + 35 / 40) / 2, 12);
  expect(low).toBeLessThan(accuracy);
  expect(high).toBeGreaterThan(accuracy);
  expect(balancedAccuracy(calls(90, 0), calls(0, 10)).accuracy).toBe(0.5);
});

describe("expected calibration error (Guo et al. 2017; cases computed)", () => {
  const said = (chance: number, right: number, cases: number): readonly Told[] =>
    Array.from({ length: cases }, (_, index) => ({ chance, right: index < right }));

  test("what comes true as often as said has none", () => {
    expect(expectedCalibrationError([...said(0.75, 3, 4), ...said(0.25, 1, 4)])).toBe(0);
  });
  test("bins count by their cases", () => {
    // 0.95 said, 0.5 true, 10 cases; 0.55 said, 0.55 true, 20 cases: 0.45 / 3.
    expect(expectedCalibrationError([...said(0.95, 5, 10), ...said(0.55, 11, 20)])).toBeCloseTo(0.15, 12);
  });
  test("certainty falls in the last bin", () => {
    expect(reliability(said(1, 2, 2))).toEqual([{ from: 0.9, cases: 2, said: 1, cameTrue: 1 }]);
  });
  test("the interval holds the error of what it was drawn from, and is narrower for more cases", () => {
    const interval = (times: number) => {
      const told = [...said(0.95, 80 * times, 100 * times), ...said(0.55, 60 * times, 100 * times)];
      // 0.15 and 0.05 off, half of the cases each (computed).
      expect(expectedCalibrationError(told)).toBeCloseTo(0.1, 12);
      return calibrationInterval(told, seededChance(1));
    };
    const few = interval(1);
    const many = interval(10);
    for (const { low, high } of [few, many]) {
      expect(low).toBeLessThan(0.1);
      expect(high).toBeGreaterThan(0.1);
    }
    expect(many.high - many.low).toBeLessThan((few.high - few.low) / 2);
  });
});

test("the interval of a mean: mean ± 1.96 standard errors (computed)", () => {
  // 1, 2, 3, 4, 5: mean 3, variance 2.5, standard error √0.5.
  const { mean, low, high } = meanInterval([1, 2, 3, 4, 5]);
  expect(mean).toBe(3);
  expect(high - mean).toBeCloseTo(1.959964 * Math.SQRT1_2, 6);
  expect(mean - low).toBeCloseTo(high - mean, 12);
  expect(() => meanInterval([1])).toThrow("two values");
});

// Any table of the normal distribution (from memory).
test.each([
  [0, 0],
  [1, 0.6827],
  [1.96, 0.95],
  [2.5758, 0.99],
  [4, 0.99994],
])("within %d standard deviations of the mean lies %d of a normal distribution", (deviations, share) => {
  expect(withinNormal(deviations)).toBeCloseTo(share, 4);
});
