/**
 * Question: what does listening say of a take?
 * Conventions: plain data; times on the clock of the hits.
 */
import type { Metre } from "../score/index.ts";
import type { Bpm, Seconds } from "../units/index.ts";

/** Why one candidate and not a neighbour. */
export interface Rather {
  /** Id of the neighbour. */
  readonly than: string;
  /** A clause: "the snare holds two and four". */
  readonly because: string;
}

/** What speaks for a candidate rather than for its neighbours, and what speaks against it. */
export interface Why {
  readonly rather: readonly Rather[];
  /** A clause: "the kick on two is not its own". */
  readonly but: string;
}

/** A known groove the take may be. */
export interface Candidate {
  readonly id: string;
  readonly name: string;
  /** Id of the written variant that fits best, for a groove of the catalogue. */
  readonly variant?: string;
  /** Calibrated chance that this is the groove, 0 to 1; candidates and `noneConfidence` sum to 1. */
  readonly confidence: number;
  /** For the first few; `whyWords` makes sentences of it. */
  readonly why?: Why;
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

/** Where else the beat could be, at the tempo that was heard. */
export interface BeatDoubt {
  /** Chance that beats begin elsewhere within the beat: half a beat off, mostly. */
  readonly between: number;
  /** Chance that another of the beats is the one. */
  readonly one: number;
}

/** Too little was played to hear anything in it. */
export interface NothingHeard {
  readonly kind: "nothing";
  readonly reason: "no-hits" | "too-few-hits";
}

/** A fill, set apart from the groove. */
export interface HeardFill {
  /** The beat it begins on, and the beat it leads to, within the take. */
  readonly from: Seconds;
  readonly to: Seconds;
  /** Bar of the take in which it begins, from 1: the bar of the first strike. */
  readonly bar: number;
  /** Felt beats. */
  readonly beats: number;
  /** Which of the known fills, when that is likelier than all else it could be. */
  readonly id?: string;
  readonly name?: string;
  /** Chance that it ends as a fill, not as the groove going on, 0 to 1. */
  readonly confidence: number;
}

/** Strokes counted in before the groove. */
export interface CountIn {
  readonly strokes: number;
  /** First and last of them. */
  readonly from: Seconds;
  readonly to: Seconds;
  readonly beatSeconds: Seconds;
}

/** Long to short, as it was played. */
export interface HeardSwing {
  /** 1 is straight. */
  readonly ratio: number;
  /** Which notes are long and short. */
  readonly of: "eighths" | "sixteenths";
}

/** A known fill that the take may hold. */
export interface FillCandidate {
  readonly id: string;
  readonly name: string;
  /** Chance that it is this one, if it is one of those that are known at all, 0 to 1. */
  readonly confidence: number;
}

/** A drum part that was played, or a passage of it. */
export interface HeardPart {
  readonly id: string;
  readonly name: string;
  /** Chance that it is this one, and not grooves and fills played one after another, 0 to 1. */
  readonly confidence: number;
}

export interface Heard {
  readonly kind: "heard";
  readonly pulse: Pulse;
  /** Nothing is in doubt where it was counted in. */
  readonly doubt: BeatDoubt;
  /** First and last strike. */
  readonly span: { readonly from: Seconds; readonly to: Seconds; readonly bars: number };
  /** `null` when no long and short are heard. */
  readonly swing: HeardSwing | null;
  /** One for each groove of the stock, best first. */
  readonly candidates: readonly Candidate[];
  /** Chance that it is none of the known grooves. */
  readonly noneConfidence: number;
  /** False: "none I know". */
  readonly known: boolean;
  /** In order of time; they do not overlap. */
  readonly fills: readonly HeardFill[];
  /** The known fills that may be in it, likeliest first, whether or not one is told: for who knows that there is one. */
  readonly fillCandidates: readonly FillCandidate[];
  /** The known drum part that it is, when that is likelier than all else. */
  readonly part?: HeardPart;
  /** What was counted in before the groove, when it was; the rest of the hearing is of what came after it. */
  readonly countIn?: CountIn;
}

export type Hearing = NothingHeard | Heard;
