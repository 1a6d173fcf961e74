/**
 * Question: how is a take to be written when its beat lies elsewhere than it was heard to?
 * Method: beats and bar lines are moved along the take, as it breathes; what swings is heard anew on the moved beats.
 */
import type { Hit } from "../../kit/index.ts";
import { beatsPerBar } from "../../score/index.ts";
import type { Heading } from "../quantise.ts";
import { swingHeard } from "../swingHeard.ts";
import { beatCount } from "./beatCount.ts";

/**
 * The heading with beat one so many beats later.
 *
 * @param later felt beats, whole and half ones; negative is earlier.
 */
export function movedBeat(hits: readonly Hit[], { pulse, swing }: Heading, later: number): Heading {
  if (later === 0) return { pulse, swing };
  const count = beatCount(pulse);
  const beatsInBar = beatsPerBar(pulse.metre);
  // From a bar before the first beat to one after the last, so that no stroke is left without a bar.
  const first = Math.floor(count.beatOf(pulse.beats[0] ?? 0) / beatsInBar - 1) * beatsInBar;
  const last = count.beatOf(pulse.beats.at(-1) ?? 0) + beatsInBar;
  const beats = Array.from({ length: Math.ceil(last - first) + 1 }, (_, beat) =>
    count.timeOf(first + beat + later),
  );
  const moved = { ...pulse, beats, downbeats: beats.filter((_, beat) => beat % beatsInBar === 0) };
  return { pulse: moved, swing: swingHeard(hits, moved) };
}
