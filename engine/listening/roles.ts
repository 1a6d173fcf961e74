/**
 * The parts the drums play in a groove, as listening weighs them.
 * Source: the reduction of 22 keys to nine voices published with the Groove MIDI Dataset (Gillick et al., ICML
 * 2019); cross-stick and pedal, which that reduction folds away, are kept as roles of their own.
 */
import type { Hit, Voice } from "../kit/index.ts";
import type { Seconds } from "../units/index.ts";

/**
 * First the parts a groove is made of, whichever voice plays them (a back-beat is a back-beat on the snare's head
 * or as a cross-stick; time can be kept on the hi-hat or on the ride), then, counting for less, the voices
 * themselves.
 */
export const ROLES = [
  "kick",
  "back-beat",
  "time-keeper",
  "toms",
  "snare",
  "cross-stick",
  "closed hi-hat",
  "open hi-hat",
  "ride",
  "pedal",
  "high tom",
  "mid tom",
  "floor tom",
  "crash",
] as const;
export const ROLE_COUNT = ROLES.length;

const BACK_BEAT = 1;
const TIME_KEEPER = 2;
const TOMS = 3;

const ROLES_OF: Partial<Readonly<Record<Voice, readonly number[]>>> = {
  kick: [0],
  surdo: [0],
  snare: [BACK_BEAT, 4],
  clap: [BACK_BEAT, 4],
  "cross-stick": [BACK_BEAT, 5],
  clave: [BACK_BEAT, 5],
  "wood-block": [BACK_BEAT, 5],
  sticks: [BACK_BEAT, 5],
  "hi-hat-closed": [TIME_KEEPER, 6],
  shaker: [TIME_KEEPER, 6],
  "hi-hat-open": [TIME_KEEPER, 7],
  ride: [TIME_KEEPER, 8],
  bell: [TIME_KEEPER, 8],
  cowbell: [TIME_KEEPER, 8],
  "hi-hat-pedal": [9],
  "high-tom": [TOMS, 10],
  bongo: [TOMS, 10],
  timbale: [TOMS, 10],
  "mid-tom": [TOMS, 11],
  conga: [TOMS, 11],
  "floor-tom": [TOMS, 12],
  "crash-left": [13],
  "crash-right": [13],
  splash: [13],
  china: [13],
};

/** The voices that stand for a role when evidence is told: the one that is most heard there is named. */
export const ROLE_VOICES: readonly (readonly { readonly voice: Voice; readonly role: number }[])[] = [
  [{ voice: "kick", role: 0 }],
  [
    { voice: "snare", role: 4 },
    { voice: "cross-stick", role: 5 },
  ],
  [
    { voice: "hi-hat-closed", role: 6 },
    { voice: "hi-hat-open", role: 7 },
    { voice: "ride", role: 8 },
  ],
  [
    { voice: "high-tom", role: 10 },
    { voice: "mid-tom", role: 11 },
    { voice: "floor-tom", role: 12 },
  ],
  [],
  [],
  [],
  [],
  [],
  [{ voice: "hi-hat-pedal", role: 9 }],
  [],
  [],
  [],
  [{ voice: "crash-left", role: 13 }],
];

/**
 * How much a stroke counts in each role: kick and back-beat make the skeleton of a groove, the hands that keep
 * time say less about which one it is, and which cymbal keeps it says least. Our choice, tuned on the
 * development part of the Groove MIDI Dataset.
 */
export const ROLE_WEIGHTS: readonly number[] = [
  1.4, 1.2, 0.55, 0.6, 0.15, 0.25, 0.15, 0.3, 0.2, 0.35, 0.35, 0.35, 0.35, 0.5,
];

/** One strike as listening sees it; a strike with two roles gives two. */
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

/** The strikes by role, in order of time. */
export function strokesOfHits(hits: readonly Hit[]): readonly Stroke[] {
  const strokes = hits.flatMap((hit): Stroke[] => {
    const weight = strokeWeight(hit.velocity);
    return rolesOf(hit.voice).map((role) => ({ time: hit.time, role, weight }));
  });
  return strokes.sort((a, b) => a.time - b.time);
}

/** The roles of a voice; none for one that listening passes over (whistle, unknown pad). */
export function rolesOf(voice: Voice): readonly number[] {
  return ROLES_OF[voice] ?? [];
}
