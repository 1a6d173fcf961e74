/**
 * Question: which name of a list is meant by what was typed or said, if any?
 *
 * Method: what was written is cut into the words of a name, in the cheapest way: misspelt, joined, parted, in another
 * order, each at its price (`spelling.ts`). Every letter must belong to a word of the name, and a piece that is nearer to
 * another word of the list, or to another number, is never taken for this one: "single flam tap" is none of the list,
 * however near it is to two that are. Where two names are equally near, or only a part of a name was said, the answer is
 * a question.
 */
import { bareName } from "../catalogue/index.ts";
import { COUNTING_WORDS, numberWord, romanWord } from "./numberWords.ts";
import { mostSpellingCost, soundOf, spellingCost } from "./spelling.ts";

/** One thing that has names. */
export interface NamedThing {
  readonly id: string;
  /** All names it may be called by, the usual one first. */
  readonly names: readonly string[];
}

/** `ask`: it may be one of several, the nearest first. */
export type NameMatch =
  | { readonly kind: "named"; readonly id: string }
  | { readonly kind: "ask"; readonly ids: readonly string[] }
  | { readonly kind: "none" };

const NONE: NameMatch = { kind: "none" };
/** Costs in letters. Our choice. */
const JOINED = 0.25;
const PARTED = 0.25;
const OUT_OF_ORDER = 0.15;
/** Two names whose costs differ by less are equally near. */
const EQUALLY_NEAR = 0.3;
/** More slips than this share of a name's letters, and it is another. */
const MOST_SHARE = 0.25;
/** No word may cost as much. */
const MOST_COST = 2;
/** Letters more or fewer than the word's that a piece may have. */
const REACH = 3;
/** More candidates than this are no question but a guess. */
const MOST_ASKED = 6;
/** Nobody's name for anything is as long; what is longer is not read. */
const MOST_LETTERS = 60;

/** Said before a name while it is being thought of. */
const LEADING = new Set([
  "the",
  "a",
  "an",
  "um",
  "uh",
  "er",
  "its",
  "is",
  "it",
  "that",
  "called",
  "and",
  "then",
]);
const BEFORE_A_NUMBER = new Set(["no", "nr", "number"]);

interface Variant {
  readonly id: string;
  /** By sound. */
  readonly words: readonly string[];
  readonly letters: number;
}

export class NameMatcher {
  readonly #variants: readonly Variant[];
  /** By sound: what a piece must not be nearer to. */
  readonly #rivals: readonly string[];

  constructor(things: readonly NamedThing[]) {
    this.#variants = things.flatMap(({ id, names }) =>
      names.map((name): Variant => {
        const words = wordsOf(name).map(soundOf);
        return { id, words, letters: words.join("").length };
      }),
    );
    this.#rivals = [
      ...new Set([...COUNTING_WORDS.map(soundOf), ...this.#variants.flatMap(({ words }) => words)]),
    ];
  }

