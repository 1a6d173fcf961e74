/**
 * All that grading says of a take. Plain data: it can be stored and sent as it is.
 * Sign, everywhere: a negative offset is early (ahead), a positive one late (behind).
 * A figure that cannot be told (no matched strokes, no swung pairs) is `null`, never 0.
 */
import type { Hit, Voice, VoiceFamily } from "../kit/index.ts";
import type { Dynamic, Ornament } from "../score/index.ts";
import type { Bpm, Milliseconds, Seconds, Velocity } from "../units/index.ts";
import type { BandFigures } from "./band.ts";
import type { FormFigures, FormSlip } from "./slip.ts";

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
      /**
       * Only after a slip of the form: by how much the player was off the written place there (negative ahead), in
       * the take's milliseconds. `offsetMs` is counted from the slipped place: the slip itself is told by `form`.
       */
      readonly slippedMs?: Milliseconds;
    }
  /** `grace`: the soft stroke of a flam or drag that is written there. */
  | { readonly state: "grace"; readonly hit: Hit; readonly targetIndex: number }
  /** `surplus`: part of a slip of the form (a bar played twice); told there, and not counted as added. */
  | { readonly state: "extra"; readonly hit: Hit; readonly surplus?: true }
  | { readonly state: "retrigger"; readonly hit: Hit };

