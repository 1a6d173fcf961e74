/** How much one program may send: a bucket of tokens that fills evenly and is emptied by what comes (Turner 1986; from memory). */
import type { Seconds } from "../units/index.ts";

export interface Rate {
  readonly perSecond: number;
  /** So much may come at once after a silence. */
  readonly atOnce: number;
}

/**
 * Our choice: a kit sends at most fifty batches a second and answers the clock questions of a full lab, thirty-two; what
 * is asked for again after a break comes in one rush.
 */
export const MOST_MESSAGES: Rate = { perSecond: 200, atOnce: 400 };
export const MOST_BYTES: Rate = { perSecond: 128 * 1024, atOnce: 2 * 1024 * 1024 };

export class Bucket {
  readonly #rate: Rate;
  #left: number;
  #at: Seconds | undefined;

  constructor(rate: Rate) {
    this.#rate = rate;
    this.#left = rate.atOnce;
  }

  /** Takes so much at a moment, which never goes back; false where it was not there any more. */
  take(amount: number, now: Seconds): boolean {
    const since = Math.max(0, now - (this.#at ?? now));
    this.#at = now;
    this.#left = Math.min(this.#rate.atOnce, this.#left + since * this.#rate.perSecond) - amount;
    return this.#left >= 0;
  }
}
