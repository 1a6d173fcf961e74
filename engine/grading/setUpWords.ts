/**
 * What a lean against a click can mean, given how well the set-up's own delay is known.
 */
import type { Milliseconds } from "../units/index.ts";
import { milliseconds } from "./phrases.ts";

/** A delay that is not known better than this is worth measuring again. Our choice: half of a working player's band. */
const WORTH_MEASURING_MS: Milliseconds = 10;

/**
 * Whether a lean is no more than what the set-up's own delay may make of it.
 *
 * @param giveOrTakeMs uncertainty of the set-up's delay; `null` where it was never measured.
 */
export function isWithinSetUp(leanMs: Milliseconds, giveOrTakeMs: Milliseconds | null): boolean {
  return giveOrTakeMs === null || Math.abs(leanMs) <= giveOrTakeMs;
}

/**
 * A sentence beside the lean of a take with a click.
 *
 * @param leanMs `null` where no lean was told.
 * @param giveOrTakeMs uncertainty of the set-up's delay; `null` where it was never measured.
 * @example
 * setUpWords(4, 6) // => "A lean of 4 ms is within what this set-up can tell (±6 ms)."
 */
export function setUpWords(leanMs: Milliseconds | null, giveOrTakeMs: Milliseconds | null): string | null {
  if (leanMs === null) return null;
  if (giveOrTakeMs === null)
    return "The delay of this set-up was never measured and is part of this lean. Measure it in Kit.";
  const known = `±${setUpMs(giveOrTakeMs)} ms`;
  if (isWithinSetUp(leanMs, giveOrTakeMs))
    return `A lean of ${milliseconds(leanMs)} is within what this set-up can tell (${known}).`;
  return giveOrTakeMs > WORTH_MEASURING_MS ? `The delay of this set-up is known to ${known} only.` : null;
}

/**
 * An uncertainty as it is shown: tenths where they matter.
 *
 * @example
 * setUpMs(1.46) // => "1.5"
 */
export function setUpMs(ms: Milliseconds): string {
  return ms < 3 ? (Math.round(ms * 10) / 10).toString() : Math.round(ms).toString();
}
