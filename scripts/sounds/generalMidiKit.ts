/**
 * The sounds of the kit: the percussion keys 35 to 59 of a General MIDI bank, and what is done with them.
 * Source of keys and names: General MIDI System Level 1 (MIDI Manufacturers Association, RP-003), percussion key map.
 */
import type { NoteNumber } from "../../engine/units/index.ts";

export interface KeySound {
  readonly key: NoteNumber;
  /** The name of the file, without its ending. */
  readonly name: string;
  /** The pitch it is tuned to, as the number of a piano key; drums of no pitch have none. */
  readonly tunedTo?: NoteNumber;
}

/** Six toms, tuned to C2 E2 G2 A♯2 C♯3 E3 (our choice: major and minor thirds, plain to tell apart). */
export const KEY_SOUNDS: readonly KeySound[] = [
  { key: 35, name: "acoustic-bass-drum" },
  { key: 36, name: "bass-drum" },
  { key: 37, name: "side-stick" },
  { key: 38, name: "acoustic-snare" },
  { key: 39, name: "hand-clap" },
  { key: 40, name: "electric-snare" },
  { key: 41, name: "low-floor-tom", tunedTo: 36 },
  { key: 42, name: "closed-hi-hat" },
  { key: 43, name: "high-floor-tom", tunedTo: 40 },
  { key: 44, name: "pedal-hi-hat" },
  { key: 45, name: "low-tom", tunedTo: 43 },
  { key: 46, name: "open-hi-hat" },
  { key: 47, name: "low-mid-tom", tunedTo: 46 },
  { key: 48, name: "hi-mid-tom", tunedTo: 49 },
  { key: 49, name: "crash-cymbal-1" },
  { key: 50, name: "high-tom", tunedTo: 52 },
  { key: 51, name: "ride-cymbal-1" },
  { key: 52, name: "chinese-cymbal" },
  { key: 53, name: "ride-bell" },
  { key: 54, name: "tambourine" },
  { key: 55, name: "splash-cymbal" },
  { key: 56, name: "cowbell" },
  { key: 57, name: "crash-cymbal-2" },
  { key: 58, name: "vibraslap" },
  { key: 59, name: "ride-cymbal-2" },
];

/**
 * Frequency of a piano key in equal temperament, A4 = 440 Hz (ISO 16).
 *
 * @example
 * equalTempered(69) // => 440
 */
export function equalTempered(key: NoteNumber): number {
  return 440 * 2 ** ((key - 69) / 12);
}
