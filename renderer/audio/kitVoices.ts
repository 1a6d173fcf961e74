/**
 * Which recording stands for each voice, where it lies between the two sides, and how it changes with touch.
 */
import type { Voice, Zone } from "../../engine/kit/index.ts";
import type { NoteNumber } from "../../engine/units/index.ts";

export interface VoiceSound {
  /** The percussion key of the recording in `kit/kit.json`. */
  readonly key: NoteNumber;
  /** Played higher (or lower) than recorded, on top of what tunes the recording. */
  readonly semitones?: number;
  /** −1 quite left to 1 quite right, as the player sits. */
  readonly pan: number;
  /**
   * Octaves of brightness that the softest stroke lacks: skins lose more than metal. Our choice, by the
   * spectral centroid that is left.
   */
  readonly dullsOctaves: number;
  /** The bank has no recording of this voice among the keys 35 to 59; a kindred one stands in. Not for ear rounds. */
  readonly standsIn?: true;
  /** Recordings for places on the pad that sound different. */
  readonly zones?: Partial<Readonly<Record<Zone, { readonly key: NoteNumber }>>>;
}

const SKIN = 4;
const WOOD = 2.5;
const METAL = 1.5;

/**
 * The two crashes are two recordings on opposite sides, the right one three semitones down, so that a learner can tell
 * them with the back turned. (Raised by as much instead, its spectral centre of gravity falls on that of the left one;
 * lowered, the two lie three semitones apart by that measure: tests/e2e/soundRendered.spec.ts.) The three toms are the middle and outer ones of the six in tune: E2, A♯2, E3.
 */
export const KIT_VOICES: Readonly<Record<Voice, VoiceSound>> = {
  kick: { key: 36, pan: 0, dullsOctaves: SKIN },
  snare: { key: 38, pan: 0, dullsOctaves: SKIN, zones: { rim: { key: 40 } } },
  "cross-stick": { key: 37, pan: 0, dullsOctaves: WOOD },
  "hi-hat-closed": { key: 42, pan: -0.35, dullsOctaves: METAL },
  "hi-hat-open": { key: 46, pan: -0.35, dullsOctaves: METAL },
  "hi-hat-pedal": { key: 44, pan: -0.35, dullsOctaves: METAL },
  "high-tom": { key: 50, pan: -0.2, dullsOctaves: SKIN },
  "mid-tom": { key: 47, pan: 0.1, dullsOctaves: SKIN },
  "floor-tom": { key: 43, pan: 0.4, dullsOctaves: SKIN },
  ride: { key: 51, pan: 0.35, dullsOctaves: METAL, zones: { edge: { key: 59 }, bell: { key: 53 } } },
  bell: { key: 53, pan: 0.35, dullsOctaves: METAL },
  "crash-left": { key: 49, pan: -0.6, dullsOctaves: METAL },
  "crash-right": { key: 57, semitones: -3, pan: 0.6, dullsOctaves: METAL },
  splash: { key: 55, pan: -0.2, dullsOctaves: METAL },
  china: { key: 52, pan: 0.5, dullsOctaves: METAL },
  cowbell: { key: 56, pan: 0.1, dullsOctaves: METAL },
  tambourine: { key: 54, pan: 0, dullsOctaves: METAL },
  clap: { key: 39, pan: 0, dullsOctaves: WOOD },
  "wood-block": { key: 37, semitones: 4, pan: 0, dullsOctaves: WOOD, standsIn: true },
  clave: { key: 37, semitones: 7, pan: 0, dullsOctaves: WOOD, standsIn: true },
  bongo: { key: 50, semitones: 12, pan: 0, dullsOctaves: SKIN, standsIn: true },
  conga: { key: 50, semitones: 5, pan: 0, dullsOctaves: SKIN, standsIn: true },
  timbale: { key: 40, semitones: 5, pan: 0, dullsOctaves: SKIN, standsIn: true },
  agogo: { key: 56, semitones: 7, pan: 0, dullsOctaves: METAL, standsIn: true },
  shaker: { key: 54, semitones: 5, pan: 0, dullsOctaves: METAL, standsIn: true },
  guiro: { key: 58, semitones: 7, pan: 0, dullsOctaves: WOOD, standsIn: true },
  whistle: { key: 53, semitones: 12, pan: 0, dullsOctaves: METAL, standsIn: true },
  triangle: { key: 53, semitones: 10, pan: 0, dullsOctaves: METAL, standsIn: true },
  cuica: { key: 48, semitones: 10, pan: 0, dullsOctaves: SKIN, standsIn: true },
  surdo: { key: 41, semitones: -2, pan: 0, dullsOctaves: SKIN, standsIn: true },
  sticks: { key: 37, semitones: 2, pan: 0, dullsOctaves: WOOD, standsIn: true },
  effect: { key: 58, pan: 0, dullsOctaves: WOOD },
  unknown: { key: 37, semitones: -3, pan: 0, dullsOctaves: WOOD, standsIn: true },
};
