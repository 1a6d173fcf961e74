/**
 * Question: where is beat one, as far as all bars that could be agree?
 * Method: a bar at twice or half the tempo has ones in common with others. Of the bars at the likeliest one's pulse, the one
 * is told whose one, nearest to the middle of the take, is most probably a one, whichever of all the bars was played: the
 * chances of those that have a one there are summed. Where one bar is likelier than all others together it is that one.
 */
import type { Seconds } from "../units/index.ts";
import { PLACES_PER_BEAT } from "./barModel.ts";
import { beatAtTime, timeOfBeat } from "./beatMap.ts";
import type { BarHypothesis } from "./pulse.ts";
import type { ReadBar } from "./reading.ts";

/** Ones this near are the same: the window of beat measures (from memory). */
const SAME_ONE: Seconds = 0.07;

/** @param bars likeliest first; none for none. */
export function agreedBar(bars: readonly ReadBar[]): ReadBar | undefined {
  const [likeliest] = bars;
  if (!likeliest) return undefined;
  const { times } = likeliest.pulse.map;
  const middle = ((times[0] ?? 0) + (times.at(-1) ?? 0)) / 2;
  const agreement = (bar: ReadBar): number => {
    const one = nearestOne(bar, middle);
    return bars
      .filter((other) => Math.abs(nearestOne(other, one) - one) <= SAME_ONE)
      .reduce((sum, { chance }) => sum + chance, 0);
  };
  return bars
    .filter(({ pulse }) => pulse === likeliest.pulse)
    .map((bar) => ({ bar, agreed: agreement(bar) }))
    .reduce((best, own) => (own.agreed > best.agreed ? own : best)).bar;
}

/** The beat one of this bar that is nearest to a time. */
function nearestOne({ pulse, beatsInBar, turn }: BarHypothesis, time: Seconds): Seconds {
  const phase = turn / PLACES_PER_BEAT;
  const bars = Math.round((beatAtTime(pulse.map, time) - phase) / beatsInBar);
  return timeOfBeat(pulse.map, phase + bars * beatsInBar);
}
