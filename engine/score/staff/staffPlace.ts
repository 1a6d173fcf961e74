/**
 * Where each voice stands on a drum-set staff, and the shape of its notehead.
 *
 * Source: Weinberg, "Guidelines for Drumset Notation", Percussive Notes, June 1994, for the drums, the hi-hat, the
 * ride, its bell and the crash. The second crash, splash, china and the hand percussion are our choice: cymbals on
 * and above the first ledger line, percussion inside the staff with triangles, slashes and squares, no two alike.
 */
import type { Voice } from "../../kit/index.ts";

export type StaffStep = "A" | "B" | "C" | "D" | "E" | "F" | "G";
export type HeadShape =
  | "normal"
  | "x"
  | "circle-x"
  | "diamond"
  | "triangle-up"
  | "triangle-down"
  | "slash"
  | "square";

/** A place on the staff, named as in the treble clef (the percussion clef has no pitch): the lines are E4 G4 B4 D5 F5. */
export interface StaffPlace {
  readonly step: StaffStep;
  readonly octave: 3 | 4 | 5 | 6;
  readonly head: HeadShape;
  /** A small circle above the note. A hi-hat note without it is closed. */
  readonly open?: true;
}

const PLACES: Readonly<Record<Voice, StaffPlace>> = {
  "hi-hat-pedal": { step: "D", octave: 4, head: "x" },
  kick: { step: "F", octave: 4, head: "normal" },
  "floor-tom": { step: "A", octave: 4, head: "normal" },
  snare: { step: "C", octave: 5, head: "normal" },
  "cross-stick": { step: "C", octave: 5, head: "x" },
  "mid-tom": { step: "D", octave: 5, head: "normal" },
  "high-tom": { step: "E", octave: 5, head: "normal" },
  ride: { step: "F", octave: 5, head: "x" },
  bell: { step: "F", octave: 5, head: "diamond" },
  "hi-hat-closed": { step: "G", octave: 5, head: "x" },
  "hi-hat-open": { step: "G", octave: 5, head: "x", open: true },
  "crash-left": { step: "A", octave: 5, head: "x" },
  "crash-right": { step: "B", octave: 5, head: "x" },
  splash: { step: "A", octave: 5, head: "diamond" },
  china: { step: "A", octave: 5, head: "circle-x" },
  cowbell: { step: "E", octave: 5, head: "triangle-up" },
  agogo: { step: "F", octave: 5, head: "triangle-up" },
  timbale: { step: "E", octave: 5, head: "triangle-down" },
  tambourine: { step: "D", octave: 5, head: "triangle-up" },
  bongo: { step: "D", octave: 5, head: "triangle-down" },
  "wood-block": { step: "C", octave: 5, head: "triangle-up" },
  conga: { step: "C", octave: 5, head: "triangle-down" },
  clave: { step: "B", octave: 4, head: "triangle-up" },
  cuica: { step: "B", octave: 4, head: "triangle-down" },
  clap: { step: "B", octave: 4, head: "x" },
  surdo: { step: "A", octave: 4, head: "triangle-down" },
  shaker: { step: "D", octave: 5, head: "slash" },
  guiro: { step: "C", octave: 5, head: "slash" },
  whistle: { step: "G", octave: 5, head: "square" },
  triangle: { step: "G", octave: 5, head: "triangle-up" },
  sticks: { step: "C", octave: 5, head: "circle-x" },
  effect: { step: "E", octave: 5, head: "slash" },
  unknown: { step: "B", octave: 4, head: "slash" },
};

/**
 * Where a voice is written.
 *
 * @example
 * staffPlace("snare") // => { step: "C", octave: 5, head: "normal" }
 */
export function staffPlace(voice: Voice): StaffPlace {
  return PLACES[voice];
}

/** Staff steps above the bottom line (E4): 0 on that line, 1 in the space above it, 8 on the top line. */
export function stepsAboveBottomLine({ step, octave }: StaffPlace): number {
  return "CDEFGAB".indexOf(step) - 2 + 7 * (octave - 4);
}

/** Hands are written with stems up, feet with stems down: one can read either alone. */
export const STAFF_PARTS = ["hands", "feet"] as const;
export type StaffPart = (typeof STAFF_PARTS)[number];

/** The part a voice is written in: kick and hi-hat pedal belong to the feet. */
export function staffPartOf(voice: Voice): StaffPart {
  return voice === "kick" || voice === "hi-hat-pedal" ? "feet" : "hands";
}
