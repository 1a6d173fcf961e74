import type { PlayerId, SaidStroke } from "../../../engine/rounds/index.ts";

/** What was heard by the microphone, before somebody has said that it is so. */
export interface Proposal {
  readonly as: "call" | "answer";
  readonly strokes: readonly SaidStroke[];
  readonly words: readonly { readonly syllable: string; readonly confidence: number }[];
}

/** What goes on beside the steps of the round. */
export interface Doing {
  /** Strokes of the call that is being struck so far; `null` while none is. */
  readonly calling: number | null;
  /** Strokes so far of each whose answer is listened for at a kit. */
  readonly answering: ReadonlyMap<PlayerId | null, number>;
  /** Whose answer is meant where several are waited for and one kit or voice is heard; `undefined`: the first. */
  readonly chosen: PlayerId | undefined;
  readonly proposal: Proposal | null;
  /** Why a line could not be read; `null` where it could. */
  readonly trouble: string | null;
}

export const NOTHING: Doing = {
  calling: null,
  answering: new Map(),
  chosen: undefined,
  proposal: null,
  trouble: null,
};
