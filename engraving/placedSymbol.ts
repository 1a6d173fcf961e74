import type { StaffChord, StaffPart, StaffPartBar, StaffRest } from "../engine/score/index.ts";

/** One head on the picture. */
export interface PlacedHead {
  /** The note's place in the score's source. */
  readonly index: number;
  readonly left: number;
  readonly right: number;
  readonly y: number;
}

/** A chord or rest with where it stands. Lengths in the picture's units, y down. */
export interface PlacedSymbol {
  /** Place of its staff in the system, from 0 at the top. */
  readonly staff: number;
  readonly bar: number;
  readonly part: StaffPart;
  /** The part's bar it belongs to, and its place in it. */
  readonly written: StaffPartBar;
  readonly place: number;
  readonly symbol: StaffChord | StaffRest;
  readonly left: number;
  readonly right: number;
  /** With stem, flag and beam. */
  readonly top: number;
  readonly bottom: number;
  readonly heads: readonly PlacedHead[];
}

/** The symbol on the page, its drawing moved down by `dy`. */
export function onPage(symbol: PlacedSymbol, dy: number): PlacedSymbol {
  return {
    ...symbol,
    top: symbol.top + dy,
    bottom: symbol.bottom + dy,
    heads: symbol.heads.map((head) => ({ ...head, y: head.y + dy })),
  };
}
