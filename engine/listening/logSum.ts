/**
 * Sums of chances so small that only their logarithms can be written. Method: the largest is taken out first, so that
 * what is raised is never more than 1 (common practice, no source).
 */

/**
 * The logarithm of a sum of numbers given by their logarithms; −∞ for none.
 *
 * @example
 * logSum([Math.log(2), Math.log(3)]) // => Math.log(5)
 * logSum([]) // => Number.NEGATIVE_INFINITY
 */
export function logSum(logs: readonly number[]): number {
  const most = logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  if (most === Number.NEGATIVE_INFINITY) return most;
  return most + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - most), 0));
}

/** Numbers whose logarithms are further apart than this no longer change one another: e^−37 is less than 2^−53. */
export const OUT_OF_REACH = 37;

/**
 * The logarithm of the sum of two numbers given by their logarithms.
 *
 * @example
 * logAdd(1000, 1000) // => 1000 + Math.log(2)
 */
export function logAdd(a: number, b: number): number {
  const more = Math.max(a, b);
  const apart = Math.abs(a - b);
  return apart < OUT_OF_REACH ? more + Math.log1p(Math.exp(-apart)) : more;
}
