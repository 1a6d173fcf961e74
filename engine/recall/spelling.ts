/**
 * Question: how far is what was written from a word, as people misspell?
 * Method: both are first written by sound (one letter for those that sound alike in their place, doubled letters once);
 * then the weighted edit distance with neighbours swapped (Damerau 1964; Levenshtein 1966), in which slips that the ear
 * does not notice cost less. Weights are our choice, set on half of tests/fixtures/recall.
 */

/** Costs in letters. */
const OTHER_VOWEL = 1.1;
/** A consonant that sounds unlike is another word: "paraflafla". */
const OTHER_CONSONANT = 2;
const SOUNDS_NEAR = 0.6;
const VOWEL_FOR_VOWEL = 0.6;
const VOWEL_MISSED = 0.6;
const SILENT = 0.4;
const FINAL_S = 0.2;
const LETTER_MISSED = 1;
const SWAPPED = 0.8;
/** The first letter is seldom wrong. */
const FIRST_LETTER = 0.5;
/** A word that was begun and not ended: "multi". */
const CUT_SHORT = 0.9;
const FEWEST_LETTERS_CUT = 5;
/** In a word as short as this another vowel is another word: drag, drug. */
const SHORT_WORD = 4;

const VOWELS = new Set("aeiou");
const NEAR = new Set(["dt", "bp", "mn", "fv", "gk", "gj", "sz", "jk"]);

/**
 * A word by its sound.
 *
 * @example
 * soundOf("accent") === soundOf("aksent") // => true
 */
export function soundOf(word: string): string {
  return word
    .replace(/ph/g, "f")
    .replace(/qu/g, "k")
    .replace(/ck/g, "k")
    .replace(/cc(?=[eiy])/g, "ks")
    .replace(/c(?=[eiy])/g, "s")
    .replace(/[cq]/g, "k")
    .replace(/x/g, "ks")
    .replace(/y/g, "i")
    .replace(/(.)\1+/g, "$1");
}

/**
 * The cost of `written` for `word`, in letters; 0 where they sound the same. `word` and `written` by their sound.
 *
 * @param limit beyond this it is not counted on: the cost is then infinite.
 * @example
 * spellingCost("darg", "drag") // => 0.8
 */
export function spellingCost(written: string, word: string, limit = Number.POSITIVE_INFINITY): number {
  if (written === word) return 0;
  if (written.length >= FEWEST_LETTERS_CUT && word.startsWith(written)) return CUT_SHORT;
  // Each letter too many or too few costs something.
  if ((Math.abs(written.length - word.length) - 1) * SILENT > limit) return Number.POSITIVE_INFINITY;
  let beforeLast: readonly number[] = [];
  let last: readonly number[] = firstRow(word);
  for (let i = 1; i <= written.length; i += 1) {
    const row: number[] = [];
    let least = Number.POSITIVE_INFINITY;
    for (let j = 0; j <= word.length; j += 1) {
      const a = written.charAt(i - 1);
      const b = word.charAt(j - 1);
      let cost = (last[j] ?? 0) + added(a, i, j, written.length, word.length);
      if (j > 0) {
        cost = Math.min(
          cost,
          (row[j - 1] ?? 0) + missed(b, j),
          (last[j - 1] ?? 0) + substituted(a, b, i, j, word.length),
        );
        if (i > 1 && j > 1 && a === word[j - 2] && b === written[i - 2])
          cost = Math.min(cost, (beforeLast[j - 2] ?? 0) + SWAPPED);
      }
      row.push(cost);
      least = Math.min(least, cost);
    }
    if (least > limit + SWAPPED) return Number.POSITIVE_INFINITY;
    beforeLast = last;
    last = row;
  }
  const cost = last[word.length] ?? Number.POSITIVE_INFINITY;
  return cost > limit ? Number.POSITIVE_INFINITY : cost;
}

/** The costs of no letter at all for the beginnings of a word. */
function firstRow(word: string): readonly number[] {
  const row = [0];
  for (let j = 1; j <= word.length; j += 1) row.push((row[j - 1] ?? 0) + missed(word.charAt(j - 1), j));
  return row;
}

function added(letter: string, at: number, inWord: number, length: number, wordLength: number): number {
  if (at === length && inWord === wordLength && letter === "s") return FINAL_S;
  if (letter === "h" || (letter === "e" && at === length)) return SILENT;
  return (VOWELS.has(letter) ? VOWEL_MISSED : LETTER_MISSED) + (at === 1 ? FIRST_LETTER : 0);
}

function missed(letter: string, at: number): number {
  if (letter === "h") return SILENT;
  return (VOWELS.has(letter) ? VOWEL_MISSED : LETTER_MISSED) + (at === 1 ? FIRST_LETTER : 0);
}

function substituted(a: string, b: string, at: number, inWord: number, wordLength: number): number {
  if (a === b) return 0;
  const first = at === 1 && inWord === 1 ? FIRST_LETTER : 0;
  const vowels = (VOWELS.has(a) ? 1 : 0) + (VOWELS.has(b) ? 1 : 0);
  if (vowels === 2) return first + (wordLength <= SHORT_WORD ? OTHER_VOWEL : VOWEL_FOR_VOWEL);
  return first + (NEAR.has(a < b ? a + b : b + a) ? SOUNDS_NEAR : OTHER_CONSONANT);
}

/** The highest cost at which it may still be this word: the longer a word, the more slips leave it plain. */
export function mostSpellingCost(word: string): number {
  if (word.length <= 3) return 0.7;
  if (word.length <= 4) return 0.9;
  if (word.length <= 6) return 1.3;
  return 1.9;
}
