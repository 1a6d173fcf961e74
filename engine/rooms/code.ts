/**
 * The code of a room: the secret that lets in, short enough to be read out and typed. No letters that are taken for
 * digits, and no vowels, so that it never makes a word.
 */
const LETTERS = "23456789BCDFGHJKLMNPQRSTVWXZ";
/** Twelve of 28: some 57 bits, and a broker that shuts out who guesses. */
const LENGTH = 12;

/** The length of the shortest code that may be chosen by hand. */
export const SHORTEST_CODE = 8;

/**
 * A code made of chance.
 *
 * @param draw a whole number from 0 to below `most`, from a source fit for secrets.
 */
export function madeCode(draw: (most: number) => number): string {
  const letters = Array.from({ length: LENGTH }, () => LETTERS.charAt(draw(LETTERS.length)));
  return (letters.join("").match(/.{4}/g) ?? []).join("-");
}

/** A code as it was typed: spaces, strokes and small letters make no difference. */
export function plainCode(typed: string): string {
  return typed.replace(/[\s-]/g, "").toUpperCase();
}
