/**
 * Plays a click ahead of time on the audio clock. Whoever wakes it does so now and then; between two looks the click
 * plays on by itself, so a page that is busy, hidden or throttled loses none.
 */
import { type ClickStroke, clickStrokes, type PlayedClick } from "../../engine/score/index.ts";
import type { Seconds } from "../../engine/units/index.ts";
import type { ClickSound } from "./clickSound.ts";
import { clickTimer, type Wake } from "./clickTimer.ts";
import { AHEAD_UNSTEADY_SECONDS, clockOf } from "./clock.ts";

/** Scheduled this far ahead while the page is seen: three stalls of 200 ms, and soon enough silent when stopped. */
export const AHEAD_SECONDS: Seconds = 0.6;
/** While it is hidden: browsers may then wake a page once a second only (HTML, "timers"; Chromium 88 and later). */
export const AHEAD_HIDDEN_SECONDS: Seconds = 2.5;

/** What the player needs of the window. */
export interface ClickSurroundings {
  readonly now: () => Seconds;
  readonly isHidden: () => boolean;
  /** Calls `look` now and then until the returned function is called. */
  readonly wake: Wake;
}

const inThisWindow: ClickSurroundings = {
  now: () => performance.now() / 1000,
  isHidden: () => document.visibilityState === "hidden",
  wake: clickTimer,
};

export class ClickPlayer {
  readonly context: AudioContext;
  readonly #sound: ClickSound;
  readonly #strokes: Generator<ClickStroke, never>;
  readonly #surroundings: ClickSurroundings;
  readonly #sleep: () => void;
  #next: ClickStroke;

  /** Begins at once. Call it from the user's own action, on a context that runs. */
  constructor(
    context: AudioContext,
    sound: ClickSound,
    click: PlayedClick,
    surroundings: ClickSurroundings = inThisWindow,
  ) {
    this.context = context;
    this.#sound = sound;
    this.#strokes = clickStrokes(click);
    this.#next = this.#strokes.next().value;
    this.#surroundings = surroundings;
    this.#look();
    this.#sleep = surroundings.wake(() => this.#look());
  }

  /** Silent at once, what was scheduled too. */
  stop(): void {
    this.#sleep();
    this.#sound.silence();
  }

  #look(): void {
    const clock = clockOf(this.context);
    clock.look();
    const until = this.#surroundings.now() + (clock.isSteady ? this.#aheadSeconds() : AHEAD_UNSTEADY_SECONDS);
    while (this.#next.time <= until) {
      const at = clock.audioTimeAt(this.#next.time);
      // A click that is too late would be a wrong one: it is left out.
      if (at - this.#sound.riseSeconds >= this.context.currentTime) this.#sound.sound(this.#next.weight, at);
      this.#next = this.#strokes.next().value;
    }
  }

  #aheadSeconds(): Seconds {
    return this.#surroundings.isHidden() ? AHEAD_HIDDEN_SECONDS : AHEAD_SECONDS;
  }
}
