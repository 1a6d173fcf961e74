import { type Fraction, fraction, multiply } from "../units/index.ts";

/** A time signature. The beat is the felt one: in 6/8, 9/8 and 12/8 a dotted quarter. */
export interface Metre {
  readonly numerator: number;
  readonly denominator: number;
}

export const FOUR_FOUR: Metre = { numerator: 4, denominator: 4 };

/** Compound metres divide the beat in three: 6/8, 9/8, 12/8 and their like. */
export function isCompound(metre: Metre): boolean {
  return metre.denominator >= 8 && metre.numerator > 3 && metre.numerator % 3 === 0;
}

/**
 * Felt beats in a bar.
 *
 * @example
 * beatsPerBar({ numerator: 12, denominator: 8 }) // => 4
 */
export function beatsPerBar(metre: Metre): number {
  return isCompound(metre) ? metre.numerator / 3 : metre.numerator;
}

/** Felt beats in one quarter note: 1 in 4/4, 2/3 in 12/8, 2 in 7/8. */
export function beatsPerQuarter(metre: Metre): Fraction {
  const beatsPerWholeNote = isCompound(metre) ? fraction(metre.denominator, 3) : fraction(metre.denominator);
  return multiply(beatsPerWholeNote, fraction(1, 4));
}

/** As printed: "4/4". */
export function metreName(metre: Metre): string {
  return `${metre.numerator}/${metre.denominator}`;
}
