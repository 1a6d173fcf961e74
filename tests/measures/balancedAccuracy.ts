/**
 * Balanced accuracy: the mean of the shares of positives and of negatives that are called rightly, so that many of one
 * kind do not hide errors on the other. Source: Brodersen, Ong, Stephan & Buhmann, ICPR 2010; its interval by the
 * normal approximation.
 */
import { type Interval, Z_95 } from "../../engine/units/index.ts";

export interface BalancedAccuracy extends Interval {
  readonly accuracy: number;
}

/**
 * @param positives for each positive, whether it was called rightly; `negatives` likewise.
 * @throws RangeError when either side is empty.
 */
export function balancedAccuracy(
  positives: readonly boolean[],
  negatives: readonly boolean[],
): BalancedAccuracy {
  if (positives.length === 0 || negatives.length === 0) {
    throw new RangeError("Balanced accuracy needs cases of both kinds.");
  }
  const share = (calls: readonly boolean[]): number => calls.filter(Boolean).length / calls.length;
  const accuracy = (share(positives) + share(negatives)) / 2;
  const variance = [positives, negatives].reduce((sum, calls) => {
    // One imagined right and one imagined wrong call, so that few cases all right are not taken for certainty.
    const smoothed = (calls.filter(Boolean).length + 1) / (calls.length + 2);
    return sum + (smoothed * (1 - smoothed)) / calls.length / 4;
  }, 0);
  const reach = Z_95 * Math.sqrt(variance);
  return { accuracy, low: Math.max(0, accuracy - reach), high: Math.min(1, accuracy + reach) };
}
