/** A place of the bar and what stands there, as a teacher says it. */
import type { Note } from "../../../engine/score/index.ts";
import { type Fraction, floor, fraction, subtract } from "../../../engine/units/index.ts";

/** What quarters, thirds and sixths of a beat are called. Common practice. */
const WITHIN: Readonly<Record<string, string>> = {
  "1/4": "e",
  "1/2": "and",
  "3/4": "a",
  "1/3": "second triplet",
  "2/3": "third triplet",
};

/**
 * Beat of the bar, and where in it.
 *
 * @param position felt beats from the start of the groove.
 * @param beats felt beats in a bar.
 * @example
 * placeName({ num: 11, den: 2 }, 4) // => "beat 2 and"
 */
export function placeName(position: Fraction, beats: number): string {
  const beat = floor(position);
  const within = subtract(position, fraction(beat));
  const name = `beat ${(beat % beats) + 1}`;
  if (within.num === 0) return name;
  return `${name} ${WITHIN[`${within.num}/${within.den}`] ?? `and ${within.num}/${within.den}`}`;
}

/** "nothing", "accent", "plain with a flam". */
export function strokeWords(note: Pick<Note, "dynamic" | "ornament"> | undefined): string {
  if (!note) return "nothing";
  return note.ornament === undefined ? note.dynamic : `${note.dynamic} with a ${note.ornament}`;
}
