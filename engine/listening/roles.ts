/**
 * Question: which part of a groove does a strike play, and how much does it say of which groove it is?
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
const ROLES = [
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
type Role = (typeof ROLES)[number];
export const ROLE_COUNT = ROLES.length;

const VOICE_ROLES: Partial<Readonly<Record<Voice, readonly Role[]>>> = {
  kick: ["kick"],
  surdo: ["kick"],
  snare: ["back-beat", "snare"],
  clap: ["back-beat", "snare"],
  "cross-stick": ["back-beat", "cross-stick"],
  clave: ["back-beat", "cross-stick"],
  "wood-block": ["back-beat", "cross-stick"],
  sticks: ["back-beat", "cross-stick"],
  "hi-hat-closed": ["time-keeper", "closed hi-hat"],
  shaker: ["time-keeper", "closed hi-hat"],
  "hi-hat-open": ["time-keeper", "open hi-hat"],
  ride: ["time-keeper", "ride"],
  bell: ["time-keeper", "ride"],
  cowbell: ["time-keeper", "ride"],
  "hi-hat-pedal": ["pedal"],
  "high-tom": ["toms", "high tom"],
  bongo: ["toms", "high tom"],
  timbale: ["toms", "high tom"],
  "mid-tom": ["toms", "mid tom"],
  conga: ["toms", "mid tom"],
  "floor-tom": ["toms", "floor tom"],
  "crash-left": ["crash"],
  "crash-right": ["crash"],
  splash: ["crash"],
  china: ["crash"],
};

/** Each part by the voices that may stand for it when evidence is told, with the role that tells them apart. */
const VOICES_TOLD: Partial<Readonly<Record<Role, readonly (readonly [Voice, Role])[]>>> = {
  kick: [["kick", "kick"]],
  "back-beat": [
    ["snare", "snare"],
    ["cross-stick", "cross-stick"],
  ],
  "time-keeper": [
    ["hi-hat-closed", "closed hi-hat"],
    ["hi-hat-open", "open hi-hat"],
    ["ride", "ride"],
  ],
  toms: [
    ["high-tom", "high tom"],
    ["mid-tom", "mid tom"],
    ["floor-tom", "floor tom"],
  ],
  pedal: [["hi-hat-pedal", "pedal"]],
  crash: [["crash-left", "crash"]],
};

/**
 * How much a stroke counts in each role: kick and back-beat make the skeleton of a groove, the hands that keep
 * time say less about which one it is, and which cymbal keeps it says least. Our choice, tuned on the
 * development part of the Groove MIDI Dataset.
 */
const WEIGHTS: Readonly<Record<Role, number>> = {
  kick: 1.4,
  "back-beat": 1.2,
  "time-keeper": 0.55,
  toms: 0.6,
  snare: 0.15,
  "cross-stick": 0.25,
  "closed hi-hat": 0.15,
  "open hi-hat": 0.3,
  ride: 0.2,
  pedal: 0.35,
  "high tom": 0.35,
  "mid tom": 0.35,
  "floor tom": 0.35,
  crash: 0.5,
};

// Arrays of rates are laid out by the numbers of the roles, from 0 in the order of `ROLES`.
const numberOf = (role: Role): number => ROLES.indexOf(role);

/** How much a stroke counts, by number of role. */
export const ROLE_WEIGHTS: readonly number[] = ROLES.map((role) => WEIGHTS[role]);

/** By number of role, the voices that may stand for it; none for a role that is told through its part. */
export const ROLE_VOICES: readonly (readonly { readonly voice: Voice; readonly role: number }[])[] =
  ROLES.map((part) => (VOICES_TOLD[part] ?? []).map(([voice, role]) => ({ voice, role: numberOf(role) })));

/** One strike as listening sees it; a strike with two roles gives two. */
export interface Stroke {
  readonly time: Seconds;
  /** Number of the role, from 0 to {@link ROLE_COUNT} − 1. */
  readonly role: number;
  /** 0 to 1: a ghost note counts for less than a plain stroke. */
  readonly weight: number;
}

/**
 * A stroke's weight from its velocity (0 to 1): 0.3 for the softest, 1 from a plain stroke on. Our choice.
 *
 * @example
 * strokeWeight(0.05) // => 0.3
 * strokeWeight(0.25) // => 0.55
 * strokeWeight(0.9) // => 1
 */
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

/**
 * Numbers of the roles of a voice; none for one that listening passes over (whistle, unknown pad).
 *
 * @example
 * rolesOf("cross-stick") // => [1, 5]
 * rolesOf("unknown") // => []
 */
export function rolesOf(voice: Voice): readonly number[] {
  return (VOICE_ROLES[voice] ?? []).map(numberOf);
}
