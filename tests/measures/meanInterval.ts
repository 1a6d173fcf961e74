/**
 * The 95 % interval of a mean by the normal approximation: mean ± 1.96 standard errors (common practice, no source).
 */
import { type Interval, Z_95 } from "../../engine/units/index.ts";

export interface Mean extends Interval {
  readonly mean: number;
}

/** @throws RangeError for fewer than two values: their spread is not known. */
export function meanInterval(values: readonly number[]): Mean {
  if (values.length < 2) throw new RangeError("The interval of a mean needs at least two values.");
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1);
  const reach = Z_95 * Math.sqrt(variance / values.length);
  return { mean, low: mean - reach, high: mean + reach };
}
