/**
 * The log of the lesson that is on: every event is in it at once, in memory, and in the state that screens watch. Writing
 * it down is the {@link LessonWriter}'s; nothing here waits for that.
 *
 * The lesson's clock is the session clock, moved so that the lesson begins at 0: it runs on evenly whatever is done to the
 * calendar of this computer.
 */
import type { Hit } from "../../engine/kit/index.ts";
import {
  instantAfter,
  type Lane,
  type LessonState,
  lessonAfter,
  lessonState,
  NEW_LESSON,
  type SessionEvent,
  secondsBetween,
} from "../../engine/session/index.ts";
import type { Seconds } from "../../engine/units/index.ts";
import type { Watched } from "./store.ts";

/** An event before it has its place in the log. */
export type NewEvent = SessionEvent extends infer Event
  ? Event extends { readonly kind: "hit" | "lesson-began" }
    ? never
    : Event extends SessionEvent
      ? Omit<Event, "seq" | "time" | "lane"> & { readonly lane?: number }
      : never
  : never;

export interface BeginningLesson {
  readonly lessonId: string;
  readonly studentIds: readonly string[];
  readonly lanes: readonly Lane[];
  /** IANA name. */
  readonly zone: string;
}

/** The two clocks of this computer. */
export interface LogClock {
  /** The session clock: never jumps. */
  readonly now: () => Seconds;
  /** The calendar, ISO 8601 in UTC. */
  readonly instant: () => string;
}

export const CLOCK_OF_THIS_COMPUTER: LogClock = {
  now: () => performance.now() / 1000,
  instant: () => new Date().toISOString(),
};

/** Moments are kept to a millionth of a second: finer than any clock here, and short in writing. */
const PARTS_OF_SECOND = 1e6;
/**
 * A lesson that was broken off for longer than this does not go on by the calendar but where it was: then somebody has set
 * that, or it was wrong before. Our choice: half a day.
 */
const LONGEST_BREAK: Seconds = 12 * 3600;

export class LessonLog implements Watched<LessonState> {
  readonly #clock: LogClock;
  readonly #listeners = new Set<() => void>();
  #events: SessionEvent[] = [];
  #state = NEW_LESSON;
  /** Where the session clock stands when the lesson's is at 0. */
  #zero: Seconds = 0;

  constructor(clock: LogClock = CLOCK_OF_THIS_COMPUTER) {
    this.#clock = clock;
  }

  readonly get = (): LessonState => this.#state;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  /** All events so far; the same array grows. */
  get events(): readonly SessionEvent[] {
    return this.#events;
  }

  /** Whether a lesson is on: begun, and not ended. */
  get isOn(): boolean {
    return this.#state.began !== null && this.#state.stage !== "ended";
  }

  /** Begins a lesson. @throws Error while another one is on. */
  begin({ lessonId, studentIds, lanes, zone }: BeginningLesson): void {
    if (this.isOn) throw new Error("A lesson is on. End it before the next one begins.");
    this.#events = [];
    this.#state = NEW_LESSON;
    this.#zero = this.#clock.now();
    const at = this.#clock.instant();
    this.#append([{ kind: "lesson-began", seq: 1, time: 0, lane: 0, lessonId, at, zone, studentIds, lanes }]);
  }

  /**
   * Goes on with a lesson that had not ended when the program was closed or fell.
   *
   * @param events all that is kept of it.
   * @throws Error while another one is on, or where its beginning is lost.
   */
  takeUpAgain(events: readonly SessionEvent[]): void {
    if (this.isOn) throw new Error("A lesson is on. End it before another one is taken up again.");
    const state = lessonState(events);
    if (!state.began)
      throw new Error("The beginning of this lesson cannot be read, so it cannot go on. Begin a new one.");
    const at = this.#clock.instant();
    // By the calendar, but never back and never far ahead: somebody may have set it in between.
    const byCalendar = secondsBetween(state.began.at, at) - state.time;
    const time = state.time + (byCalendar > 0 && byCalendar <= LONGEST_BREAK ? byCalendar : 0);
    this.#events = [...events];
    this.#state = state;
    this.#zero = this.#clock.now() - time;
    this.add({ kind: "taken-up-again", at });
  }

  /** Adds an event that happens now. Does nothing while no lesson is on; remarks can be added to one that has ended. */
  add(event: NewEvent): void {
    const isRemark = event.kind === "remark" || event.kind === "remark-withdrawn";
    if (!this.isOn && !(isRemark && this.#state.began)) return;
    const time = this.now;
    const { lane = 0 } = event;
    this.#append([{ ...event, lane, seq: this.#state.seq + 1, time } as SessionEvent]);
  }

  /** Adds strikes, on the session clock, in the order they were heard. */
  addHits(hits: readonly Hit[], lane = 0): void {
    if (!this.isOn || hits.length === 0) return;
    const from = this.#state.seq + 1;
    this.#append(
      hits.map((hit, index) => {
        const time = this.timeOf(hit.time);
        return { kind: "hit", seq: from + index, time, lane, hit: { ...hit, time } };
      }),
    );
  }

  /**
   * Adds strikes of a piece that was read at once, as if they had been played from now on: the lesson's clock goes ahead by
   * as long as the piece is.
   */
  addHitsReadAtOnce(hits: readonly Hit[], lane = 0): void {
    const first = hits[0]?.time ?? 0;
    const length = Math.max(0, (hits.at(-1)?.time ?? 0) - first);
    const counting = this.#state.rounds.flatMap(({ takes }) =>
      takes.flatMap((take) => (take.to === null && take.lane === lane ? [take.countsFrom] : [])),
    );
    const begin = Math.max(this.now, ...counting);
    const shift = begin + this.#zero - first;
    this.addHits(
      hits.map((hit) => ({ ...hit, time: hit.time + shift })),
      lane,
    );
    this.#zero = this.#clock.now() - (begin + length);
  }

  pause(): void {
    this.add({ kind: "paused", at: this.#clock.instant() });
  }

  resume(): void {
    this.add({ kind: "resumed", at: this.#clock.instant() });
  }

  end(): void {
    this.add({ kind: "lesson-ended", at: this.#clock.instant() });
  }

  /** This moment, on the lesson's clock. */
  get now(): Seconds {
    return this.timeOf(this.#clock.now());
  }

  /** A moment of the session clock, on the lesson's. */
  timeOf(sessionTime: Seconds): Seconds {
    return Math.round((sessionTime - this.#zero) * PARTS_OF_SECOND) / PARTS_OF_SECOND;
  }

  /** The instant of the calendar at a moment of the lesson, counted from its beginning. */
  instantOf(time: Seconds): string | null {
    return this.#state.began ? instantAfter(this.#state.began.at, time) : null;
  }

  #append(events: readonly SessionEvent[]): void {
    for (const event of events) {
      this.#events.push(event);
      this.#state = lessonAfter(this.#state, event);
    }
    for (const listener of this.#listeners) listener();
  }
}
