/** The strikes that were sent into a room: numbered, put together in batches, and kept for a while in case one is asked for again. */
import type { Hit } from "../kit/index.ts";
import type { Seconds } from "../units/index.ts";
import { type MessageOf, MOST_HITS_AT_ONCE } from "./message.ts";

/** Strikes travel together if they fall this close; the first after a silence goes at once. Our choice: below what is heard as late. */
export const BATCH_SECONDS: Seconds = 0.02;

/** So many are kept: half an hour at ten a second. Our choice. */
export const HITS_KEPT = 18_000;

export class SentHits {
  #kept: Hit[] = [];
  #first = 0;
  #sent = 0;
  #sentAt: Seconds = Number.NEGATIVE_INFINITY;

  /** The number that the next strike will have. */
  get sequence(): number {
    return this.#first + this.#kept.length;
  }

  /** Whether some are still to be sent. */
  get isWaiting(): boolean {
    return this.#sent < this.sequence;
  }

  /** How many were sent; of them the last has the number before. */
  get sentUpTo(): number {
    return this.#sent;
  }

  /** When the next batch is due. */
  get dueAt(): Seconds {
    return this.#sentAt + BATCH_SECONDS;
  }

  add(hits: readonly Hit[]): void {
    this.#kept.push(...hits.map(asSent));
    // Twice as many before it is cut, so that it is not copied with every strike.
    if (this.#kept.length <= 2 * HITS_KEPT) return;
    this.#first += this.#kept.length - HITS_KEPT;
    this.#kept = this.#kept.slice(-HITS_KEPT);
  }

  /** What is to be sent now; nothing where the last batch has only just left. */
  due(now: Seconds): readonly MessageOf<"hits">[] {
    if (!this.isWaiting || now < this.dueAt) return [];
    const from = this.#sent;
    this.#sent = this.sequence;
    this.#sentAt = now;
    return this.between(from, this.sequence);
  }

  /** The strikes from one number to another, as far as they are kept. */
  between(from: number, upTo: number): readonly MessageOf<"hits">[] {
    const batches: MessageOf<"hits">[] = [];
    const last = Math.min(upTo, this.sequence);
    for (let at = Math.max(from, this.#first); at < last; at += MOST_HITS_AT_ONCE) {
      const end = Math.min(at + MOST_HITS_AT_ONCE, last);
      batches.push({ kind: "hits", from: at, hits: this.#kept.slice(at - this.#first, end - this.#first) });
    }
    return batches;
  }

  /** The first that is kept: what comes before cannot be sent again. */
  get firstKept(): number {
    return this.#first;
  }
}

/** To the microsecond, and four figures of strength: what a kit tells is coarser, and the message is half as long. */
function asSent(hit: Hit): Hit {
  return {
    ...hit,
    time: Math.round(hit.time * 1e6) / 1e6,
    velocity: Math.round(hit.velocity * 1e4) / 1e4,
    ...(hit.openness === undefined ? {} : { openness: Math.round(hit.openness * 1e4) / 1e4 }),
  };
}
