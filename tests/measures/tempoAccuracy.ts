/**
 * Whether a tempo is right.
 * Sources: Gouyon, Klapuri, Dixon, Alonso, Tzanetakis, Uhle & Cano, IEEE TASLP 14 (2006) 1832–1844 (accuracy 1 and 2);
 * mir_eval (Raffel et al., ISMIR 2014), `tempo.detection`, for two tempos and the weight of the first.
 */
import type { Bpm } from "../../engine/units/index.ts";

const WITHIN = 0.04;
/** So that exactly 4 % is within, however it is rounded. */
const ROUNDING = 1e-9;
/** The multiples that accuracy 2 forgives (factors from memory). */
const MULTIPLES = [1, 2, 3, 1 / 2, 1 / 3];

/** Within 4 % of the truth. */
export function accuracy1(estimate: Bpm, truth: Bpm): boolean {
  return Math.abs(estimate / truth - 1) <= WITHIN + ROUNDING;
}

/** Within 4 % of the truth, its double, triple, half or third. */
export function accuracy2(estimate: Bpm, truth: Bpm): boolean {
  return MULTIPLES.some((times) => accuracy1(estimate, truth * times));
}

const DETECTED_WITHIN = 0.08;

/** Two reference tempos, the first of this weight, and two estimates: each reference is hit within 8 %. */
export function tempoDetection(
  reference: readonly [Bpm, Bpm],
  weight: number,
  estimate: readonly [Bpm, Bpm],
): { readonly pScore: number; readonly oneCorrect: boolean; readonly bothCorrect: boolean } {
  const [first, second] = reference.map((tempo) =>
    estimate.some((one) => Math.abs(tempo - one) <= DETECTED_WITHIN * tempo),
  );
  return {
    pScore: weight * Number(first ?? false) + (1 - weight) * Number(second ?? false),
    oneCorrect: Boolean(first) || Boolean(second),
    bothCorrect: Boolean(first) && Boolean(second),
  };
}
