/**
 * All that grading says of a take. Plain data: it can be stored and sent as it is.
 * Sign, everywhere: a negative offset is early (ahead), a positive one late (behind).
 * A figure that cannot be told (no matched strokes, no swung pairs) is `null`, never 0.
 */
import type { Hit, Voice } from "../kit/index.ts";
import type { Bpm, Milliseconds, Seconds } from "../units/index.ts";

/** What became of one hit. `offset` on matched hits: played minus written. */
export type JudgedHit =
  | {
      readonly state: "matched";
      readonly hit: Hit;
      readonly targetIndex: number;
      /** The note's moment on the target's own clock. */
      readonly targetTime: Seconds;
      readonly targetVoice: Voice;
      readonly offsetMs: Milliseconds;
    }
  /** `grace`: the soft stroke of a flam or drag that is written there. */
  | { readonly state: "grace"; readonly hit: Hit; readonly targetIndex: number }
  | { readonly state: "extra"; readonly hit: Hit }
  | { readonly state: "retrigger"; readonly hit: Hit };

export interface MissedNote {
  readonly targetIndex: number;
  /** On the target's own clock. */
  readonly time: Seconds;
  readonly voice: Voice;
}

/** Lean (the constant part, signed) and spread (what is left: one standard deviation) of a set of strokes. */
export interface LeanAndSpread {
  readonly count: number;
  readonly leanMs: Milliseconds | null;
  readonly spreadMs: Milliseconds | null;
}

export interface BeatFigures extends LeanAndSpread {
  /** Beat of the bar, from 1. */
  readonly beat: number;
}

export interface VoiceFigures extends LeanAndSpread {
  readonly voice: Voice;
  /** Strokes written for this voice, within the part that was played. */
  readonly written: number;
  readonly asWritten: number;
  /** Matched in time but sounded on another voice: which, and how often. */
  readonly otherSound: readonly { readonly voice: Voice; readonly count: number }[];
  readonly leftOut: number;
  /** Hits on this voice that answer no written stroke. */
  readonly added: number;
  readonly touch: TouchFigures;
}

/**
 * Strokes played on their own voice by touch, each against the player's own plain stroke on that voice. All 0 when
 * there is no plain stroke or accent to compare with.
 */
export interface TouchFigures {
  readonly asWritten: number;
  /** Softer than written: a plain stroke or an accent played like a ghost note. */
  readonly ghosted: number;
  /** Louder than written: a ghost note played like a plain stroke, a plain one like an accent. */
  readonly heavy: number;
}

/** Flams only: drags are accepted with up to two grace strokes, and not counted here. */
export interface FlamFigures {
  readonly written: number;
  readonly played: number;
  /** Mean gap from grace to main stroke. */
  readonly gapMs: Milliseconds | null;
}

/** One point of the chart along the take: a bar's lean. */
export interface BarFigures extends LeanAndSpread {
  /** Bar of the take, from 1. */
  readonly bar: number;
}

/** The single thing that would better the take most; `nothing` when all differences are below what can be heard. */
export type WorkOn =
  | { readonly kind: "nothing" }
  | { readonly kind: "no-match" }
  | { readonly kind: "left-out"; readonly voice: Voice; readonly count: number; readonly written: number }
  | { readonly kind: "other-sound"; readonly voice: Voice; readonly heard: Voice; readonly count: number }
  | { readonly kind: "added"; readonly voice: Voice; readonly count: number }
  | {
      readonly kind: "beat-wanders";
      readonly voice: Voice;
      readonly beat: number;
      readonly spreadMs: Milliseconds;
    }
  | {
      readonly kind: "beat-leans";
      readonly voice: Voice;
      readonly beat: number;
      readonly leanMs: Milliseconds;
    }
  | { readonly kind: "drift"; readonly percent: number }
  | {
      readonly kind: "touch";
      readonly voice: Voice;
      readonly touch: "ghosted" | "heavy";
      readonly count: number;
    };

export interface Report {
  readonly targetName: string;
  readonly hits: readonly JudgedHit[];
  readonly missed: readonly MissedNote[];
  /** Mean offset of all matched strokes. 0 by construction when the start was free, which absorbs a constant lean. */
  readonly leanMs: Milliseconds | null;
  /** Around the lean; when the tempo surely moved, around the drift. */
  readonly spreadMs: Milliseconds | null;
  /** Tempo as played; `null` when too little was played to tell. */
  readonly tempoBpm: Bpm | null;
  /**
   * Tempo gained over the take, in percent; negative when lost. Against the clock when take and target share
   * one; against the take's own beginning when the start was free.
   */
  readonly driftPercent: number | null;
  /** Long to short within the beat; `null` where nothing is written on both halves of a beat. */
  readonly swingRatio: number | null;
  readonly perBeat: readonly BeatFigures[];
  /** Drift left in: this is where it shows. Beats and voices have it taken out. */
  readonly perBar: readonly BarFigures[];
  readonly voices: readonly VoiceFigures[];
  /**
   * Of the strokes that met a written one, the share that sounded on the voice it is written for, 0 to 1. What was
   * left out is a matter of rhythm, not of voice, and is told by `missed`. `null` when nothing met.
   */
  readonly voiceAccuracy: number | null;
  readonly flams: FlamFigures;
  /** Where the target's time 0 lies on the take's clock, and how much longer the take's seconds are than the target's. */
  readonly start: { readonly time: Seconds; readonly stretch: number };
  readonly workOn: WorkOn;
}
