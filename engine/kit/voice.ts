/**
 * What a listener names: the closed list of voices, the family each belongs to, and its plain name.
 * A voice is a sound, a zone is where the stick lands, a pad is the key number the kit sent.
 */

export const VOICES = [
  "kick",
  "snare",
  "cross-stick",
  "hi-hat-closed",
  "hi-hat-open",
  "hi-hat-pedal",
  "high-tom",
  "mid-tom",
  "floor-tom",
  "ride",
  "bell",
  "crash-left",
  "crash-right",
  "splash",
  "china",
  "cowbell",
  "tambourine",
  "clap",
  "wood-block",
  "clave",
  "bongo",
  "conga",
  "timbale",
  "agogo",
  "shaker",
  "guiro",
  "whistle",
  "triangle",
  "cuica",
  "surdo",
  "sticks",
  "effect",
  "unknown",
] as const;

/** One of {@link VOICES}. `unknown` is a strike on a pad that the chosen map does not name: shown, never dropped. */
export type Voice = (typeof VOICES)[number];

/**
 * Voices a player could mean for one another: a note written for the closed hi-hat and answered on the open
 * one is an *other sound*, not a left-out note and an added one. The pedal is a family of its own because
 * the foot plays beside the hands.
 */
export type VoiceFamily = "kick" | "snare" | "hats" | "pedal" | "toms" | "cymbals" | "percussion";

const FAMILIES: Readonly<Record<Voice, VoiceFamily>> = {
  kick: "kick",
  snare: "snare",
  "cross-stick": "snare",
  "hi-hat-closed": "hats",
  "hi-hat-open": "hats",
  "hi-hat-pedal": "pedal",
  "high-tom": "toms",
  "mid-tom": "toms",
  "floor-tom": "toms",
  ride: "cymbals",
  bell: "cymbals",
  "crash-left": "cymbals",
  "crash-right": "cymbals",
  splash: "cymbals",
  china: "cymbals",
  cowbell: "percussion",
  tambourine: "percussion",
  clap: "percussion",
  "wood-block": "percussion",
  clave: "percussion",
  bongo: "percussion",
  conga: "percussion",
  timbale: "percussion",
  agogo: "percussion",
  shaker: "percussion",
  guiro: "percussion",
  whistle: "percussion",
  triangle: "percussion",
  cuica: "percussion",
  surdo: "percussion",
  sticks: "percussion",
  effect: "percussion",
  unknown: "percussion",
};

/** The family of a voice. */
export function familyOf(voice: Voice): VoiceFamily {
  return FAMILIES[voice];
}

const NAMES: Partial<Readonly<Record<Voice, string>>> = {
  "cross-stick": "cross-stick",
  "hi-hat-closed": "hi-hat",
  "hi-hat-open": "open hi-hat",
  "hi-hat-pedal": "hi-hat pedal",
  bell: "ride bell",
  effect: "other effect",
  unknown: "unknown pad",
};

/**
 * The voice as a teacher says it.
 *
 * @example
 * voiceName("crash-left") // => "crash left"
 */
export function voiceName(voice: Voice): string {
  return NAMES[voice] ?? voice.replace("-", " ");
}
