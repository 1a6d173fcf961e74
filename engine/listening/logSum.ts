/** The logarithm of a sum of numbers given by their logarithms; −∞ for none. */
export function logSum(logs: readonly number[]): number {
  const most = logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  if (most === Number.NEGATIVE_INFINITY) return most;
  return most + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - most), 0));
}
