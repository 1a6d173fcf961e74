import type { Enrolment, HeardSyllable, Sound } from "../../engine/speech/index.ts";

/** Requests to the worker that hears syllables, answered in order. */
export type HearingRequest =
  | { readonly kind: "examples"; readonly id: number; readonly syllable: string; readonly sound: Sound }
  | { readonly kind: "hear"; readonly id: number; readonly sound: Sound; readonly enrolment: Enrolment };

export type HearingAnswer =
  | { readonly kind: "examples"; readonly id: number; readonly examples: Enrolment }
  | { readonly kind: "heard"; readonly id: number; readonly heard: readonly HeardSyllable[] }
  /** It cannot be told; the reason is for the user. */
  | { readonly kind: "refused"; readonly id: number; readonly reason: string }
  | { readonly kind: "failed"; readonly id: number; readonly reason: string };
