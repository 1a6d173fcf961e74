/**
 * Exact fractions, for positions in beats: a triplet place has no finite decimal, and "is this the same
 * place of the bar?" must never depend on rounding.
 */

/** A reduced fraction with a positive denominator. Make one with {@link fraction}. */
export interface Fraction {
  readonly num: number;
  readonly den: number;
}

/** Thrown when a fraction cannot be made: a zero denominator, or a part that is not a safe integer. */
export class FractionError extends Error {
  override readonly name = "FractionError";
}

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}

/**
 * The fraction `num / den`, reduced.
 *
 * @throws FractionError when `den` is 0 or either part is not a safe integer.
 * @example
 * fraction(6, 12) // => { num: 1, den: 2 }
 */
export function fraction(num: number, den = 1): Fraction {
  if (!Number.isSafeInteger(num) || !Number.isSafeInteger(den) || den === 0) {
    throw new FractionError(
      `Cannot make a fraction of ${num} over ${den}: both must be whole, the lower not 0.`,
    );
  }
  const divisor = greatestCommonDivisor(Math.abs(num), Math.abs(den)) * Math.sign(den);
  return { num: num / divisor + 0, den: den / divisor };
}

export const ZERO: Fraction = { num: 0, den: 1 };

/** `a + b`, exact. */
export function add(a: Fraction, b: Fraction): Fraction {
  return fraction(a.num * b.den + b.num * a.den, a.den * b.den);
}

/** `a − b`, exact. */
export function subtract(a: Fraction, b: Fraction): Fraction {
  return fraction(a.num * b.den - b.num * a.den, a.den * b.den);
}

/** `a × b`, exact. */
export function multiply(a: Fraction, b: Fraction): Fraction {
  return fraction(a.num * b.num, a.den * b.den);
}

/** Negative when `a < b`, 0 when equal, positive when `a > b`: fit for `Array.sort`. */
export function compare(a: Fraction, b: Fraction): number {
  return a.num * b.den - b.num * a.den;
}

/** The largest whole number not above `a`. */
export function floor(a: Fraction): number {
  return Math.floor(a.num / a.den);
}

/** The nearest decimal value. */
export function toNumber(a: Fraction): number {
  return a.num / a.den;
}

/** The least common multiple of two positive whole numbers. */
export function leastCommonMultiple(a: number, b: number): number {
  return (a / greatestCommonDivisor(a, b)) * b;
}
