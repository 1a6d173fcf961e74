/**
 * Question: on which pulses do the strokes of a phrase fall?
 * The coarsest division of the beat on which they lie counts: finer ones fit anything.
 */
import { type Bpm, beatSeconds, type Seconds } from "../units/index.ts";
import type { OnsetPattern } from "./distances.ts";

/** Divisions of the felt beat, coarsest first: quarters, eighths, triplets, sixteenths, sextuplets, thirty-seconds, finer. */
const DIVISIONS = [1, 2, 3, 4, 6, 8, 12] as const;
/** Strokes lie on a division when this is their middle distance from it, squared: scatter of a second-year student. Our choice. */
const ON_PULSE_SECONDS: Seconds = 0.025;

/** A single stroke further off than this is at a place of its own: less than a sixteenth at any tempo. Our choice. */
const FURTHEST_SECONDS: Seconds = 0.06;
/** All of it may stand this far from the pulse: a player leans. Further off it is another place. Our choice. */
const MOST_LEAN_SECONDS: Seconds = 0.06;
const MOST_LEAN_SHARE = 0.3;

/**
 * Pulses to a beat on which these moments lie, counted from `from`, all of them together a little early or late. The finest
 * where none fits.
 */
export function pulsesPerBeat(times: readonly Seconds[], from: Seconds, tempoBpm: Bpm): number {
  const fits = (division: number): boolean => {
    const pulse = beatSeconds(tempoBpm) / division;
    const turns = times.map((time) => (2 * Math.PI * (time - from)) / pulse);
    const sine = turns.reduce((sum, turn) => sum + Math.sin(turn), 0);
    const cosine = turns.reduce((sum, turn) => sum + Math.cos(turn), 0);
    const lean = (Math.atan2(sine, cosine) / (2 * Math.PI)) * pulse;
    const off = times.map((time) => {
      const place = (time - from - lean) / pulse;
      return Math.abs(place - Math.round(place)) * pulse;
    });
    const middle = Math.sqrt(off.reduce((sum, each) => sum + each * each, 0) / off.length);
    // Beside a fine division any moment lies near a pulse: half of what chance leaves is asked for.
    const isNear =
      middle <= Math.min(ON_PULSE_SECONDS, (0.5 * pulse) / Math.sqrt(12)) &&
      Math.max(...off) <= FURTHEST_SECONDS;
    return isNear && Math.abs(lean) <= Math.min(MOST_LEAN_SECONDS, MOST_LEAN_SHARE * pulse);
  };
  return DIVISIONS.find(fits) ?? DIVISIONS[DIVISIONS.length - 1] ?? 1;
}

export interface PulseGrid {
  readonly from: Seconds;
  readonly pulseSeconds: Seconds;
  readonly pulses: number;
}

/**
 * The pattern of some moments on a grid; those beyond its ends are left out.
 *
 * @example
 * patternOn([0, 0.51, 0.74], { from: 0, pulseSeconds: 0.25, pulses: 4 }) // => [true, false, true, true]
 */
export function patternOn(
  times: readonly Seconds[],
  { from, pulseSeconds, pulses }: PulseGrid,
): OnsetPattern {
  const struck = new Set(times.map((time) => Math.round((time - from) / pulseSeconds)));
  return Array.from({ length: pulses }, (_, at) => struck.has(at));
}
