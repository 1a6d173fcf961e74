/**
 * Question: on which beat, counted from the first bar line, is a moment?
 * Conventions: between beats a straight line, beyond the first and last at the tempo of the take.
 */
import { beatSeconds, type Seconds } from "../../units/index.ts";
import type { Pulse } from "../hearing.ts";

export interface BeatCount {
  /** Felt beats from the first downbeat of the pulse; negative before it. */
  readonly beatOf: (time: Seconds) => number;
  readonly timeOf: (beat: number) => Seconds;
  /** Length of the beat that begins at this whole beat. */
  readonly secondsOf: (beat: number) => Seconds;
}

export function beatCount({ beats, downbeats, tempoBpm }: Pulse): BeatCount {
  const usual = beatSeconds(tempoBpm);
  const last = beats.length - 1;
  const at = (index: number): Seconds => {
    if (index < 0) return (beats[0] ?? 0) + index * usual;
    if (index > last) return (beats[last] ?? 0) + (index - last) * usual;
    return beats[index] ?? 0;
  };
  const indexOf = (time: Seconds): number => {
    if (last < 1 || time < (beats[0] ?? 0)) return (time - at(0)) / usual;
    if (time >= (beats[last] ?? 0)) return last + (time - at(last)) / usual;
    let low = 0;
    let high = last;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if ((beats[middle] ?? 0) <= time) low = middle;
      else high = middle;
    }
    return low + (time - at(low)) / (at(high) - at(low));
  };
  const one = Math.round(indexOf(downbeats[0] ?? beats[0] ?? 0));
  return {
    beatOf: (time) => indexOf(time) - one,
    timeOf: (beat) => {
      const index = beat + one;
      const whole = Math.floor(index);
      return at(whole) + (index - whole) * (at(whole + 1) - at(whole));
    },
    secondsOf: (beat) => at(beat + one + 1) - at(beat + one),
  };
}
