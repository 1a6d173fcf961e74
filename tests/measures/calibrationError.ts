/**
 * Whether chances come true.
 * Source: Naeini, Cooper & Hauskrecht, AAAI 2015 (expected calibration error); Guo, Pleiss, Sun & Weinberger, ICML 2017
 * (reliability diagram). Ten bins of equal width; an empty bin says nothing and counts for nothing.
 */
import type { Chance, Interval } from "../../engine/units/index.ts";

export interface Told {
  /** What was said, 0 to 1. */
  readonly chance: number;
  readonly right: boolean;
}

export interface ReliabilityRow {
  readonly from: number;
  readonly cases: number;
  readonly said: number;
  readonly cameTrue: number;
}

const BINS = 10;

/** The reliability table: one row for each bin that has cases. */
export function reliability(told: readonly Told[]): readonly ReliabilityRow[] {
  return Array.from({ length: BINS }, (_, bin) => {
    const own = told.filter(({ chance }) => Math.min(BINS - 1, Math.floor(chance * BINS)) === bin);
    const mean = (of: (one: Told) => number): number =>
      own.reduce((sum, one) => sum + of(one), 0) / own.length;
    return {
      from: bin / BINS,
      cases: own.length,
      said: mean(({ chance }) => chance),
      cameTrue: mean(({ right }) => Number(right)),
    };
  }).filter(({ cases }) => cases > 0);
}

/**
 * The mean distance between what was said and what came true, by bin, weighted by its cases.
 *
 * @throws RangeError for no cases.
 */
export function expectedCalibrationError(told: readonly Told[]): number {
  if (told.length === 0) throw new RangeError("Calibration needs at least one case.");
  return reliability(told).reduce(
    (sum, { cases, said, cameTrue }) => sum + (cases / told.length) * Math.abs(said - cameTrue),
    0,
  );
}

const RESAMPLES = 400;

/**
 * The 95 % interval of the error by the basic bootstrap (Davison & Hinkley 1997, 5.2.1). Few cases in a bin make the error
 * look larger than it is, and drawing from them again does so once more: the basic interval takes the second time
 * out, and so is not far too high for few cases.
 */
export function calibrationInterval(told: readonly Told[], chance: Chance): Interval {
  const error = expectedCalibrationError(told);
  const errors = Array.from({ length: RESAMPLES }, () =>
    expectedCalibrationError(
      told.flatMap(() => {
        const drawn = told[Math.floor(chance() * told.length)];
        return drawn ? [drawn] : [];
      }),
    ),
  ).sort((a, b) => a - b);
  const lowest = errors[Math.floor(0.025 * RESAMPLES)] ?? error;
  const highest = errors[Math.ceil(0.975 * RESAMPLES) - 1] ?? error;
  return {
    low: Math.max(0, Math.min(error, 2 * error - highest)),
    high: Math.max(error, 2 * error - lowest),
  };
}
