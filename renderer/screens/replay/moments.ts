/**
 * The lesson at any of its moments: the fold of the log, up to there. It is the fold that made the lesson while it was
 * live; kept here and there on the way, so that no moment is far from one that is known.
 */
import {
  type LessonState,
  lessonState,
  NEW_LESSON,
  type SessionEvent,
} from "../../../engine/session/index.ts";
import type { Seconds } from "../../../engine/units/index.ts";

/** Events from one kept state to the next. Our choice: a few milliseconds of folding, twenty states of a long lesson. */
const KEPT_EVERY = 2048;

export class Moments {
  readonly events: readonly SessionEvent[];
  /** The lesson as it is known now, with all that was said of it since. */
  readonly whole: LessonState;
  /** How long it was. Remarks that were written later do not make it longer. */
  readonly seconds: Seconds;
  /** The latest moment of the log up to each event: a strike may come after an event that it was before. */
  readonly #latest: Float64Array;
  readonly #kept: readonly LessonState[];
  #last: { readonly count: number; readonly state: LessonState } = { count: 0, state: NEW_LESSON };

  /** @param events of one lesson, in order of `seq`. */
  constructor(events: readonly SessionEvent[]) {
    this.events = events;
    const latest = new Float64Array(events.length);
    const kept: LessonState[] = [];
    let state = NEW_LESSON;
    for (let from = 0; from < events.length; from += KEPT_EVERY) {
      kept.push(state);
      state = lessonState(events.slice(from, from + KEPT_EVERY), state);
    }
    let reached = 0;
    events.forEach(({ time }, index) => {
      reached = Math.max(reached, time);
      latest[index] = reached;
    });
    this.#latest = latest;
    this.#kept = kept;
    this.whole = state;
    const lastPlayed = events.findLastIndex(({ kind }) => kind !== "remark" && kind !== "remark-withdrawn");
    this.seconds = Math.max(0, latest[lastPlayed] ?? 0);
  }

  /** How many events had happened at a moment. */
  countAt(time: Seconds): number {
    return countUpTo(this.#latest, time);
  }

  /** The lesson as it stood at a moment. */
  stateAt(time: Seconds): LessonState {
    const count = this.countAt(time);
    const near = Math.floor(count / KEPT_EVERY);
    const from =
      this.#last.count <= count && this.#last.count >= near * KEPT_EVERY
        ? this.#last
        : { count: near * KEPT_EVERY, state: this.#kept[near] ?? NEW_LESSON };
    // All kept states are of multiples; one that would stand behind the last event is the whole.
    const state =
      count === this.events.length
        ? this.whole
        : lessonState(this.events.slice(from.count, count), from.state);
    this.#last = { count, state };
    return state;
  }
}

/** How many of some rising numbers are no more than this one. */
export function countUpTo(rising: Float64Array, most: number): number {
  let low = 0;
  let high = rising.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((rising[middle] ?? 0) <= most) low = middle + 1;
    else high = middle;
  }
  return low;
}
