/**
 * A groove as a person might play it: for the demonstration player, and for tests of hearing and grading.
 */
import type { Voice } from "../kit/index.ts";
import { DYNAMIC_VELOCITY, type Dynamic, type Groove } from "../score/index.ts";
import { type Chance, type Milliseconds, normal, type Seconds, type Velocity } from "../units/index.ts";
import { type IntendedStroke, type Intention, intended } from "./intended.ts";

/** What is meant to be played, and how it slips. */
export interface Demonstration extends Intention {
  /** Constant part of the timing: negative ahead, positive behind. */
  readonly leanMs: Milliseconds;
  /** Standard deviation of what is left. */
  readonly spreadMs: Milliseconds;
  /** Voices that lean or spread in a way of their own, in place of the above. */
  readonly timingByVoice?: Partial<Readonly<Record<Voice, VoiceTiming>>>;
  /**
   * Standard deviation of the motor delay of each stroke in the two-level model, whose other level is `clockMs`. It
   * is of the same kind as the spread, each stroke by itself, and their variances add.
   */
  readonly motorMs?: Milliseconds;
  /** Share of written strokes that are left out, 0 to 1. */
  readonly leftOut: number;
  /** Strokes added anywhere in time, as a share of the written ones. */
  readonly added: number;
  /** Standard deviation of strength about a written dynamic, where it is to be another than 0.07. */
  readonly velocitySpread?: Partial<Readonly<Record<Dynamic, Velocity>>>;
}

export interface VoiceTiming {
  readonly leanMs?: Milliseconds;
  readonly spreadMs?: Milliseconds;
}

export interface DemonstratedStroke {
  readonly time: Seconds;
  readonly voice: Voice;
  readonly velocity: Velocity;
}

/** Standard deviation of strength about the written dynamic. Our choice. */
const VELOCITY_SPREAD = 0.07;
/** A flam's grace stroke comes this long before the main one: the median measured on the Groove MIDI Dataset. */
const FLAM_GAP_SECONDS = 0.026;

/**
 * The strokes of one humanised performance, in order of time. Time 0 is the first stroke of the count-in, or the first
 * downbeat where none is asked for, before lean and spread; strokes that would fall before 0 fall on 0.
 * `demonstratedDownbeats` says where the downbeats are. A count-in is never left out, nor is anything added to it.
 *
 * @throws FillPlaceError when a fill does not fit where it is placed.
 * @throws RangeError when the tempo course or the count-in cannot be.
 * @example
 * const how = { tempoBpm: 120, bars: 4, leanMs: 0, spreadMs: 0, leftOut: 0, added: 0, chance: seededChance(1) };
 * demonstrate(groove, how)[0]?.time // => 0
 */
export function demonstrate(groove: Groove, how: Demonstration): readonly DemonstratedStroke[] {
  const { countIn, strokes, beatTimes, voices } = intended(groove, how);
  const counted = countIn.flatMap((stroke) => played(stroke, how));
  const asWritten = strokes.flatMap((stroke) => (how.chance() < how.leftOut ? [] : played(stroke, how)));
  const from = beatTimes[0] ?? 0;
  const span = { from, end: strokes.at(-1)?.time ?? from };
  const additions = Array.from({ length: Math.round(strokes.length * how.added) }, () =>
    addition(voices, span, how),
  );
  return [...counted, ...asWritten, ...additions].sort((a, b) => a.time - b.time);
}

/** A stroke with its slip and its touch, the grace strokes of its ornament before it. */
function played({ time, note }: IntendedStroke, how: Demonstration): readonly DemonstratedStroke[] {
  const { leanMs = how.leanMs, spreadMs = how.spreadMs } = how.timingByVoice?.[note.voice] ?? {};
  const looseMs = Math.hypot(spreadMs, how.motorMs ?? 0);
  const main = Math.max(0, time + (leanMs + looseMs * normal(how.chance)) / 1000);
  const velocity = humanVelocity(note.dynamic, how);
  const graceCount = note.ornament === undefined ? 0 : note.ornament === "drag" ? 2 : 1;
  const graces = Array.from({ length: graceCount }, (_, index) => ({
    time: Math.max(0, main - (graceCount - index) * FLAM_GAP_SECONDS),
    voice: note.voice,
    velocity: humanVelocity("ghost", how),
  }));
  return [...graces, { time: main, voice: note.voice, velocity }];
}

function addition(
  voices: readonly Voice[],
  { from, end }: { readonly from: Seconds; readonly end: Seconds },
  how: Demonstration,
): DemonstratedStroke {
  const voice = voices[Math.floor(how.chance() * voices.length)] ?? "snare";
  const time = from + how.chance() * (end - from);
  return { time, voice, velocity: humanVelocity("plain", how) };
}

function humanVelocity(
  dynamic: Dynamic,
  {
    velocitySpread,
    chance,
  }: { readonly velocitySpread?: Demonstration["velocitySpread"]; readonly chance: Chance },
): Velocity {
  const spread = velocitySpread?.[dynamic] ?? VELOCITY_SPREAD;
  return Math.min(1, Math.max(1 / 127, DYNAMIC_VELOCITY[dynamic] + spread * normal(chance)));
}