  /** The name that is meant. */
  match(given: string): NameMatch {
    const words = wordsOf(given);
    const begun = words.findIndex((word) => !LEADING.has(word));
    const readings = begun > 0 ? [words, words.slice(begun)] : [words];
    const near = new Map<string, number>();
    const parts = new Set<string>();
    for (const reading of readings) {
      const written = new Written(reading, this.#rivals);
      if (written.isUnreadable) continue;
      for (const variant of this.#variants) {
        const { whole, part } = written.costAs(variant.words);
        if (whole <= variant.letters * MOST_SHARE)
          near.set(variant.id, Math.min(whole, near.get(variant.id) ?? Number.POSITIVE_INFINITY));
        if (Number.isFinite(part)) parts.add(variant.id);
      }
    }
    const [best, ...others] = [...near].sort(([, a], [, b]) => a - b);
    if (best) {
      const alike = others.filter(([, cost]) => cost - best[1] < EQUALLY_NEAR);
      if (alike.length === 0) return { kind: "named", id: best[0] };
      return { kind: "ask", ids: [best[0], ...alike.map(([id]) => id)] };
    }
    return parts.size > 0 && parts.size <= MOST_ASKED ? { kind: "ask", ids: [...parts] } : NONE;
  }
}

/** Words in small plain letters, figures as words. */
function wordsOf(name: string): readonly string[] {
  const words = bareName(name)
    .replace(/['’]/g, "")
    .replace(/(\d)(?:st|nd|rd|th)\b/g, "$1")
    .replace(/(\d+)/g, " $1 ")
    .split(/[^a-z0-9]+/)
    .filter((word) => word !== "");
  return words.flatMap((word, at) => {
    const next = words[at + 1];
    if (
      BEFORE_A_NUMBER.has(word) &&
      next !== undefined &&
      (/^\d+$/.test(next) || COUNTING_WORDS.includes(next))
    )
      return [];
    if (/^\d+$/.test(word)) return [numberWord(Number(word))];
    return [(at > 0 && at === words.length - 1 && romanWord(word)) || word];
  });
}

/** What was written, to be cut into the words of one name after the other. */
class Written {
  readonly #text: string;
  readonly #ends = new Set<number>();
  readonly #rivals: readonly string[];
  readonly #costs = new Map<string, number>();
  readonly #nearest = new Map<string, number>();

  constructor(words: readonly string[], rivals: readonly string[]) {
    this.#text = words.join("");
    this.#rivals = rivals;
    let at = 0;
    for (const word of words) {
      at += word.length;
      this.#ends.add(at);
    }
  }

  get isUnreadable(): boolean {
    return this.#text.length === 0 || this.#text.length > MOST_LETTERS;
  }

  /** The least cost as all the words of a name, and as some of them; infinite where it cannot be. */
  costAs(words: readonly string[]): { readonly whole: number; readonly part: number } {
    const end = this.#text.length;
    const all = 2 ** words.length - 1;
    // The least cost at which the text up to a place is used up by a set of the words (one bit a word).
    const cost = Array.from({ length: end + 1 }, () =>
      new Array<number>(all + 1).fill(Number.POSITIVE_INFINITY),
    );
    const start = cost[0];
    if (start) start[0] = 0;
    for (let from = 0; from < end; from += 1) {
      for (let used = 0; used < all; used += 1) {
        const before = cost[from]?.[used] ?? Number.POSITIVE_INFINITY;
        if (!Number.isFinite(before)) continue;
        words.forEach((word, index) => {
          if ((used >> index) & 1) return;
          const isNext = used === 2 ** index - 1;
          for (
            let to = from + Math.max(1, word.length - REACH);
            to <= from + word.length + REACH + 2;
            to += 1
          ) {
            if (to > end) break;
            const after = before + this.#pieceCost(from, to, word) + (isNext ? 0 : OUT_OF_ORDER);
            const row = cost[to];
            const now = used | (1 << index);
            if (row && after < (row[now] ?? Number.POSITIVE_INFINITY)) row[now] = after;
          }
        });
      }
    }
    const last = cost[end] ?? [];
    return { whole: last[all] ?? Number.POSITIVE_INFINITY, part: Math.min(...last.slice(0, all)) };
  }

  #pieceCost(from: number, to: number, word: string): number {
    let parted = 0;
    for (let at = from + 1; at < to; at += 1) if (this.#ends.has(at)) parted += PARTED;
    const joined = from > 0 && !this.#ends.has(from) ? JOINED : 0;
    return this.#spelt(this.#text.slice(from, to), word) + parted + joined;
  }

  #spelt(piece: string, word: string): number {
    const key = `${piece} ${word}`;
    const known = this.#costs.get(key);
    if (known !== undefined) return known;
    const cost = this.#speltAfresh(soundOf(piece), word);
    this.#costs.set(key, cost);
    return cost;
  }

  #speltAfresh(piece: string, word: string): number {
    const cost = spellingCost(piece, word, mostSpellingCost(word));
    if (cost === 0 || !Number.isFinite(cost)) return cost;
    return this.#nearestRival(piece) < cost ? Number.POSITIVE_INFINITY : cost;
  }

  /** The least cost of a piece as any word of the list or number; the word itself is never less than itself. */
  #nearestRival(piece: string): number {
    const known = this.#nearest.get(piece);
    if (known !== undefined) return known;
    let nearest = MOST_COST;
    for (const rival of this.#rivals) nearest = Math.min(nearest, spellingCost(piece, rival, nearest));
    this.#nearest.set(piece, nearest);
    return nearest;
  }
}
