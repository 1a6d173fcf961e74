import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  add,
  compare,
  type Fraction,
  FractionError,
  floor,
  fraction,
  leastCommonMultiple,
  multiply,
  subtract,
  toNumber,
  ZERO,
} from "../../../engine/units/index.ts";

/** Small enough that three of them multiplied are still exact. */
const fractions = fc
  .tuple(fc.integer({ min: -5000, max: 5000 }), fc.integer({ min: 1, max: 2000 }))
  .map(([num, den]) => fraction(num, den));

function gcd(a: number, b: number): number {
  return b === 0 ? Math.abs(a) : gcd(b, a % b);
}

function law(name: string, holds: (a: Fraction, b: Fraction, c: Fraction) => void): void {
  test(name, () => {
    fc.assert(fc.property(fractions, fractions, fractions, holds));
  });
}

describe("a fraction is kept reduced, with a positive denominator", () => {
  test.each([
    { num: 6, den: 12, reduced: { num: 1, den: 2 } },
    { num: -6, den: 4, reduced: { num: -3, den: 2 } },
    { num: 6, den: -4, reduced: { num: -3, den: 2 } },
    { num: -6, den: -4, reduced: { num: 3, den: 2 } },
    { num: 0, den: -7, reduced: { num: 0, den: 1 } },
    { num: 5, den: 1, reduced: { num: 5, den: 1 } },
  ])("$num / $den", ({ num, den, reduced }) => {
    expect(fraction(num, den)).toStrictEqual(reduced);
  });

  law("whatever is computed", (a, b) => {
    for (const { num, den } of [add(a, b), subtract(a, b), multiply(a, b)]) {
      expect(den).toBeGreaterThan(0);
      expect(gcd(num, den)).toBe(1);
      expect(Object.is(num, -0)).toBe(false);
    }
  });

  test("nought is 0 over 1", () => {
    expect(ZERO).toEqual(fraction(0, 9));
  });
});

describe("the laws of numbers", () => {
  law("addition may be turned round and grouped otherwise", (a, b, c) => {
    expect(add(a, b)).toEqual(add(b, a));
    expect(add(add(a, b), c)).toEqual(add(a, add(b, c)));
    expect(add(a, ZERO)).toEqual(a);
  });

  law("so may multiplication, and it spreads over addition", (a, b, c) => {
    expect(multiply(a, b)).toEqual(multiply(b, a));
    expect(multiply(a, fraction(1))).toEqual(a);
    expect(multiply(a, add(b, c))).toEqual(add(multiply(a, b), multiply(a, c)));
  });

  law("what was taken away can be added again", (a, b) => {
    expect(add(subtract(a, b), b)).toEqual(a);
    expect(subtract(a, a)).toEqual(ZERO);
  });

  law("order is that of the numbers, and addition keeps it", (a, b, c) => {
    expect(Math.sign(compare(a, b))).toBe(Math.sign(a.num * b.den - b.num * a.den));
    // A sum with 0 turns -0, which `toBe` tells from 0, into 0.
    expect(Math.sign(compare(a, b)) + 0).toBe(-Math.sign(compare(b, a)) + 0);
    expect(Math.sign(compare(add(a, c), add(b, c)))).toBe(Math.sign(compare(a, b)));
    expect(compare(a, b) === 0).toBe(a.num === b.num && a.den === b.den);
  });

  law("the floor is the whole number just below", (a) => {
    const below = fraction(floor(a));
    expect(compare(below, a)).toBeLessThanOrEqual(0);
    expect(compare(a, add(below, fraction(1)))).toBeLessThan(0);
  });

  law("as a decimal it is the quotient", (a) => {
    expect(toNumber(a) * a.den).toBeCloseTo(a.num, 6);
  });

  test("the least common multiple is a multiple of both, and none is smaller", () => {
    const whole = fc.integer({ min: 1, max: 60 });
    fc.assert(
      fc.property(whole, whole, (a, b) => {
        const least = leastCommonMultiple(a, b);
        const smallest = Array.from({ length: a * b }, (_, at) => at + 1).find(
          (value) => value % a === 0 && value % b === 0,
        );
        expect(least).toBe(smallest);
      }),
    );
  });

  test("three triplet places make a whole beat exactly, which decimals do not", () => {
    const third = fraction(1, 3);
    expect(add(add(third, third), third)).toEqual({ num: 1, den: 1 });
    const tenths = Array.from({ length: 10 }, () => fraction(1, 10));
    expect(tenths.reduce(add, ZERO)).toEqual({ num: 1, den: 1 });
    expect(tenths.reduce((sum, tenth) => sum + toNumber(tenth), 0)).not.toBe(1);
  });
});

describe("what cannot be a fraction is refused with what was given", () => {
  test.each([
    [1, 0],
    [0.5, 1],
    [1, Number.NaN],
    [Number.POSITIVE_INFINITY, 1],
    [2 ** 53, 1],
  ])("%s over %s", (num, den) => {
    expect(() => fraction(num, den)).toThrow(FractionError);
    expect(() => fraction(num, den)).toThrow(`Cannot make a fraction of ${num} over ${den}`);
  });

  test("a sum too fine to be exact is refused, not rounded", () => {
    const fine = fraction(1, 2 ** 52 + 1);
    expect(() => add(fine, fraction(1, 2 ** 52 - 1))).toThrow(FractionError);
  });
});
