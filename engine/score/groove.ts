import type { Voice } from "../kit/index.ts";
import { type Bpm, compare, type Fraction, type Seconds, toNumber, type Velocity } from "../units/index.ts";
import { type Feel, playedBeat } from "./feel.ts";
import { beatsPerBar, type Metre } from "./metre.ts";

/** How strong a written stroke is meant. */
export type Dynamic = "ghost" | "plain" | "accent";
export type Hand = "R" | "L";
/** Grace strokes before the main one: one for a flam, two for a drag. */
export type Ornament = "flam" | "drag";

/** One written stroke. */
export interface Note {
  /** Felt beats from the start of the groove, exact. */
  readonly position: Fraction;
  readonly voice: Voice;
  readonly dynamic: Dynamic;
  readonly hand?: Hand;
  readonly ornament?: Ornament;
  /** One movement of the hand, several bounces of the stick: a buzz. */
  readonly bounced?: true;
}

/** Written music that repeats. Notes are in order of position, then of voice in the grid. */
export interface Groove {
  readonly id: string;
  readonly name: string;
  readonly metre: Metre;
  readonly feel: Feel;
  /** Tempos at which it is at home. */
  readonly tempoBpm: { readonly low: Bpm; readonly high: Bpm };
  readonly bars: number;
  /** Voices in the order their lines are written, top to bottom. */
  readonly voices: readonly Voice[];
  readonly notes: readonly Note[];
}

/** Length of the groove before it repeats, in felt beats. */
export function grooveBeats(groove: Pick<Groove, "bars" | "metre">): number {
  return groove.bars * beatsPerBar(groove.metre);
}

/** The middle of the groove's tempos, as a ratio scale has it (geometric mean), to the whole beat a minute. */
export function usualTempo(groove: Pick<Groove, "tempoBpm">): Bpm {
  return Math.round(Math.sqrt(groove.tempoBpm.low * groove.tempoBpm.high));
}

/** Orders notes as a groove keeps them: by position, and at one position by the order of the lines. */
export function inOrder(notes: readonly Note[], voices: readonly Voice[]): readonly Note[] {
  return [...notes].sort(
    (a, b) => compare(a.position, b.position) || voices.indexOf(a.voice) - voices.indexOf(b.voice),
  );
}

/** A written stroke with its moment in a performance. */
export interface TimedNote {
  readonly time: Seconds;
  readonly note: Note;
  /** Felt beats from the start of the performance, as written (no swing applied). */
  readonly beat: number;
}

/** How strongly each dynamic is struck in a plain performance. Our choice: well apart, none at the ends. */
export const DYNAMIC_VELOCITY: Readonly<Record<Dynamic, Velocity>> = {
  ghost: 0.25,
  plain: 0.63,
  accent: 0.9,
};

/**
 * The strokes of `bars` bars of the groove, in order of time, from time 0, feel applied.
 *
 * @example
 * performed(groove, { tempoBpm: 120, bars: 1 })[0]?.time // => 0
 */
export function performed(
  groove: Groove,
  how: { readonly tempoBpm: Bpm; readonly bars: number },
): readonly TimedNote[] {
  const length = grooveBeats(groove);
  const end = how.bars * beatsPerBar(groove.metre);
  const strokes: TimedNote[] = [];
  for (let start = 0; start < end; start += length) {
    for (const note of groove.notes) {
      const beat = start + toNumber(note.position);
      if (beat >= end) break;
      strokes.push({ time: (playedBeat(groove.feel, beat) * 60) / how.tempoBpm, note, beat });
    }
  }
  return strokes;
}
