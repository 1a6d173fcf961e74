/** What is written on a drum-set staff, symbol by symbol: the one model that engraving and MusicXML read. */
import type { Bpm, Fraction } from "../../units/index.ts";
import type { Note } from "../groove.ts";
import type { Metre } from "../metre.ts";
import type { BeatGroup } from "./beatGroups.ts";
import type { NoteBase, NoteValue } from "./noteValue.ts";
import type { StaffPart, StaffPlace } from "./staffPlace.ts";
import type { SwingMark } from "./swingMark.ts";

/** One notehead. Ghosts are written in parentheses, flams and drags with one or two small notes before. */
export interface StaffHead {
  /** The stroke that is written, as it stands in the source. */
  readonly note: Note;
  /** Its place in the source's list of notes. */
  readonly index: number;
  readonly place: StaffPlace;
}

/** Noteheads on one stem, from the lowest up. Struck notes are never tied: what a value cannot say is rests. */
export interface StaffChord {
  readonly kind: "chord";
  /** In whole notes from the start of the bar. */
  readonly start: Fraction;
  /** In whole notes; within a tuplet shorter or longer than the value says. */
  readonly length: Fraction;
  readonly value: NoteValue;
  readonly heads: readonly StaffHead[];
  /** Whether any of its strokes is accented: the sign is written once, beyond the stem (above the hands, below the feet). */
  readonly accent: boolean;
}

export interface StaffRest {
  readonly kind: "rest";
  readonly start: Fraction;
  readonly length: Fraction;
  readonly value: NoteValue;
  /** A whole rest in the middle of the bar, whatever the metre. Its value is a whole note, its length the bar's. */
  readonly wholeBar: boolean;
}

export type StaffSymbol = StaffChord | StaffRest;

/** `actual` notes in the time of `normal` over the symbols from `first` to `last` (places in the list, both included). */
export interface StaffTuplet {
  readonly actual: number;
  readonly normal: number;
  /** The value counted: 8 for a triplet of eighths. */
  readonly unit: NoteBase;
  readonly first: number;
  readonly last: number;
}

/** One part in one bar. The symbols fill the bar exactly. */
export interface StaffPartBar {
  readonly part: StaffPart;
  readonly symbols: readonly StaffSymbol[];
  readonly tuplets: readonly StaffTuplet[];
  /**
   * The symbols that each beam joins, first to last (both included). It begins and ends on a chord; rests shorter than
   * a quarter may lie under it.
   */
  readonly beams: readonly { readonly first: number; readonly last: number }[];
}

export interface StaffBar {
  /** The parts that are written, hands first. A part that is silent through the whole score is left out. */
  readonly parts: readonly StaffPartBar[];
  /** Whether it is written as the bar before it: a simile sign may stand for it. */
  readonly sameAsBefore: boolean;
}

/** Beats a minute, and the value that is one beat: a dotted quarter in 12/8, an eighth in 7/8. */
export interface TempoMark {
  readonly beat: NoteValue;
  readonly low: Bpm;
  readonly high: Bpm;
}

export interface StaffScore {
  readonly name?: string;
  readonly metre: Metre;
  /** The division of each bar that beams follow. */
  readonly groups: readonly BeatGroup[];
  readonly swing?: SwingMark;
  readonly tempo?: TempoMark;
  /** The section of a part that begins here. */
  readonly section?: string;
  /** Whether all bars stand between repeat signs. */
  readonly repeated: boolean;
  /** Whether more of the same music follows: the last bar line is then a double one, not the final one. */
  readonly goesOn: boolean;
  readonly bars: readonly StaffBar[];
}
