/** Listens for the first player's own pulse, from the first stroke of a form on; it is thought about beside the page. */
import type { Hit } from "../../../engine/kit/index.ts";
import type { Heard } from "../../../engine/listening/index.ts";
import type { Seconds } from "../../../engine/units/index.ts";
import type { TradingPlace } from "./tradingPlace.ts";

/** A pulse is listened for from so many strokes on, this often, and no sooner than this after the first. Our choice. */
const FEWEST_FOR_PULSE = 6;
const LISTEN_EVERY_SECONDS: Seconds = 0.35;
const SOONEST_PULSE_SECONDS: Seconds = 1.5;

export class PulseEar {
  readonly #place: Pick<TradingPlace, "judge" | "now">;
  readonly #heard: (hearing: Heard, first: Seconds) => void;
  readonly #failed: (sentence: string) => void;
  #strokes = 0;
  #first: Seconds | undefined;
  #timer: ReturnType<typeof setInterval> | undefined;
  #isOver = false;

  /**
   * @param heard takes what is heard, and the moment of the first stroke.
   * @param failed takes a sentence where the part that listens could not be had.
   */
  constructor(
    place: Pick<TradingPlace, "judge" | "now">,
    heard: (hearing: Heard, first: Seconds) => void,
    failed: (sentence: string) => void,
  ) {
    this.#place = place;
    this.#heard = heard;
    this.#failed = failed;
    place.judge.begin(null, []);
  }

  add(fresh: readonly Hit[]): void {
    this.#place.judge.add(fresh);
    this.#strokes += fresh.length;
    this.#first ??= fresh[0]?.time;
    // By a timer: a player who has stopped waits for the pulse to be heard.
    this.#timer ??= setInterval(() => this.#listen(), LISTEN_EVERY_SECONDS * 1000);
  }

  /** It was heard, or nobody waits for it any more. */
  stop(): void {
    this.#isOver = true;
    clearInterval(this.#timer);
  }

  #listen(): void {
    const { judge, now } = this.#place;
    const first = this.#first;
    if (first === undefined || this.#strokes < FEWEST_FOR_PULSE || now() - first < SOONEST_PULSE_SECONDS)
      return;
    judge.hear().then(
      (hearing) => {
        if (!this.#isOver && hearing.kind === "heard") this.#heard(hearing, first);
      },
      (error: unknown) => {
        if (!this.#isOver)
          this.#failed(
            `The pulse could not be heard (${error instanceof Error ? error.message : String(error)}). Choose a click, then begin again.`,
          );
      },
    );
  }
}
