import type { SaidStroke } from "../../../engine/rounds/index.ts";

/** What was heard by the microphone, before somebody has said that it is so. */
export interface Proposal {
  readonly as: "call" | "answer";
  readonly strokes: readonly SaidStroke[];
  readonly words: readonly { readonly syllable: string; readonly confidence: number }[];
}

/** What goes on beside the steps of the round. */
export interface Doing {
  /** What strikes are for now. */
  readonly struck: "call" | "answer" | null;
  /** How many were struck so far. */
  readonly count: number;
  readonly proposal: Proposal | null;
  /** Why a line could not be read; `null` where it could. */
  readonly trouble: string | null;
}

export const NOTHING: Doing = { struck: null, count: 0, proposal: null, trouble: null };
