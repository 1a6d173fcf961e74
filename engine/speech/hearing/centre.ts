/**
 * Question: where within a syllable is its beat felt?
 * Its perceptual centre is taken to be the burst of a stop, and the beginning of the vowel after a longer hiss or hum: an
 * approximation (Morton, Marcus & Frankish 1976, from memory: it lies near the vowel's beginning).
 */
import type { Seconds } from "../../units/index.ts";
import { type Frame, HOP_SECONDS, powerOf } from "./bands.ts";

/** Bands up to about 800 Hz: a vowel and a hum are strong there, a hiss and a burst are not. */
const LOW_BANDS = 7;
/** Power of a vowel there, beside the loudest of the syllable; less, and there is none. Our choice. */
const LEAST_VOWEL = 0.03;
/** A vowel has begun at this share of its power. */
const BEGUN_SHARE = 0.25;
/** Breath after a burst is shorter than this, and the burst is the beat; a hiss or a hum is longer, and the vowel is. */
const LONGEST_BREATH_SECONDS: Seconds = 0.07;
/** A vowel begins within this time of its syllable. */
const VOWEL_WITHIN_SECONDS: Seconds = 0.25;

/**
 * Seconds from the beginning of a syllable to its centre.
 *
 * @param frames of one syllable, without noise.
 * @param beginsAt where its sound begins among them, in seconds.
 */
export function centreAfter(frames: readonly Frame[], beginsAt: Seconds): Seconds {
  const first = Math.round(beginsAt / HOP_SECONDS);
  const span = frames.slice(first, first + Math.round(VOWEL_WITHIN_SECONDS / HOP_SECONDS));
  const lows = span.map((frame) => powerOf(frame.subarray(0, LOW_BANDS)));
  const most = lows.reduce((all, low) => Math.max(all, low), 0);
  const loudest = span.reduce((all, frame) => Math.max(all, powerOf(frame)), 0);
  if (most <= LEAST_VOWEL * loudest) return 0;
  const after = lows.findIndex((low) => low > BEGUN_SHARE * most) * HOP_SECONDS;
  return after > LONGEST_BREATH_SECONDS ? after : 0;
}
