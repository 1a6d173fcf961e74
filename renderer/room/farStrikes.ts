/**
 * Strikes of somebody far away: sounded ahead of time as soon as they are known, and handed on when their moment has come here: on
 * our clock, and later by the delay that was chosen.
 */
import type { Hit } from "../../engine/kit/index.ts";
import type { Seconds } from "../../engine/units/index.ts";

/** Sounds strikes at their moments; see `renderer/audio/comingStrokes.ts`. */
export interface FarSound {
  readonly add: (strikes: readonly Hit[]) => void;
  readonly stop: () => void;
}

export class FarStrikes {
  readonly #hand: (hits: readonly Hit[]) => void;
  readonly #now: () => Seconds;
  #sound: FarSound | undefined;
  #waiting: Hit[] = [];
  #timer: ReturnType<typeof setTimeout> | undefined;

  /** @param hand takes strikes whose `time`, on our clock, has come. */
  constructor(hand: (hits: readonly Hit[]) => void, now: () => Seconds) {
    this.#hand = hand;
    this.#now = now;
  }

  /** From now on what comes is sounded by this; `undefined`: by nothing any more. */
  soundBy(sound: FarSound | undefined): void {
    this.#sound?.stop();
    this.#sound = sound;
  }

  /** Strikes in order, their times as they shall be here. One whose time is over is handed on at once, with its own time. */
  add(hits: readonly Hit[]): void {
    this.#sound?.add(hits);
    this.#waiting.push(...hits);
    this.#go();
  }

  /** What still waits is let go. */
  clear(): void {
    clearTimeout(this.#timer);
    this.#waiting = [];
  }

  #go(): void {
    clearTimeout(this.#timer);
    const now = this.#now();
    const next = this.#waiting.findIndex(({ time }) => time > now);
    const due = this.#waiting.splice(0, next === -1 ? this.#waiting.length : next);
    if (due.length > 0) this.#hand(due);
    const [first] = this.#waiting;
    if (first) this.#timer = setTimeout(() => this.#go(), (first.time - now) * 1000);
  }
}
