/**
 * The parts the drums play in a groove, as listening weighs them.
 * Source: the reduction of 22 keys to nine voices published with the Groove MIDI Dataset (Gillick et al., ICML
 * 2019); cross-stick and pedal, which that reduction folds away, are kept as roles of their own.
 */
import type { Hit, Voice } from "../kit/index.ts";
import type { Seconds } from "../units/index.ts";

export const ROLES = [
  "kick",
  "snare",
  "cross-stick",
  "closed hi-hat",
  "open hi-hat",
  "pedal",
  "high tom",
  "mid tom",
  "floor tom",
  "crash",
  "ride",
] as const;
export const ROLE_COUNT = ROLES.length;

const ROLE_OF: Partial<Readonly<Record<Voice, number>>> = {
  kick: 0,
  surdo: 0,
  snare: 1,
  clap: 1,
  "cross-stick": 2,
  clave: 2,
  "wood-block": 2,
  sticks: 2,
  "hi-hat-closed": 3,
  shaker: 3,
  "hi-hat-open": 4,
  "hi-hat-pedal": 5,
  "high-tom": 6,
  bongo: 6,
  timbale: 6,
  "mid-tom": 7,
  conga: 7,
  "floor-tom": 8,
  "crash-left": 9,
  "crash-right": 9,
  splash: 9,
  china: 9,
  ride: 10,
  bell: 10,
  cowbell: 10,
};

/** The voice that stands for a role when evidence is told. */
export const ROLE_VOICES: readonly Voice[] = [
  "kick",
  "snare",
  "cross-stick",
  "hi-hat-closed",
  "hi-hat-open",
  "hi-hat-pedal",
  "high-tom",
  "mid-tom",
  "floor-tom",
  "crash-left",
  "ride",
];

/**
 * How much a stroke of each role counts: kick and snare make the skeleton of a groove, the hands that keep
 * time say less about which one it is. Our choice, tuned on the development part of the Groove MIDI Dataset.
 */
export const ROLE_WEIGHTS: readonly number[] = [1.4, 1.4, 1.2, 0.7, 0.8, 0.7, 1, 1, 1, 0.8, 0.7];

/**
 * Voices a player may put in another's place without making another groove of it: `[from, to, share]`. Our choice.
 */
export const STAND_INS: readonly (readonly [number, number, number])[] = [
  [1, 2, 0.12],
  [2, 1, 0.12],
  [3, 10, 0.1],
  [10, 3, 0.1],
  [3, 4, 0.12],
  [4, 3, 0.2],
  [4, 9, 0.05],
  [6, 7, 0.15],
  [7, 6, 0.15],
  [7, 8, 0.15],
  [8, 7, 0.15],
];

/** One strike as listening sees it. */
export interface Stroke {
  readonly time: Seconds;
  /** Index into {@link ROLES}. */
  readonly role: number;
  /** 0 to 1: a ghost note counts for less than a plain stroke. */
  readonly weight: number;
}

/** A stroke's weight from its strength: 0.3 for the softest, 1 from a plain stroke on. Our choice. */
export function strokeWeight(velocity: number): number {
  return Math.min(1, Math.max(0.3, 0.2 + 1.4 * velocity));
}

/** The strikes that have a role, in order of time. */
export function strokesOfHits(hits: readonly Hit[]): readonly Stroke[] {
  const strokes = hits.flatMap((hit): Stroke[] => {
    const role = ROLE_OF[hit.voice];
    return role === undefined ? [] : [{ time: hit.time, role, weight: strokeWeight(hit.velocity) }];
  });
  return strokes.sort((a, b) => a.time - b.time);
}

/** The role of a voice, or `undefined` for one that listening passes over (whistle, unknown pad). */
export function roleOf(voice: Voice): number | undefined {
  return ROLE_OF[voice];
}
