import type { Proposal } from "../../../engine/rounds/index.ts";

/** What is being heard now, before it is a step of the round. */
export interface HearingNow {
  /** What the strikes are for: the question, or an answer that plays it back; `null` while none count. */
  readonly what: "question" | "answer" | null;
  readonly strokes: number;
  /** The latest of what they may be. */
  readonly proposal: Proposal | null;
  /** What could not be told, in a sentence. */
  readonly note: string | null;
}

export const NOTHING_HEARD: HearingNow = { what: null, strokes: 0, proposal: null, note: null };
