/**
 * Plays written strokes ahead of time: they are handed to the audio clock well before they are due, so that a busy
 * or hidden page delays none.
 */
import type { Voice } from "../../engine/kit/index.ts";
import type { Seconds } from "../../engine/units/index.ts";
import type { Struck } from "./strokeSound.ts";

/** A stroke at `time` seconds from the start of what is played. */
export interface PlannedStroke extends Struck {
  readonly time: Seconds;
}

/** A hand on a cymbal, `time` seconds from the start. */
export interface PlannedChoke {
  readonly time: Seconds;
  readonly voice: Voice;
  readonly isChoke: true;
}

export type Planned = PlannedStroke | PlannedChoke;

/** What is being played. */
export interface Playing {
  /** When its time 0 is heard, on the session clock. */
  readonly from: Seconds;
  readonly stop: () => void;
}

/**
 * Strokes are handed over this long before they are due. Where the timer of the click has no worker, a page in the
 * background is woken once a second only, so it takes more than that; a page that stands still for less loses nothing,
 * once the clocks are joined.
 */
export const AHEAD_SECONDS: Seconds = 1.6;

/** Which strokes come next: the list once, or round and round. */
export class StrokePlan {
  readonly #strokes: readonly Planned[];
  readonly #loopSeconds: Seconds | undefined;
  #next = 0;

  /**
   * @param strokes in any order.
   * @param loopSeconds length of one round; without it the list is played once.
   * @throws RangeError for a round of no length.
   */
  constructor(strokes: readonly Planned[], loopSeconds?: Seconds) {
    if (loopSeconds !== undefined && !(loopSeconds > 0))
      throw new RangeError(`A round of ${loopSeconds} seconds cannot be repeated: give it a length.`);
    this.#strokes = strokes.toSorted((a, b) => a.time - b.time);
    this.#loopSeconds = loopSeconds;
  }

  /** The strokes before `until` (seconds from the start) that were not given before, each with its moment. */
  until(until: Seconds): readonly Planned[] {
    const due: Planned[] = [];
    for (let stroke = this.#upcoming(); stroke && stroke.time < until; stroke = this.#upcoming()) {
      due.push(stroke);
      this.#next += 1;
    }
    return due;
  }

  /** Whether every stroke was given. */
  get isOver(): boolean {
    return this.#upcoming() === undefined;
  }

  #upcoming(): Planned | undefined {
    const count = this.#strokes.length;
    if (count === 0) return undefined;
    if (this.#loopSeconds === undefined) return this.#strokes[this.#next];
    const stroke = this.#strokes[this.#next % count];
    return stroke && { ...stroke, time: stroke.time + Math.floor(this.#next / count) * this.#loopSeconds };
  }
}
