/**
 * Question: where does the inner clock of a player stand, when nothing corrects it?
 * Source: the two-level model of Wing & Kristofferson, Perception & Psychophysics 14 (1973) 5–12: an interval between
 * strokes is I = C + M − M′, a clock interval C and the motor delays M of its two strokes, all independent. So
 * Var(I) = σC² + 2σM², and intervals that follow each other are correlated by −σM² / (σC² + 2σM²), from −0.5 to 0.
 * Wing (in Stelmach & Requin, Tutorials in Motor Behavior, 1980): the clock's variance grows with the interval, the
 * motor's does not. So σC is stated for one beat, and half a beat has half its variance.
 */
import { type Chance, type Milliseconds, normal, type Seconds } from "../units/index.ts";

/**
 * A clock that wanders: at each moment the sum of its slips up to there, a random walk from 0 at the first moment.
 *
 * @param clockMs standard deviation of the clock over one felt beat.
 * @param moments felt beats, in any order.
 * @returns the slip at each of those moments; 0 at any other.
 */
export function wanderingClock(
  clockMs: Milliseconds,
  moments: readonly number[],
  chance: Chance,
): (beat: number) => Seconds {
  const slips = new Map<number, Seconds>();
  let before: number | undefined;
  let slip = 0;
  for (const moment of [...moments].sort((a, b) => a - b)) {
    if (moment === before) continue;
    if (before !== undefined) slip += (clockMs / 1000) * Math.sqrt(moment - before) * normal(chance);
    slips.set(moment, slip);
    before = moment;
  }
  return (beat) => slips.get(beat) ?? 0;
}
