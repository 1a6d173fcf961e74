import { compare, type Fraction, fraction } from "../../units/index.ts";

/** The lower half of a note value as a fraction: 4 is a quarter note, 8 an eighth. */
export const NOTE_BASES = [1, 2, 4, 8, 16, 32, 64, 128] as const;
export type NoteBase = (typeof NOTE_BASES)[number];

/** The shape of a note or rest: a base, made half as long again by a dot. Two dots are not used: a rest is plainer. */
export interface NoteValue {
  readonly base: NoteBase;
  readonly dots: 0 | 1;
}

/** Length in whole notes of a value outside a tuplet: 1/4 for a quarter, 3/8 for a dotted one. */
export function valueLength({ base, dots }: NoteValue): Fraction {
  return dots === 0 ? fraction(1, base) : fraction(3, 2 * base);
}

/** All values, longest first. */
const VALUES: readonly NoteValue[] = NOTE_BASES.flatMap((base): readonly NoteValue[] => [
  { base, dots: 1 },
  { base, dots: 0 },
]);

/** The longest single value that is no longer than `length` whole notes, or `undefined` below the shortest. */
export function longestValue(length: Fraction): NoteValue | undefined {
  return VALUES.find((value) => compare(valueLength(value), length) <= 0);
}

/** The single value of exactly this length, or `undefined` where it takes more than one. */
export function exactValue(length: Fraction): NoteValue | undefined {
  return VALUES.find((value) => compare(valueLength(value), length) === 0);
}

/** The longest undotted value that fits into `length` and starts at a multiple of itself: a rest where readers look for it. */
export function alignedRest(start: Fraction, length: Fraction): NoteValue | undefined {
  const base = NOTE_BASES.find(
    (base) => compare(fraction(1, base), length) <= 0 && (start.num * base) % start.den === 0,
  );
  return base === undefined ? undefined : { base, dots: 0 };
}
