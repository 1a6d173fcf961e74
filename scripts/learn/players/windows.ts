/**
 * The second stand-in for another take of the same groove: another stretch of the same long human take.
 */
import type { Hit } from "../../../engine/kit/index.ts";
import type { HumanTake } from "./humanTake.ts";

export interface Window {
  readonly hits: readonly Hit[];
  readonly tempoBpm: number;
  readonly beatsInBar: number;
  /** The click's beats, on the clock of the hits. */
  readonly beats: readonly number[];
  readonly downbeats: readonly number[];
}

/** A stroke this little before a window's edge is meant on it. In seconds. */
const EDGE = 0.05;

/**
 * A stretch of so many bars.
 *
 * @param fromBar bars from the click's beginning; may have a fraction.
 * @param slower seconds are multiplied by this.
 */
export function windowOf(take: HumanTake, fromBar: number, bars: number, slower = 1): Window {
  const beat = 60 / take.bpm;
  const bar = beat * take.beatsInBar;
  const from = fromBar * bar - EDGE;
  const grid = (step: number): readonly number[] => {
    const times: number[] = [];
    for (let index = Math.ceil((fromBar * bar) / step - 1e-9); index * step < from + bars * bar; index += 1) {
      times.push((index * step - from) * slower);
    }
    return times;
  };
  return {
    hits: take.hits
      .filter(({ time }) => time >= from && time < from + bars * bar)
      .map((hit) => ({ ...hit, time: (hit.time - from) * slower })),
    tempoBpm: take.bpm / slower,
    beatsInBar: take.beatsInBar,
    beats: grid(beat),
    downbeats: grid(bar),
  };
}

/** How many bars of the take were played. */
export function barsOf(take: HumanTake): number {
  return Math.floor(((take.hits.at(-1)?.time ?? 0) * take.bpm) / 60 / take.beatsInBar + 0.1);
}
