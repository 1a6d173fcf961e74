/**
 * Wilson's score interval of a proportion.
 * Source: Wilson, J. Am. Stat. Assoc. 22 (1927) 209–212; worked cases in Newcombe, Statistics in Medicine 17 (1998).
 */

export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** The 97.5th percentile of the normal distribution. */
export const Z_95 = 1.959964;

/**
 * The 95 % interval of `right` of `asked`.
 *
 * @throws RangeError for no cases: nothing was measured.
 * @example
 * wilson(0, 20).low // => 0
 */
export function wilson(right: number, asked: number, z = Z_95): Interval {
  if (!(asked > 0)) throw new RangeError("An interval needs at least one case: ask something first.");
  const share = right / asked;
  const middle = share + (z * z) / (2 * asked);
  const reach = z * Math.sqrt((share * (1 - share)) / asked + (z * z) / (4 * asked * asked));
  const whole = 1 + (z * z) / asked;
  return { low: Math.max(0, (middle - reach) / whole), high: Math.min(1, (middle + reach) / whole) };
}
