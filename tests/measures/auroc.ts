/**
 * The area under the receiver operating characteristic: the chance that a positive scores above a negative, ties half.
 * Source: Hanley & McNeil, Radiology 143 (1982) 29–36, for the area and its standard error.
 */
import { type Interval, Z_95 } from "../../engine/units/index.ts";

export interface Auroc extends Interval {
  readonly area: number;
}

/**
 * @throws RangeError when either side is empty.
 * @example
 * auroc([0.9, 0.8], [0.1, 0.8]).area // => 0.875
 */
export function auroc(positives: readonly number[], negatives: readonly number[]): Auroc {
  if (positives.length === 0 || negatives.length === 0) {
    throw new RangeError("The area needs scores of both sides.");
  }
  const sorted = [...negatives].sort((a, b) => a - b);
  const wins = positives.reduce(
    (sum, score) => sum + (countBelow(sorted, score) + countUpTo(sorted, score)) / 2,
    0,
  );
  const area = wins / (positives.length * negatives.length);
  const reach = Z_95 * standardError(area, positives.length, negatives.length);
  return { area, low: Math.max(0, area - reach), high: Math.min(1, area + reach) };
}

function standardError(area: number, positives: number, negatives: number): number {
  const q1 = area / (2 - area);
  const q2 = (2 * area * area) / (1 + area);
  const variance =
    area * (1 - area) + (positives - 1) * (q1 - area * area) + (negatives - 1) * (q2 - area * area);
  return Math.sqrt(Math.max(0, variance) / (positives * negatives));
}

function countBelow(sorted: readonly number[], score: number): number {
  const at = sorted.findIndex((value) => value >= score);
  return at === -1 ? sorted.length : at;
}

function countUpTo(sorted: readonly number[], score: number): number {
  const at = sorted.findIndex((value) => value > score);
  return at === -1 ? sorted.length : at;
}
