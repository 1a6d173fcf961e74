/**
 * Question: did the stick strike once and the pad speak twice?
 * A pad that rings on reports a second, much softer strike within some 12 ms. A flam's two strokes are 13 to
 * 51 ms apart (tenth to ninetieth percentile measured on the Groove MIDI Dataset, median 26 ms), and its main
 * stroke, which comes second, is the louder one. So both gap and strength must point to a retrigger.
 */
import type { Milliseconds } from "../units/index.ts";
import type { Hit } from "./hit.ts";

/** Longest gap of a retrigger; bound included. Below the tenth percentile of flam gaps (13 ms). */
export const RETRIGGER_GAP_MS: Milliseconds = 12;
/** A retrigger is softer than this share of the strike before it; bound excluded. Our choice, after the figure above. */
export const RETRIGGER_SHARE = 0.5;

/**
 * Whether `hit` is a double trigger of `before`, the last true strike on the same pad.
 *
 * @example
 * isRetrigger({ time: 1, velocity: 0.8, pad: 38 }, { time: 1.008, velocity: 0.2, pad: 38 }) // => true
 */
export function isRetrigger(
  before: Pick<Hit, "time" | "velocity" | "pad">,
  hit: Pick<Hit, "time" | "velocity" | "pad">,
): boolean {
  const gapMs = (hit.time - before.time) * 1000;
  return (
    before.pad === hit.pad &&
    gapMs >= 0 &&
    gapMs <= RETRIGGER_GAP_MS + 1e-6 &&
    hit.velocity < before.velocity * RETRIGGER_SHARE
  );
}

/** Sorts a stream of hits into true strikes and retriggers, one hit at a time, in order of time. */
export class RetriggerFilter {
  readonly #last = new Map<number, Hit>();

  /** True when the hit is a retrigger of the last true strike on its pad. */
  isRetrigger(hit: Hit): boolean {
    const before = this.#last.get(hit.pad);
    if (before && isRetrigger(before, hit)) return true;
    this.#last.set(hit.pad, hit);
    return false;
  }
}
