/**
 * Question: do the strokes lie on this pulse at all, or on another?
 * Method: what grooves in general make of a bar tells how well the strokes lie on its pulse, and whether the bar is a usual one.
 * At twice and half the tempo they lie as well, so that the best of these is taken, and compared with the best of all pulses
 * that are not so related. Which octave it is, and where the one, is left to the other features.
 */
import type { BarHypothesis } from "./pulse.ts";

/** In natural-log units: a pulse so far before or behind, or one with no rival, is so beyond doubt. Our choice. */
const BEYOND_DOUBT = 20;
/** Tempos whose ratio is this near a power of two are octaves of one another, in powers of two: two parts in a hundred. */
const OCTAVE_SLACK = 0.03;

/** Bar by bar, how much more grooves in general make of the octaves of its pulse than of any other; less than 0 for less. */
export function leads(bars: readonly BarHypothesis[]): readonly number[] {
  return bars.map((bar) => {
    const best = (own: readonly BarHypothesis[]): number =>
      Math.max(...own.map(({ logChance, begins }) => logChance - begins));
    const lead =
      best(bars.filter((other) => areOctaves(bar, other))) -
      best(bars.filter((other) => !areOctaves(bar, other)));
    return Math.max(-BEYOND_DOUBT, Math.min(BEYOND_DOUBT, lead));
  });
}

function areOctaves({ pulse }: BarHypothesis, other: BarHypothesis): boolean {
  const octaves = Math.log2(pulse.beatSeconds / other.pulse.beatSeconds);
  return Math.abs(octaves - Math.round(octaves)) < OCTAVE_SLACK;
}
