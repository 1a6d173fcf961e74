/**
 * Question: which tempo is being tapped?
 * The middle of the latest gaps between taps, which one late or left-out tap does not move.
 */
import { type Bpm, median, type Seconds } from "../units/index.ts";

/** The taps that count, in order. Start with {@link NO_TAPS}. */
export type Taps = readonly Seconds[];

export const NO_TAPS: Taps = [];

/** After a pause longer than this a new tempo is meant: the slowest beat that people can follow lasts about 1.8 s (Repp 2005). */
export const TAP_PAUSE_SECONDS: Seconds = 2.2;
/** Closer taps are one: two limbs together, a flam, a double trigger. 400 a minute is faster than any beat. Our choice. */
export const ONE_TAP_SECONDS: Seconds = 0.15;
/** Two bars of four: long enough to be steady, short enough to follow a change of mind. Our choice. */
const MOST_TAPS = 9;
/** One gap is a guess, two agree or they do not. Our choice. */
const FEWEST_TAPS = 3;

/** The taps after one more, at `time` on any one clock. Out of order or too close: no tap. */
export function tapped(taps: Taps, time: Seconds): Taps {
  const last = taps.at(-1);
  if (last === undefined || time - last > TAP_PAUSE_SECONDS) return [time];
  if (time - last < ONE_TAP_SECONDS) return taps;
  return [...taps, time].slice(-MOST_TAPS);
}

/**
 * Taps a minute; `null` while too few were heard.
 *
 * @example
 * tappedBpm([0, 0.5, 1]) // => 120
 */
export function tappedBpm(taps: Taps): Bpm | null {
  if (taps.length < FEWEST_TAPS) return null;
  const gaps = taps.slice(1).map((time, at) => time - (taps[at] ?? time));
  return 60 / median(gaps);
}
