/**
 * A groove as a person might play it: for the demonstration player, and for tests of hearing and grading.
 */
import type { Voice } from "../kit/index.ts";
import { DYNAMIC_VELOCITY, type Groove, performed } from "../score/index.ts";
import {
  type Bpm,
  type Chance,
  type Milliseconds,
  normal,
  type Seconds,
  type Velocity,
} from "../units/index.ts";

export interface Demonstration {
  readonly tempoBpm: Bpm;
  readonly bars: number;
  /** Constant part of the timing: negative ahead, positive behind. */
  readonly leanMs: Milliseconds;
  /** Standard deviation of what is left. */
  readonly spreadMs: Milliseconds;
  /** Share of written strokes that are left out, 0 to 1. */
  readonly leftOut: number;
  /** Strokes added anywhere in time, as a share of the written ones. */
  readonly added: number;
  readonly chance: Chance;
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
 * The strokes of one humanised performance, in order of time. The first downbeat is at time 0 before lean and
 * spread; strokes that would fall before 0 fall on 0.
 *
 * @example
 * const how = { tempoBpm: 120, bars: 4, leanMs: 0, spreadMs: 0, leftOut: 0, added: 0, chance: seededChance(1) };
 * demonstrate(groove, how)[0]?.time // => 0
 */
export function demonstrate(groove: Groove, how: Demonstration): readonly DemonstratedStroke[] {
  const written = performed(groove, how);
  const end = written.at(-1)?.time ?? 0;
  const strokes: DemonstratedStroke[] = [];
  for (const { time, note } of written) {
    if (how.chance() < how.leftOut) continue;
    const played = Math.max(0, time + (how.leanMs + how.spreadMs * normal(how.chance)) / 1000);
    const velocity = humanVelocity(DYNAMIC_VELOCITY[note.dynamic], how.chance);
    if (note.ornament) {
      const graces = note.ornament === "drag" ? 2 : 1;
      for (let grace = graces; grace > 0; grace -= 1) {
        const before = Math.max(0, played - grace * FLAM_GAP_SECONDS);
        strokes.push({
          time: before,
          voice: note.voice,
          velocity: humanVelocity(DYNAMIC_VELOCITY.ghost, how.chance),
        });
      }
    }
    strokes.push({ time: played, voice: note.voice, velocity });
  }
  const additions = Math.round(written.length * how.added);
  for (let count = 0; count < additions; count += 1) {
    const voice = groove.voices[Math.floor(how.chance() * groove.voices.length)] ?? "snare";
    strokes.push({
      time: how.chance() * end,
      voice,
      velocity: humanVelocity(DYNAMIC_VELOCITY.plain, how.chance),
    });
  }
  return strokes.sort((a, b) => a.time - b.time);
}

function humanVelocity(velocity: Velocity, chance: Chance): Velocity {
  return Math.min(1, Math.max(1 / 127, velocity + VELOCITY_SPREAD * normal(chance)));
}
