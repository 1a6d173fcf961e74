/**
 * A sign of written music, to be read and named: a note value, a rest, a tuplet, a metre, a repeat, a dynamic, a place on
 * the drum staff.
 */
import type { Voice } from "../../kit/index.ts";
import type { Level, Metre, NoteBase, NoteValue } from "../../score/index.ts";

/** What signs are gathered under, in the order they are learnt. */
export const SIGN_FAMILIES = ["note", "rest", "tuplet", "metre", "repeat", "dynamic", "place"] as const;
export type SignFamily = (typeof SIGN_FAMILIES)[number];

/** What a family is called over its signs. */
export const SIGN_FAMILY_NAMES: Readonly<Record<SignFamily, string>> = {
  note: "Note values",
  rest: "Rests",
  tuplet: "Tuplets",
  metre: "Metre",
  repeat: "Repeats and bar lines",
  dynamic: "Dynamics and strokes",
  place: "Places on the staff",
};

/** Which names are used: those of the United States or of the United Kingdom. */
export const NAMINGS = ["us", "uk"] as const;
export type Naming = (typeof NAMINGS)[number];

/** How a sign is drawn, as plain data; `engraving` draws it. */
export type SignDrawing =
  | { readonly kind: "note" | "rest"; readonly value: NoteValue }
  /** `actual` notes of a value in the time of `normal`. */
  | { readonly kind: "tuplet"; readonly actual: number; readonly normal: number; readonly unit: NoteBase }
  | { readonly kind: "metre"; readonly metre: Metre }
  /** A sign of the music font at the head of the staff. */
  | { readonly kind: "at-head"; readonly glyph: string }
  | { readonly kind: "bar-line"; readonly line: "double" | "final" | "repeat-start" | "repeat-end" }
  | { readonly kind: "ending"; readonly number: 1 | 2 }
  /** A sign of the music font in the middle of the staff. */
  | { readonly kind: "in-bar"; readonly glyph: string }
  /** A sign of the music font by itself. */
  | { readonly kind: "alone"; readonly glyph: string }
  | { readonly kind: "hairpin"; readonly opens: boolean }
  /** A sign of the music font across the stem of a note. */
  | { readonly kind: "on-stem"; readonly glyph: string }
  /** A sign of the music font over a note. */
  | { readonly kind: "over-note"; readonly glyph: string }
  /** One note on the snare with what is written at it. */
  | { readonly kind: "stroke"; readonly how: "ghost" | "flam" | "drag" }
  | { readonly kind: "place"; readonly voice: Voice };

export interface Sign {
  /** `dotted-quarter-note`. */
  readonly id: string;
  readonly family: SignFamily;
  /** From when on a student meets it. Common practice, no source. */
  readonly level: Level;
  readonly names: Readonly<Record<Naming, string>>;
  /** Other names in use, abbreviations among them: as good an answer. */
  readonly otherNames: readonly string[];
  /** Its name in SMuFL, the Standard Music Font Layout; `null` where it is made of several signs or of none. */
  readonly glyph: string | null;
  readonly drawn: SignDrawing;
  /** What is seen, said to who cannot see it, without its name: "filled head, stem, one flag". */
  readonly seen: string;
}
