/**
 * Precision, recall and F of events against reference events, matched one to one within a window.
 * Source: mir_eval (Raffel et al., ISMIR 2014): ±50 ms for onsets, ±70 ms for beats. Times rise. With one width of window
 * for all, meeting them in order matches as many as can be (the tests hold it to the maximum matching).
 */
import type { Seconds } from "../../engine/units/index.ts";

export const ONSET_WINDOW: Seconds = 0.05;
export const BEAT_WINDOW: Seconds = 0.07;

export interface Matched {
  readonly precision: number;
  readonly recall: number;
  readonly f: number;
}

/** All three are 0 where either side is empty. */
export function matchEvents(
  reference: readonly Seconds[],
  estimated: readonly Seconds[],
  window: Seconds,
): Matched {
  const hits = countMatches(reference, estimated, window);
  if (hits === 0) return { precision: 0, recall: 0, f: 0 };
  const precision = hits / estimated.length;
  const recall = hits / reference.length;
  return { precision, recall, f: (2 * precision * recall) / (precision + recall) };
}

/** The most pairs, each event in one at most, of which both are no further apart than the window. */
export function countMatches(
  reference: readonly Seconds[],
  estimated: readonly Seconds[],
  window: Seconds,
): number {
  let hits = 0;
  let at = 0;
  for (const due of reference) {
    while (at < estimated.length && (estimated[at] ?? 0) < due - window) at += 1;
    if (at < estimated.length && (estimated[at] ?? 0) <= due + window) {
      hits += 1;
      at += 1;
    }
  }
  return hits;
}
