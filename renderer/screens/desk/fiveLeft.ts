/**
 * Five Left while it runs: which of the dealt rounds is on, and when it is time for the next. It goes by the lesson's own
 * clock, and ends with the minutes that were dealt, whatever is being played then.
 */
import type { Deal, DealtRound, OwnNames } from "../../../engine/memory/index.ts";
import type { LessonState } from "../../../engine/session/index.ts";
import type { Milliseconds, Seconds } from "../../../engine/units/index.ts";
import { Store, type Watched } from "../../session/store.ts";

export type FiveLeftState =
  | { readonly stage: "none" }
  | {
      readonly stage: "on";
      readonly deal: Deal;
      /** How what was dealt is called here. */
      readonly names: OwnNames;
      /** The round that is on, by its place in the deal. */
      readonly at: number;
      /** On the lesson's clock. */
      readonly roundEnds: Seconds;
      readonly ends: Seconds;
    }
  /** Its time is up, or it was ended; until the lesson ends or it is dealt again. */
  | { readonly stage: "over"; readonly deal: Deal };

/** What it does with the rounds. */
export interface FiveLeftActs {
  readonly begin: (round: DealtRound) => void;
  /** Ends what is on; a take that is being played is judged. */
  readonly end: (round: DealtRound) => void;
  /** A take is being played: it is let go on as long as the time allows. */
  readonly isTaking: () => boolean;
  readonly over: () => void;
}

/** The lesson that is on. */
export interface LessonClock extends Watched<LessonState> {
  readonly isOn: boolean;
  readonly now: Seconds;
}

const LOOK_EVERY_MS: Milliseconds = 500;
const SECONDS_OF_MINUTE = 60;

/** Looks again and again until it is told to stop. */
export type Looking = (look: () => void) => () => void;

const nowAndThen: Looking = (look) => {
  const timer = setInterval(look, LOOK_EVERY_MS);
  return () => clearInterval(timer);
};

export class FiveLeft extends Store<FiveLeftState, FiveLeftState> {
  readonly #lesson: LessonClock;
  readonly #looking: Looking;
  #acts: FiveLeftActs | undefined;
  #stop: (() => void) | undefined;

  constructor(lesson: LessonClock, looking: Looking = nowAndThen) {
    super({ stage: "none" }, (_, state) => state);
    this.#lesson = lesson;
    this.#looking = looking;
    lesson.subscribe(() => {
      if (!lesson.isOn && this.get().stage !== "none") this.#leave({ stage: "none" });
    });
  }

  /** Begins the first round of a deal. Does nothing while no lesson is on, or where nothing was dealt. */
  begin(deal: Deal, acts: FiveLeftActs, names: OwnNames = new Map()): void {
    const [first] = deal.rounds;
    if (!first || !this.#lesson.isOn) return;
    this.#acts = acts;
    const { now } = this.#lesson;
    const ends = now + deal.minutes * SECONDS_OF_MINUTE;
    const roundEnds = now + first.minutes * SECONDS_OF_MINUTE;
    this.dispatch({ stage: "on", deal, names, at: 0, roundEnds, ends });
    this.#stop ??= this.#looking(() => this.#look());
    acts.begin(first);
  }

  /** Goes on to the next round before its time; after the last one it is over. */
  next(): void {
    const state = this.get();
    if (state.stage !== "on") return;
    const { deal, names, at, ends } = state;
    const [now, next] = [deal.rounds[at], deal.rounds[at + 1]];
    if (now) this.#acts?.end(now);
    if (!next) {
      this.#over(deal);
      return;
    }
    const roundEnds = Math.min(ends, this.#lesson.now + next.minutes * SECONDS_OF_MINUTE);
    this.dispatch({ stage: "on", deal, names, at: at + 1, roundEnds, ends });
    this.#acts?.begin(next);
  }

  /** Ends it before its time. */
  end(): void {
    const state = this.get();
    if (state.stage !== "on") return;
    const now = state.deal.rounds[state.at];
    if (now) this.#acts?.end(now);
    this.#over(state.deal);
  }

  #look(): void {
    const state = this.get();
    if (state.stage !== "on") return;
    const { now } = this.#lesson;
    if (now >= state.ends) this.end();
    else if (now >= state.roundEnds && state.at + 1 < state.deal.rounds.length && !this.#acts?.isTaking())
      this.next();
  }

  #over(deal: Deal): void {
    const acts = this.#acts;
    this.#leave({ stage: "over", deal });
    acts?.over();
  }

  #leave(state: FiveLeftState): void {
    this.#stop?.();
    this.#stop = undefined;
    this.#acts = undefined;
    this.dispatch(state);
  }
}

/** The round takes five minutes where nothing else is known; it is named after that. */
export const FIVE_MINUTES = 5;
const FEWEST_MINUTES = 2;
const DAY_SECONDS = 24 * 3600;

/**
 * Whole minutes until a lesson should end, five at most; five where that is not known or is past.
 *
 * @param endsAt seconds since midnight.
 * @param now seconds since midnight.
 * @example
 * minutesLeft(15.75 * 3600, 15.7 * 3600) // => 3
 */
export function minutesLeft(endsAt: Seconds | undefined, now: Seconds): number {
  if (endsAt === undefined) return FIVE_MINUTES;
  const left = (endsAt - now + DAY_SECONDS) % DAY_SECONDS;
  // Past the end there is most of a day to the next one.
  if (left > DAY_SECONDS / 2) return FIVE_MINUTES;
  return Math.min(FIVE_MINUTES, Math.max(FEWEST_MINUTES, Math.floor(left / SECONDS_OF_MINUTE)));
}
