import type { Moments } from "../../../engine/ear/index.ts";

/** What is being struck or named now, before it is a step of the round. */
export interface Collecting {
  /** What the strikes are for; `null` while none count. */
  readonly what: "question" | "answer" | null;
  readonly moments: Moments;
}

export const NOTHING_COLLECTED: Collecting = { what: null, moments: [] };
