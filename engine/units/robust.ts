/**
 * Question: what is the middle and the width of these numbers when a few of them are mistakes?
 * Sources: median and median absolute deviation with the normal-consistent factor 1/Φ⁻¹(0.75) = 1.4826;
 * Theil 1950 and Sen, J. Am. Stat. Assoc. 63 (1968), for the slope.
 * Conventions: no function changes its argument; the value on no numbers is stated for each.
 */

/** Makes the median absolute deviation estimate the standard deviation of normal data: 1/Φ⁻¹(0.75). */
export const MAD_TO_SD = 1.482602;

/** Strokes further than this many robust standard deviations from the median are mistakes, not spread. Our choice. */
const MISTAKE_SDS = 4;

/** The middle value; `NaN` on no numbers. */
export function median(values: readonly number[]): number {
  if (values.length === 0) return Number.NaN;
  // Numbers alone are sorted as numbers, and several times as fast as by a comparison.
  const sorted = Float64Array.from(values).sort();
  const middle = sorted.length >> 1;
  const upper = sorted[middle] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? Number.NaN) + upper) / 2;
}

/** Median absolute deviation from the median, unscaled; `NaN` on no numbers. */
export function medianDeviation(values: readonly number[]): number {
  const centre = median(values);
  return median(values.map((value) => Math.abs(value - centre)));
}

/** Middle and width of a set of numbers; both `NaN` on no numbers, `sd` 0 on one. */
export interface Spread {
  readonly mean: number;
  readonly sd: number;
  readonly count: number;
}

/**
 * Mean and standard deviation (n − 1) after leaving out mistakes: values further than four robust standard
 * deviations from the median. As sharp as the plain mean on clean data (a median alone would waste a third of
 * a short take), as steady as the median when a stroke was matched wrongly.
 *
 * @example
 * robustSpread([1, 2, 3, 2, 2, 90]).mean // => 2
 */
export function robustSpread(values: readonly number[]): Spread {
  if (values.length === 0) return { mean: Number.NaN, sd: Number.NaN, count: 0 };
  const centre = median(values);
  const width = Math.max(medianDeviation(values) * MAD_TO_SD * MISTAKE_SDS, 1e-9);
  // With more than half the values equal the median deviation is 0 and says nothing: keep values within a
  // width taken from the mean deviation instead.
  const meanDeviation = values.reduce((sum, value) => sum + Math.abs(value - centre), 0) / values.length;
  const limit = width > 1e-9 ? width : Math.max(meanDeviation * 2, 1e-9);
  const kept = values.filter((value) => Math.abs(value - centre) <= limit);
  const mean = kept.reduce((sum, value) => sum + value, 0) / kept.length;
  const squares = kept.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, sd: kept.length === 1 ? 0 : Math.sqrt(squares / (kept.length - 1)), count: kept.length };
}

/** A straight line `y = at0 + slope · x`. */
export interface Line {
  readonly at0: number;
  readonly slope: number;
}

/** Pairs for the median of slopes: enough to be steady, few enough to stay quick on a ten-minute take. */
const MOST_POINTS_FOR_PAIRS = 300;

/**
 * The Theil–Sen line: slope = median of the slopes of all pairs (of an even sample of the points when there
 * are more than 300), offset = median of what is left. Breaks down only when 29 % of the points are wrong.
 * On fewer than two different `x` the slope is 0.
 *
 * @example
 * theilSen([0, 1, 2, 3, 4], [0, 1, 2, 3, 40]).slope // => 1
 */
export function theilSen(x: readonly number[], y: readonly number[]): Line {
  const step = Math.max(1, Math.ceil(x.length / MOST_POINTS_FOR_PAIRS));
  const slopes: number[] = [];
  for (let i = 0; i < x.length; i += step) {
    for (let j = i + step; j < x.length; j += step) {
      const run = (x[j] ?? 0) - (x[i] ?? 0);
      if (run !== 0) slopes.push(((y[j] ?? 0) - (y[i] ?? 0)) / run);
    }
  }
  const slope = slopes.length === 0 ? 0 : median(slopes);
  const at0 = median(x.map((value, index) => (y[index] ?? 0) - slope * value));
  return { at0: Number.isNaN(at0) ? 0 : at0, slope };
}

/**
 * Least squares after leaving out mistakes, started from the Theil–Sen line: as sharp as least squares on
 * clean data, as steady as Theil–Sen with mistakes in it. Same empty value as {@link theilSen}.
 */
export function robustLine(x: readonly number[], y: readonly number[]): Line {
  const first = theilSen(x, y);
  const residuals = x.map((value, index) => (y[index] ?? 0) - first.at0 - first.slope * value);
  const width = Math.max(medianDeviation(residuals) * MAD_TO_SD * MISTAKE_SDS, 1e-9);
  let n = 0;
  let sumX = 0;
  let sumY = 0;
  let sumXX = 0;
  let sumXY = 0;
  residuals.forEach((residual, index) => {
    if (Math.abs(residual) > width) return;
    const px = x[index] ?? 0;
    const py = y[index] ?? 0;
    n += 1;
    sumX += px;
    sumY += py;
    sumXX += px * px;
    sumXY += px * py;
  });
  const spreadX = n * sumXX - sumX * sumX;
  if (n < 3 || spreadX <= 1e-12) return first;
  const slope = (n * sumXY - sumX * sumY) / spreadX;
  return { at0: (sumY - slope * sumX) / n, slope };
}
