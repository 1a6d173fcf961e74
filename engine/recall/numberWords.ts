/** Numbers as words and words that count, so that "5", "five" and "fifth" can be told as one, and from "nine". */

const ONES = [
  "zero",
  "one",
  "two",
  "three",
  "four",
  "five",
  "six",
  "seven",
  "eight",
  "nine",
  "ten",
  "eleven",
  "twelve",
  "thirteen",
  "fourteen",
  "fifteen",
  "sixteen",
  "seventeen",
  "eighteen",
  "nineteen",
] as const;
const TENS = ["", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"] as const;
const ROMAN: readonly string[] = ["i", "ii", "iii", "iv", "v"];

/**
 * A whole number from 0 to 99 as one word without a hyphen; larger ones in figures.
 *
 * @example
 * numberWord(25) // => "twentyfive"
 */
export function numberWord(value: number): string {
  const one = ONES[value];
  if (one !== undefined) return one;
  if (value > 99) return String(value);
  const units = value % 10;
  return `${TENS[Math.floor(value / 10)]}${units === 0 ? "" : ONES[units]}`;
}

/** A Roman figure from I to V as a number word, or `undefined`. */
export function romanWord(text: string): string | undefined {
  const at = ROMAN.indexOf(text);
  return at < 0 ? undefined : numberWord(at + 1);
}

/** Words that say how many: no two of them are ever taken for each other. */
export const COUNTING_WORDS: readonly string[] = [
  ...Array.from({ length: 100 }, (_, value) => numberWord(value)),
  ...["half", "single", "double", "triple", "quadruple", "quintuple", "sextuple", "multiple"],
  ...["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"],
];
