/**
 * What the player of a demonstration means to play: every stroke and every beat at the moment it is meant for, before
 * lean and spread.
 */
import type { Voice } from "../kit/index.ts";
import { beatsPerBar, type Groove } from "../score/index.ts";
import type { Bpm, Chance, Milliseconds, Seconds } from "../units/index.ts";
import { type Orchestration, orchestrated } from "./orchestration.ts";
import { type PlacedFill, type WrittenStroke, writtenWithFills } from "./placedFill.ts";
import { type TempoCourse, timeAlong } from "./tempoCourse.ts";
import { wanderingClock } from "./timekeeper.ts";

export interface Intention {
  /** Felt beats a minute. */
  readonly tempoBpm: Bpm;
  readonly bars: number;
  readonly fills?: readonly PlacedFill[];
  /** Whole felt beats counted in before the first downbeat. The first of them is at time 0. */
  readonly countIn?: number;
  /** What they are counted on; the sticks when it is not said. */
  readonly countInOn?: "sticks" | "hi-hat-closed" | "cross-stick";
  /** Steady when it is not said. */
  readonly tempoCourse?: TempoCourse;
  /** On other sounds than written; fills stay as written. */
  readonly orchestration?: Orchestration;
  /** Standard deviation of the player's inner clock over one beat; see `timekeeper.ts`. Nothing brings it back. */
  readonly clockMs?: Milliseconds;
  readonly chance: Chance;
}

export interface IntendedStroke {
  readonly time: Seconds;
  readonly note: WrittenStroke["note"];
}

export interface Intended {
  readonly countIn: readonly IntendedStroke[];
  /** After the count-in, in order of their beats. */
  readonly strokes: readonly IntendedStroke[];
  /** Every felt beat of the bars, from the first downbeat. */
  readonly beatTimes: readonly Seconds[];
  /** Voices of the groove, as orchestrated. */
  readonly voices: readonly Voice[];
}

/** What is meant by `how`. Draws on chance only where there is a wandering clock, and before anything else does. */
export function intended(groove: Groove, how: Intention): Intended {
  const { countIn = 0, countInOn = "sticks" } = how;
  if (!(Number.isInteger(countIn) && countIn >= 0)) {
    throw new RangeError(`A count-in of ${countIn} beats: it must be a whole number, 0 for none.`);
  }
  const sounded = how.orchestration ? orchestrated(groove, how.orchestration) : groove;
  const written = writtenWithFills(sounded, how.bars, how.fills ?? []);
  const counted = Array.from({ length: countIn }, (_, index) => index - countIn);
  const beats = Array.from({ length: how.bars * beatsPerBar(groove.metre) }, (_, beat) => beat);

  const along = timeAlong(how.tempoBpm, how.tempoCourse);
  const start = along(-countIn);
  const moments = [...counted, ...beats, ...written.map(({ playedBeat }) => playedBeat)];
  const slipAt = how.clockMs ? wanderingClock(how.clockMs, moments, how.chance) : () => 0;
  const timeOf = (beat: number): Seconds => along(beat) - start + slipAt(beat);

  return {
    countIn: counted.map((beat) => ({
      time: timeOf(beat),
      note: { voice: countInOn, dynamic: "plain" },
    })),
    strokes: written.map(({ playedBeat, note }) => ({ time: timeOf(playedBeat), note })),
    beatTimes: beats.map(timeOf),
    voices: sounded.voices,
  };
}

/**
 * The true times of the felt beats of a demonstration, from its first downbeat on: where its pulse is, before lean and
 * spread. With a wandering clock these are the beats of the demonstration whose `chance` has the same seed.
 *
 * @example
 * demonstratedBeats(groove, { tempoBpm: 120, bars: 1, countIn: 2, chance: seededChance(1) }) // => [1, 1.5, 2, 2.5]
 */
export function demonstratedBeats(groove: Groove, how: Intention): readonly Seconds[] {
  return intended(groove, how).beatTimes;
}

/**
 * The true times of the downbeats of a demonstration, one a bar, as {@link demonstratedBeats} gives the beats.
 *
 * @example
 * demonstratedDownbeats(groove, { tempoBpm: 120, bars: 2, countIn: 4, chance: seededChance(1) }) // => [2, 4]
 */
export function demonstratedDownbeats(groove: Groove, how: Intention): readonly Seconds[] {
  const inBar = beatsPerBar(groove.metre);
  return demonstratedBeats(groove, how).filter((_, beat) => beat % inBar === 0);
}
