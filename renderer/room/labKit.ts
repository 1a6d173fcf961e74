/**
 * A kit of the lab, at its own computer: what is played here is heard beside the page, and the desk is told of it every few
 * seconds, so that a desk with 32 kits has nothing to think over itself.
 */
import { sharesClock } from "../../engine/grading/index.ts";
import type { Hit } from "../../engine/kit/index.ts";
import type { HeardSummary } from "../../engine/rooms/index.ts";
import type { Judgement, TakeClick, TakeToJudge } from "../../engine/rounds/index.ts";
import type { Seconds } from "../../engine/units/index.ts";

/** The desk is told so often while something is played. Our choice: some two bars. */
const TELL_SECONDS: Seconds = 4;
/** The latest of it is judged: enough bars to know a groove, and short enough to show what has changed. Our choice. */
const WINDOW_SECONDS: Seconds = 24;
/** After a silence as long as this another take begins. Our choice: two slow bars. */
const SILENCE_SECONDS: Seconds = 6;
/** With fewer there is nothing to be said. */
const FEWEST_HITS = 8;

export class LabKit {
  readonly #judge: (take: TakeToJudge) => Promise<Judgement>;
  readonly #tell: (summary: HeardSummary) => void;
  readonly #clickNow: () => TakeClick | null;
  #called: string | null = null;
  #hits: Hit[] = [];
  #toldAt: Seconds = Number.NEGATIVE_INFINITY;
  #isThinking = false;

  /** @param clickNow the click that is running at this kit, if one is. */
  constructor(
    judge: (take: TakeToJudge) => Promise<Judgement>,
    tell: (summary: HeardSummary) => void,
    clickNow: () => TakeClick | null,
  ) {
    this.#judge = judge;
    this.#tell = tell;
    this.#clickNow = clickNow;
  }

  /** The desk has called a style: what was played before is another take. */
  called(styleId: string | null): void {
    this.#called = styleId;
    this.#hits = [];
  }

  /** Resolves when the desk was told, if it was time to. Rejects where the part that listens could not be had. */
  async add(hits: readonly Hit[]): Promise<void> {
    const [first] = hits;
    const last = hits.at(-1);
    if (!first || !last) return;
    const before = this.#hits.at(-1);
    if (before && first.time - before.time > SILENCE_SECONDS) this.#hits = [];
    this.#hits = [...this.#hits, ...hits].filter(({ time }) => time > last.time - WINDOW_SECONDS);
    const isDue = last.time >= this.#toldAt + TELL_SECONDS;
    if (this.#isThinking || !isDue || this.#hits.length < FEWEST_HITS) return;
    this.#toldAt = last.time;
    this.#isThinking = true;
    try {
      const click = this.#clickNow();
      this.#tell(summaryOf(await this.#judge({ hits: this.#hits, styleId: this.#called, click })));
    } finally {
      this.#isThinking = false;
    }
  }
}

/** What the desk is told of a judgement. Lean is told only against a click: without one there is nothing to lean against. */
export function summaryOf({ hearing, compared }: Judgement): HeardSummary {
  const report = compared?.report;
  const meets = report !== undefined && report.workOn.kind !== "no-match";
  const figures = {
    leanMs: meets && sharesClock(report) ? report.leanMs : null,
    spreadMs: meets ? report.spreadMs : null,
    voiceAccuracy: meets ? report.voiceAccuracy : null,
  };
  if (hearing.kind !== "heard")
    return { styleId: null, styleName: null, confidence: 0, tempoBpm: null, ...figures };
  const [best] = hearing.candidates;
  const known = hearing.known && best !== undefined;
  return {
    styleId: known ? best.id : null,
    styleName: known ? best.name : null,
    confidence: known ? best.confidence : hearing.noneConfidence,
    tempoBpm: hearing.pulse.tempoBpm,
    ...figures,
  };
}
