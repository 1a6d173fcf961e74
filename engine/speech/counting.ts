/**
 * Counting aloud: a syllable that says where in the bar a stroke falls, not on what.
 * "1 e and a" for sixteenths and "1 trip let" for triplets are common practice, no source.
 */
import { type Fraction, fraction } from "../units/index.ts";

/** What is counted after the number, with its place in the beat. `&` and `+` are typed for "and". */
const PARTS: readonly {
  readonly text: string;
  readonly place: Fraction;
  readonly typed: readonly string[];
}[] = [
  { text: "e", place: fraction(1, 4), typed: ["e"] },
  { text: "trip", place: fraction(1, 3), typed: ["trip"] },
  { text: "and", place: fraction(1, 2), typed: ["and", "&", "+"] },
  { text: "let", place: fraction(2, 3), typed: ["let"] },
  { text: "a", place: fraction(3, 4), typed: ["a"] },
];

/** What is said for a place of the bar; `undefined` for a place that has no syllable. */
export function countOf(beatOfBar: number, place: Fraction): string | undefined {
  if (place.num === 0) return String(beatOfBar + 1);
  return PARTS.find((part) => part.place.num === place.num && part.place.den === place.den)?.text;
}

/** The place in its beat that a typed word counts; 0 for a number, `undefined` for what counts nothing. */
export function placeCounted(typed: string): Fraction | undefined {
  if (/^\d{1,2}$/.test(typed)) return fraction(0);
  return PARTS.find((part) => part.typed.includes(typed))?.place;
}
