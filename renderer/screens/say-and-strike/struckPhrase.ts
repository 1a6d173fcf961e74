/** What is struck on one kit, until a silence ends it. */
import type { Hit } from "../../../engine/kit/index.ts";
import { type Call, MOST_STROKES, type SaidStroke } from "../../../engine/rounds/index.ts";
import { beatSeconds, type Milliseconds } from "../../../engine/units/index.ts";
import type { KitLog } from "../../session/kitLog.ts";

/** A phrase is over after so many of its beats without a stroke, and never sooner than this. Our choice. */
const OVER_BEATS = 2;
const LEAST_OVER_MS: Milliseconds = 1300;

/** How long a silence ends what is struck; within an answer it may be as long as the longest one of its call. */
export function silenceMs(call: Pick<Call, "strokes" | "tempoBpm"> | null): Milliseconds {
  if (!call) return LEAST_OVER_MS;
  const beatMs = beatSeconds(call.tempoBpm) * 1000;
  const longest = call.strokes
    .slice(1)
    .reduce((most, { time }, at) => Math.max(most, (time - (call.strokes[at]?.time ?? 0)) * 1000), 0);
  return Math.max(LEAST_OVER_MS, OVER_BEATS * beatMs, longest + beatMs);
}

/** Listens to a kit from now on, for one phrase. */
export class StruckPhrase {
  readonly log: KitLog;
  readonly #stopHearing: () => void;
  #hits: readonly Hit[] = [];
  #timer: ReturnType<typeof setTimeout> | undefined;

  /**
   * @param silence that ends it, in milliseconds.
   * @param struck tells how many strokes there are so far.
   * @param over gives them, seconds from the first, once.
   */
  constructor(
    log: KitLog,
    silence: Milliseconds,
    struck: (count: number) => void,
    over: (strokes: readonly SaidStroke[]) => void,
  ) {
    this.log = log;
    this.#stopHearing = log.hear((fresh) => {
      this.#hits = [...this.#hits, ...fresh].slice(0, MOST_STROKES);
      struck(this.#hits.length);
      clearTimeout(this.#timer);
      this.#timer = setTimeout(() => {
        this.stop();
        over(this.#strokes());
      }, silence);
    });
  }

  /** What was struck so far counts for nothing. */
  stop(): void {
    clearTimeout(this.#timer);
    this.#stopHearing();
  }

  #strokes(): readonly SaidStroke[] {
    const first = this.#hits[0]?.time ?? 0;
    return this.#hits.map(({ time, voice }) => ({ time: Math.max(0, time - first), voice }));
  }
}
