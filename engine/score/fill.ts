import type { Voice } from "../kit/index.ts";
import { add, type Bpm, fraction } from "../units/index.ts";
import type { Feel } from "./feel.ts";
import type { Groove, Note } from "./groove.ts";
import type { Level } from "./level.ts";
import { beatsPerBar, type Metre } from "./metre.ts";

/**
 * Written music played once, from one beat to two bars long, that ends a bar and leads to the one after it.
 * The stroke on that one is not part of it. Notes are in order of position, then of voice in the grid.
 */
export interface Fill {
  readonly id: string;
  readonly name: string;
  /** The level from which a student can play it. */
  readonly level: Level;
  readonly metre: Metre;
  readonly feel: Feel;
  /** Tempos at which it is at home. */
  readonly tempoBpm: { readonly low: Bpm; readonly high: Bpm };
  /** Whole felt beats from the beat of its first stroke to the end of its last bar. */
  readonly beats: number;
  /** Voices in the order their lines are written, top to bottom. */
  readonly voices: readonly Voice[];
  /** Positions count from the fill's own first beat. */
  readonly notes: readonly Note[];
}

/** Our choice: what goes on for longer is a solo. */
export const MOST_BARS_IN_A_FILL = 2;

/** Bars the fill touches: 1, or 2 where it is longer than a bar. */
export function fillBars(fill: Pick<Fill, "beats" | "metre">): number {
  return Math.ceil(fill.beats / beatsPerBar(fill.metre));
}

/**
 * The beat of its first bar, from 1, on which the fill begins.
 *
 * @example
 * startsOnBeat({ beats: 1, metre: FOUR_FOUR }) // => 4
 * startsOnBeat({ beats: 5, metre: FOUR_FOUR }) // => 4
 */
export function startsOnBeat(fill: Pick<Fill, "beats" | "metre">): number {
  return fillBars(fill) * beatsPerBar(fill.metre) - fill.beats + 1;
}

/**
 * The fill in its whole bars, silent before it begins: to be laid beside a take, or written to a file.
 * It keeps the fill's id and name.
 */
export function inWholeBars(fill: Fill): Groove {
  const silentBeats = fraction(startsOnBeat(fill) - 1);
  const { id, name, metre, feel, tempoBpm, voices } = fill;
  const notes = fill.notes.map((note) => ({ ...note, position: add(note.position, silentBeats) }));
  return { id, name, metre, feel, tempoBpm, bars: fillBars(fill), voices, notes };
}
