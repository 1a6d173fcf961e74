/**
 * Chance is passed in, never ambient, so that every demonstration and every test can be played again.
 */

/** Returns a number from 0 (included) to 1 (excluded), as `Math.random` does. */
export type Chance = () => number;

/**
 * A repeatable source of chance: the same seed gives the same numbers. A 32-bit mixing generator with a Weyl
 * sequence for its state; good enough for humanising strokes, not for secrets.
 *
 * @example
 * seededChance(7)() === seededChance(7)() // => true
 */
export function seededChance(seed: number): Chance {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = state;
    mixed = Math.imul(mixed ^ (mixed >>> 16), 0x21f0aaad);
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
    return ((mixed ^ (mixed >>> 15)) >>> 0) / 2 ** 32;
  };
}

/** One draw from the normal distribution of mean 0 and standard deviation 1 (Box & Muller 1958). */
export function normal(chance: Chance): number {
  return Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance());
}
