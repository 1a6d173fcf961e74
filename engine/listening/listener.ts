/**
 * Question: what is being played now, while it is played?
 * Method: the last seconds are heard as a take of their own.
 */
import type { Hit } from "../kit/index.ts";
import type { Seconds } from "../units/index.ts";
import { hear } from "./hear.ts";
import type { Hearing } from "./hearing.ts";
import type { Stock } from "./stock.ts";

/** What was played longer ago than this no longer counts for what is being played now. Eight bars at 80 a minute. */
const LIVE_SPAN: Seconds = 24;

/**
 * Listening while playing: hits go in one by one, the last bars are heard again when asked.
 *
 * @example
 * new Listener(stock).hearing() // => { kind: "nothing", reason: "no-hits" }
 */
export class Listener {
  readonly #stock: Stock;
  #hits: Hit[] = [];

  constructor(stock: Stock) {
    this.#stock = stock;
  }

  /** Takes one hit, in order of time. What is long past is let go, so that a long session costs no more. */
  add(hit: Hit): void {
    this.#hits.push(hit);
    const oldest = hit.time - LIVE_SPAN;
    if ((this.#hits[0]?.time ?? oldest) < oldest - LIVE_SPAN) {
      this.#hits = this.#hits.filter(({ time }) => time >= oldest);
    }
  }

  /** What the last bars sound like. Not for the strike's own path: ask once a beat. */
  hearing(): Hearing {
    const newest = this.#hits.at(-1)?.time ?? 0;
    return hear(
      this.#hits.filter(({ time }) => time >= newest - LIVE_SPAN),
      this.#stock,
    );
  }
}