export interface MissedNote {
  readonly targetIndex: number;
  /** On the target's own clock. */
  readonly time: Seconds;
  readonly voice: Voice;
  /** Part of a slip of the form (a bar skipped); told there, and not counted as left out. */
  readonly skipped?: true;
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

/** Flams in short; `ornaments` tells each flam and drag. */
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

/**
 * How the strokes of one even row wander, after Wing & Kristofferson, Perception & Psychophysics 14 (1973) 5–12:
 * the part of the inner clock and the part of the limbs, each one standard deviation in milliseconds.
 */
export type Wander =
  | { readonly kind: "too-few"; readonly intervals: number }
  | ({
      /** The model holds: the correlation of neighbouring errors lies in −0.5 to 0. */
      readonly kind: "clock-and-limbs";
      readonly clockMs: Milliseconds;
      readonly limbMs: Milliseconds;
    } & WanderRow)
  /** The correlation lies outside −0.5 to 0: the two parts cannot be told, and are not forced. */
  | ({ readonly kind: "model-does-not-hold" } & WanderRow);

export interface WanderRow {
  readonly limb: Limb;
  /** Errors of successive intervals that were weighed, and how long those intervals are as played. */
  readonly intervals: number;
  readonly intervalMs: Milliseconds;
  /** Standard deviation of the intervals about what is usual at their place of the bar. */
  readonly intervalSpreadMs: Milliseconds;
  /** Correlation of each interval's error with the next one's, and its standard error. */
  readonly lag1: number;
  readonly lag1Error: number;
  /**
   * Share of an offset that is corrected by the next stroke, with a click (Vorberg & Wing 1996); `null` without a
   * click, or where it cannot be told to a quarter.
   */
  readonly correction: number | null;
}

/** A hand or a foot, by the family of voices it plays. */
export type Limb = VoiceFamily;

export interface LimbSwing {
  readonly limb: Limb;
  /** Long to short; `null` when fewer than three pairs were played. */
  readonly ratio: number | null;
  readonly pairs: number;
  /** Whether the limb plays the beats as well; otherwise its off-beats are measured from the beats of the others. */
  readonly ownBeats: boolean;
}

/** Two limbs on strokes that are written together. */
export interface UnisonFigures {
  readonly limb: Limb;
  /** The limb the other is measured from: the one that keeps the time, where it is one of the two. */
  readonly against: Limb;
  readonly count: number;
  /** Mean gap: positive when `limb` sounds after `against`. */
  readonly gapMs: Milliseconds;
  /** One standard deviation of the gaps; `null` for a single pair. */
  readonly spreadMs: Milliseconds | null;
  /** Pairs so far apart that a listener hears two strokes one after the other. */
  readonly heardApart: number;
}

/** One written flam or drag. */
export interface OrnamentGap {
  readonly ornament: Ornament;
  readonly targetIndex: number;
  readonly voice: Voice;
  readonly bar: number;
  readonly beat: number;
  /** From each grace stroke to the stroke after it, in the order played; empty when no grace stroke was heard. */
  readonly gapsMs: readonly Milliseconds[];
  readonly place: "as-written" | "too-tight" | "too-open" | "no-grace";
}

export interface OrnamentFigures {
  readonly ornament: Ornament;
  /** Of those whose main stroke was played. */
  readonly asWritten: number;
  readonly tooTight: number;
  readonly tooOpen: number;
  readonly noGrace: number;
  /** Mean of all gaps. */
  readonly gapMs: Milliseconds | null;
  readonly each: readonly OrnamentGap[];
}

export interface HiHatPlace {
  readonly targetIndex: number;
  readonly bar: number;
  readonly beat: number;
  readonly was: "open-as-closed" | "closed-as-open";
}

/** Hi-hats open and closed, written against heard. `null` in the report when no hi-hat is written. */
export interface HiHatFigures {
  /** Hand strokes written open and closed that were answered on the hi-hat. */
  readonly open: number;
  readonly closed: number;
  readonly openAsClosed: number;
  readonly closedAsOpen: number;
  /** Foot strokes written, and how many of them a hand or nobody answered. */
  readonly pedal: number;
  readonly pedalMissing: number;
  /** The middle of how far open the kit says the hi-hat was, 0 shut to 1 wide; `null` when the kit does not say. */
  readonly opennessOpen: number | null;
  readonly opennessClosed: number | null;
  readonly where: readonly HiHatPlace[];
}

/** Strength on one voice, against the player's own range there. */
export interface DynamicsFigures {
  readonly voice: Voice;
  /** The player's tenth, middle and ninetieth of a hundred strokes by strength; `null` below five strokes. */
  readonly range: { readonly soft: Velocity; readonly middle: Velocity; readonly loud: Velocity } | null;
  /** The player's own plain stroke; `null` when there is none to compare with: the counts are then `null` as well. */
  readonly plain: Velocity | null;
  readonly accents: {
    /** Written and played on their voice. */
    readonly written: number;
    /** Of those, the ones that stand out from the plain strokes. */
    readonly standOut: number;
    /** Strokes that stand out though no accent is written. */
    readonly unwritten: number;
  } | null;
  readonly ghosts: {
    readonly written: number;
    readonly asGhosts: number;
    readonly tooLoud: number;
    readonly leftOut: number;
    /** Ghost strokes that are not written. */
    readonly added: number;
  } | null;
  /** What differs, in order of the take. */
  readonly where: readonly {
    readonly targetIndex: number;
    readonly bar: number;
    readonly beat: number;
    readonly written: Dynamic;
    readonly heard: Dynamic;
  }[];
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
    }
  | { readonly kind: "form"; readonly slip: FormSlip }
  | {
      readonly kind: "unison";
      readonly limb: Limb;
      readonly against: Limb;
      /** Positive when `limb` sounds after `against`. */
      readonly gapMs: Milliseconds;
    }
  | {
      readonly kind: "ornament";
      readonly ornament: Ornament;
      readonly was: "too-tight" | "too-open" | "no-grace";
      readonly count: number;
    }
  | { readonly kind: "hi-hat"; readonly was: HiHatPlace["was"]; readonly count: number }
  | { readonly kind: "accents"; readonly voice: Voice; readonly count: number };

/** Where the one thing to work on shows best: the bar and the beat of it, each from 1. */
export interface WorkOnPlace {
  readonly bar: number;
  readonly beat: number;
}

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
  readonly wander: Wander;
  /** One row for each limb with off-beats, beside the swing of the whole. */
  readonly swingByLimb: readonly LimbSwing[];
  readonly unisons: readonly UnisonFigures[];
  /** Flams and drags, whichever are written. */
  readonly ornaments: readonly OrnamentFigures[];
  readonly hiHat: HiHatFigures | null;
  /** One row for each written voice that was played. */
  readonly dynamics: readonly DynamicsFigures[];
  readonly form: FormFigures;
  readonly band: BandFigures;
  readonly workOn: WorkOn;
  /** `null` when it shows nowhere in particular. */
  readonly workOnPlace: WorkOnPlace | null;
}
