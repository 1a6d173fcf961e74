/** The clock of a look at the chart: counts what is left of it, and says when the pages turn and when it is to be written down. */
import type { ChartLook } from "../../../engine/rounds/index.ts";
import type { Seconds } from "../../../engine/units/index.ts";
import { pagesOf } from "./chartPages.ts";

/** Looking is written down as often: a program that is opened again has lost no more of it. */
const WRITTEN_EACH_SECONDS: Seconds = 5;
const TICK_MS = 250;

export interface LookClockParts {
  /** The look that is on; `undefined` while nobody looks. */
  readonly look: () => ChartLook | undefined;
  /** Whole seconds that are left, and the page it is time for; `null` where it has not changed. */
  readonly left: (seconds: Seconds, page: number | null) => void;
  /** So long was looked since this was said last. */
  readonly looked: (seconds: Seconds) => void;
}

export class LookClock {
  readonly #parts: LookClockParts;
  #timer: ReturnType<typeof setInterval> | undefined;
  #fromMs = 0;
  #leftSeconds: Seconds | undefined;
  /** The page that time has turned to. */
  #turned = 0;

  constructor(parts: LookClockParts) {
    this.#parts = parts;
  }

  /** Goes while somebody looks, and stands otherwise. */
  settle(): void {
    const isLooking = this.#parts.look() !== undefined;
    if (isLooking && this.#timer === undefined) {
      this.#fromMs = performance.now();
      this.#turned = 0;
      this.#leftSeconds = undefined;
      this.#timer = setInterval(() => this.#tick(), TICK_MS);
      this.#tick();
    } else if (!isLooking && this.#timer !== undefined) {
      clearInterval(this.#timer);
      this.#timer = undefined;
    }
  }

  /** Writes down what was looked since it was last written down. */
  write(): void {
    const look = this.#parts.look();
    if (!look) return;
    const now = performance.now();
    const seconds = (now - this.#fromMs) / 1000;
    this.#fromMs = now;
    if (seconds > 0) this.#parts.looked(Math.min(seconds, look.forSeconds));
  }

  #tick(): void {
    const look = this.#parts.look();
    if (!look) return;
    const { forSeconds, seconds } = look;
    const passed = (performance.now() - this.#fromMs) / 1000;
    const left = Math.max(0, forSeconds - seconds - passed);
    const leftSeconds = Math.ceil(left);
    const pages = pagesOf(look).length;
    // The pages are turned so that each is open as long as the others.
    const turned = Math.min(pages - 1, Math.floor(((forSeconds - left) / forSeconds) * pages));
    if (leftSeconds !== this.#leftSeconds)
      this.#parts.left(leftSeconds, turned > this.#turned ? turned : null);
    this.#leftSeconds = leftSeconds;
    this.#turned = turned;
    if (left <= 0 || passed >= WRITTEN_EACH_SECONDS) this.write();
  }
}
