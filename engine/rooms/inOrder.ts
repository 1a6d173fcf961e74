/**
 * What one sender numbers from 0, handed on in order, each once, whatever the network did on the way: doubled, swapped,
 * left out. What is missing is known, so that it can be asked for.
 */

/** From the first number (included) to the last (not). */
export interface Span {
  readonly from: number;
  readonly upTo: number;
}

/** So many may wait for one that is missing; then it is given up as lost. Our choice: some minutes of strikes. */
export const MOST_WAITING = 8192;

/** So many are asked for at once; the rest when these have come. */
export const MOST_GAPS = 32;

export class InOrder<Item> {
  #next: number | null;
  #known: number;
  #lost = 0;
  #doubled = 0;
  readonly #waiting = new Map<number, Item>();

  /** @param next the number of the first one that counts; `null`: whichever comes first. */
  constructor(next: number | null) {
    this.#next = next;
    this.#known = next ?? 0;
  }

  /** How many were given up. */
  get lost(): number {
    return this.#lost;
  }

  /** How many came more than once. */
  get doubled(): number {
    return this.#doubled;
  }

  /** Takes what came, the first of it with number `from`; gives all that is due now, in order. */
  take(from: number, items: readonly Item[]): readonly Item[] {
    this.#next ??= from;
    for (const [index, item] of items.entries()) this.#keep(from + index, item);
    this.standing(from + items.length);
    const due = this.#due();
    if (this.#waiting.size <= MOST_WAITING) return due;
    return [...due, ...this.giveUp(Math.min(...this.#waiting.keys()))];
  }

  /** The sender has sent all before `upTo`. */
  standing(upTo: number): void {
    this.#next ??= upTo;
    this.#known = Math.max(this.#known, upTo);
  }

  /** Whether all that was sent has come. */
  get isWhole(): boolean {
    return this.#next === null || this.#next >= this.#known;
  }

  /** What was sent and has not come, the first {@link MOST_GAPS} gaps of it. */
  get missing(): readonly Span[] {
    const gaps: Span[] = [];
    let from = this.#next ?? this.#known;
    for (const upTo of [...this.#waiting.keys()].sort((a, b) => a - b)) {
      if (upTo > from) gaps.push({ from, upTo });
      from = upTo + 1;
    }
    if (from < this.#known) gaps.push({ from, upTo: this.#known });
    return gaps.slice(0, MOST_GAPS);
  }

  /** What is before `upTo` will not come any more. Gives what waited for it. */
  giveUp(upTo: number): readonly Item[] {
    const from = this.#next ?? upTo;
    const numbers = [...this.#waiting.keys()].filter((number) => number < upTo).sort((a, b) => a - b);
    this.#lost += Math.max(0, upTo - from - numbers.length);
    const given: Item[] = [];
    for (const number of numbers) {
      const item = this.#waiting.get(number);
      if (item !== undefined) given.push(item);
      this.#waiting.delete(number);
    }
    this.#next = Math.max(from, upTo);
    this.standing(this.#next);
    return [...given, ...this.#due()];
  }

  #keep(number: number, item: Item): void {
    if (number < (this.#next ?? number) || this.#waiting.has(number)) this.#doubled += 1;
    else this.#waiting.set(number, item);
  }

  #due(): readonly Item[] {
    const due: Item[] = [];
    for (let next = this.#next ?? 0; ; next += 1) {
      const item = this.#waiting.get(next);
      if (item === undefined) return due;
      this.#waiting.delete(next);
      this.#next = next + 1;
      due.push(item);
    }
  }
}
