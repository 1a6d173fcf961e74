/**
 * Question: which part of a groove does a strike play, and how much does it say of which groove it is?
 * Source: the reduction of 22 keys to nine voices published with the Groove MIDI Dataset (Gillick et al., ICML
 * 2019); cross-stick and pedal, which that reduction folds away, are kept as roles of their own.
 */
import type { Hit, Voice } from "../kit/index.ts";
import type { Seconds, Velocity } from "../units/index.ts";

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

/**
 * What is told apart when strokes are counted, each with the roles it plays: first its part, then its own voice. Every
 * voice of the kit is one of these sounds, or none of them.
 */
const SOUNDS: readonly { readonly voices: readonly Voice[]; readonly roles: readonly Role[] }[] = [
  { voices: ["kick", "surdo"], roles: ["kick"] },
  { voices: ["snare", "clap"], roles: ["back-beat", "snare"] },
  { voices: ["cross-stick", "clave", "wood-block", "sticks"], roles: ["back-beat", "cross-stick"] },
  { voices: ["hi-hat-closed", "shaker"], roles: ["time-keeper", "closed hi-hat"] },
  { voices: ["hi-hat-open"], roles: ["time-keeper", "open hi-hat"] },
  { voices: ["ride", "bell", "cowbell"], roles: ["time-keeper", "ride"] },
  { voices: ["hi-hat-pedal"], roles: ["pedal"] },
  { voices: ["high-tom", "bongo", "timbale"], roles: ["toms", "high tom"] },
  { voices: ["mid-tom", "conga"], roles: ["toms", "mid tom"] },
  { voices: ["floor-tom"], roles: ["toms", "floor tom"] },
  { voices: ["crash-left", "crash-right", "splash", "china"], roles: ["crash"] },
];
export const SOUND_COUNT = SOUNDS.length;

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
  "closed hi-hat": 0.05,
  "open hi-hat": 0.15,
  ride: 0.05,
  pedal: 0.35,
  "high tom": 0.35,
  "mid tom": 0.35,
  "floor tom": 0.35,
  crash: 0.5,
};

// Arrays of rates are laid out by the numbers of the roles, from 0 in the order of `ROLES`.
/** The number of a role. */
export function numberOf(role: Role): number {
  return ROLES.indexOf(role);
}

/** How much a stroke counts, by number of role. */
export const ROLE_WEIGHTS: readonly number[] = ROLES.map((role) => WEIGHTS[role]);

/** By number of role, the voices that may stand for it; none for a role that is told through its part. */
export const ROLE_VOICES: readonly (readonly { readonly voice: Voice; readonly role: number }[])[] =
  ROLES.map((part) => (VOICES_TOLD[part] ?? []).map(([voice, role]) => ({ voice, role: numberOf(role) })));

/** Numbers of the roles each sound plays, by number of sound. */
export const SOUND_ROLES: readonly (readonly number[])[] = SOUNDS.map(({ roles }) => roles.map(numberOf));

/** How much a stroke of each sound counts, over all its roles. */
export const SOUND_WEIGHTS: readonly number[] = SOUND_ROLES.map((roles) =>
  roles.reduce((sum, role) => sum + (ROLE_WEIGHTS[role] ?? 0), 0),
);

/** The number of the part each sound plays, from 0 to {@link PART_COUNT} − 1. */
export const SOUND_PARTS: readonly number[] = SOUND_ROLES.map(([part = 0]) => part);
/** Parts are roles, numbered as they are; those that are no part stay empty. */
export const PART_COUNT = ROLE_COUNT;

/** Numbers of the sounds that play a role. */
export function soundsPlaying(role: Role): readonly number[] {
  return SOUNDS.flatMap(({ roles }, sound) => (roles.includes(role) ? [sound] : []));
}

/** One strike as listening sees it. */
export interface Stroke {
  readonly time: Seconds;
  /** Number of the sound, from 0 to {@link SOUND_COUNT} − 1. */
  readonly sound: number;
  /** 0 to 1: a ghost note counts for less than a plain stroke. */
  readonly weight: number;
  readonly velocity: Velocity;
}

/**
 * A stroke's weight from its velocity (0 to 1): 0.3 for the softest, 1 from a plain stroke on. Our choice.
 *
 * @example
 * strokeWeight(0.05) // => 0.3
 * strokeWeight(0.25) // => 0.55
 * strokeWeight(0.9) // => 1
 */
export function strokeWeight(velocity: Velocity): number {
  return Math.min(1, Math.max(0.3, 0.2 + 1.4 * velocity));
}

const SOUND_OF_VOICE: ReadonlyMap<Voice, number> = new Map(
  SOUNDS.flatMap(({ voices }, sound) => voices.map((voice) => [voice, sound] as const)),
);

/** Number of the sound of a voice; `undefined` for one that listening passes over (whistle, unknown pad). */
export function soundOf(voice: Voice): number | undefined {
  return SOUND_OF_VOICE.get(voice);
}

/** The strikes as strokes, in order of time; those that listening passes over are left out. */
export function strokesOfHits(hits: readonly Hit[]): readonly Stroke[] {
  const strokes = hits.flatMap((hit): Stroke[] => {
    const sound = soundOf(hit.voice);
    if (sound === undefined) return [];
    return [{ time: hit.time, sound, weight: strokeWeight(hit.velocity), velocity: hit.velocity }];
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
  const sound = soundOf(voice);
  return sound === undefined ? [] : (SOUND_ROLES[sound] ?? []);
}
