/** What is being heard now, before it is a step of the round. */
export interface HearingNow {
  /** What the strikes are for: the question, or an answer that plays it back; `null` while none count. */
  readonly what: "question" | "answer" | null;
  readonly strokes: number;
  /** It is over, and is being thought over as a whole. */
  readonly isThoughtOver: boolean;
  /** Again was asked for meanwhile: it comes as soon as that is done. */
  readonly isAgainAsked: boolean;
  /** What could not be told, in a sentence. */
  readonly note: string | null;
}

export const NOTHING_HEARD: HearingNow = {
  what: null,
  strokes: 0,
  isThoughtOver: false,
  isAgainAsked: false,
  note: null,
};
