/**
 * From what speaks for each groove to chances, and to words.
 */
import { logSum } from "./logSum.ts";

/** Calibrated chances, 0 to 1. */
export interface Chances {
  /** In the order the utilities were given. */
  readonly grooves: readonly number[];
  readonly none: number;
  /** Whether it is likelier one of the grooves, whichever, than none of them. */
  readonly known: boolean;
}

/**
 * Chances of each groove and of none; they sum to 1.
 *
 * @param utilities of the grooves (see `naming.ts`); that of naming none is 0.
 * @example
 * certainty([3, -2]).known // => true
 * certainty([-1, -2]).known // => false
 */
export function certainty(utilities: readonly number[]): Chances {
  const all = logSum([...utilities, 0]);
  const none = Math.exp(-all);
  return { grooves: utilities.map((utility) => Math.exp(utility - all)), none, known: none < 0.5 };
}

/**
 * How sure, in words that fit "I am … ." and "heard with … certainty".
 *
 * @example
 * certaintyWords(0.97) // => "nearly sure"
 */
export function certaintyWords(confidence: number): string {
  if (confidence >= 0.985) return "sure";
  if (confidence >= 0.9) return "nearly sure";
  if (confidence >= 0.7) return "fairly sure";
  if (confidence >= 0.5) return "half sure";
  return "not sure";
}
