/**
 * Question: what does listening say of a take?
 * Conventions: plain data; times on the clock of the hits.
 */
import type { Voice } from "../kit/index.ts";
import type { Metre } from "../score/index.ts";
import type { Bpm, Seconds } from "../units/index.ts";

/** Why a candidate was preferred or doubted: a voice at a place of the bar that spoke for it or against it. */
export interface Evidence {
  readonly voice: Voice;
  /** Felt beats from the downbeat of the candidate's bar, from 0. */
  readonly place: number;
  /** Strokes heard there, per bar. */
  readonly heardPerBar: number;
  /** Strokes this groove has there, per bar. */
  readonly expectedPerBar: number;
  /** Natural-log likelihood ratio against grooves in general: positive spoke for, negative against. */
  readonly weight: number;
}

/** A known groove the take may be. */
export interface Candidate {
  readonly id: string;
  readonly name: string;
  /** Id of the written variant that fits best, for a groove of the catalogue. */
  readonly variant?: string;
  /** Calibrated chance that this is the groove, 0 to 1; candidates and `noneConfidence` sum to 1. */
  readonly confidence: number;
  readonly spokeFor: readonly Evidence[];
  readonly spokeAgainst: readonly Evidence[];
}

/** The pulse that was heard. */
export interface Pulse {
  readonly tempoBpm: Bpm;
  readonly metre: Metre;
  /** Session-clock times of the felt beats, from the first to the last strike. */
  readonly beats: readonly Seconds[];
  /** Those of `beats` that begin a bar. */
  readonly downbeats: readonly Seconds[];
  /** Chance that tempo and downbeat are right, 0 to 1. */
  readonly confidence: number;
}

/** Too little was played to hear anything in it. */
export interface NothingHeard {
  readonly kind: "nothing";
  readonly reason: "no-hits" | "too-few-hits";
}

export interface Heard {
  readonly kind: "heard";
  readonly pulse: Pulse;
  /** First and last strike. */
  readonly span: { readonly from: Seconds; readonly to: Seconds; readonly bars: number };
  /** One for each groove of the stock, best first. */
  readonly candidates: readonly Candidate[];
  /** Chance that it is none of the known grooves. */
  readonly noneConfidence: number;
  /** False: "none I know". */
  readonly known: boolean;
}

export type Hearing = NothingHeard | Heard;
