/** What a performance of a rudiment on two surfaces was like. Plain data. */
import type { Hand } from "../../score/index.ts";
import type { Bpm, Milliseconds, Seconds } from "../../units/index.ts";

/**
 * `other hand`: the stroke was there, by the other hand; `left out`: no strike for it; `added`: no stroke for the strike;
 * `bounce`: another bounce of a stroke that is to bounce.
 */
export type StrokeState = "as written" | "other hand" | "added" | "left out" | "bounce";

export interface JudgedStroke {
  /** Of a stroke left out, where it would have been. */
  readonly time: Seconds;
  /** `null` where it was left out. */
  readonly hand: Hand | null;
  /** `null` where nothing is written. */
  readonly expectedHand: Hand | null;
  readonly state: StrokeState;
  /** `null` for what is not written. */
  readonly role: "main" | "grace" | null;
  /** Which cycle of the rudiment, from 1. */
  readonly cycle: number | null;
}

/** Intervals between main strokes, against the tempo around them. `null` where too few were struck. */
export interface Evenness {
  readonly spreadMs: Milliseconds | null;
  /** The spread as a share of the usual interval. */
  readonly share: number | null;
  /** How much later the left hand comes than the right: negative when it is sooner. */
  readonly leftLaterMs: Milliseconds | null;
  /** Whether that can be heard in a row of strokes as far apart as these usually were. */
  readonly leftIsHeard: boolean;
}

/** Accents against what is not accented. `null` where the rudiment has none, or too few were struck to tell. */
export interface Accents {
  readonly written: number;
  readonly heard: number;
  /** Strokes as loud as an accent where none is written. */
  readonly elsewhere: number;
  /** Usual strength of an accent over that of the other main strokes. */
  readonly ratio: number;
}

export interface GraceGaps {
  readonly ornament: "flam" | "drag";
  readonly count: number;
  readonly asWritten: number;
  readonly tooTight: number;
  readonly tooOpen: number;
  /** Main strokes whose grace strokes were not all struck. */
  readonly missing: number;
  /** The usual gap from each grace stroke to the one after it, over all of them and by the hand of the main stroke. */
  readonly gapMs: Milliseconds | null;
  readonly byHandMs: Readonly<Record<Hand, Milliseconds | null>>;
  /** Grace strokes no softer than their main stroke. */
  readonly notSofter: number;
}

/** The second strokes of doubles, beside the first. `null` where the rudiment has none, or too few were struck. */
export interface SecondStrokes {
  readonly count: number;
  /** Usual strength of the second over the first, by hand. */
  readonly strength: Readonly<Record<Hand, number | null>>;
  /** How much later than even it comes, usually, by hand: negative when it is sooner. */
  readonly laterMs: Readonly<Record<Hand, Milliseconds | null>>;
}

/** How the tempo went: held, or from open (slow) to closed (fast) and back. */
export interface TempoCourse {
  readonly shape: "held" | "open-closed" | "closed-open" | "open-closed-open";
  readonly startBpm: Bpm;
  readonly fastestBpm: Bpm;
  readonly endBpm: Bpm;
}

export interface StickingReport {
  readonly rudimentId: string;
  /** Begun with the other hand than written; the hands expected are then changed throughout. */
  readonly mirrored: boolean;
  /** In order of time; grace strokes too. */
  readonly strokes: readonly JudgedStroke[];
  readonly evenness: Evenness;
  readonly accents: Accents | null;
  readonly graces: GraceGaps | null;
  readonly secondStrokes: SecondStrokes | null;
  /** `null` where too few strokes were matched to tell. */
  readonly tempo: TempoCourse | null;
}
