/** Hears what is struck on a kit: the question until a silence ends it, or an answer of as many moments as were asked. */
import type { Moments, Rung } from "../../../engine/ear/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import type { KitLog } from "../../session/kitLog.ts";
import { Store } from "../../session/store.ts";
import { type Collecting, NOTHING_COLLECTED } from "./collecting.ts";
import { struckMoments, TOGETHER_SECONDS } from "./struckMoments.ts";

/** So long after the last strike what a kit sounded is a whole question. Our choice: longer than from one moment of a row to the next. */
const QUESTION_OVER_MS = 1400;
/** So long after the last strike that an answer needs, it is whole: another hand may belong to the same moment. */
const ANSWER_OVER_MS = TOGETHER_SECONDS * 1000 + 20;

export interface MomentsStruckParts {
  /** The question that is on: how many moments it has, and its rung; `null` where nothing is asked. */
  readonly asked: () => { readonly count: number; readonly rung: Rung | null } | null;
  readonly question: (moments: Moments) => void;
  readonly answer: (moments: Moments) => void;
}

export class MomentsStruck {
  readonly collecting = new Store<Collecting, Collecting>(NOTHING_COLLECTED, (_, next) => next);
  readonly #parts: MomentsStruckParts;
  #hits: readonly Hit[] = [];
  #timer: ReturnType<typeof setTimeout> | undefined;
  #stopHearing: () => void = () => {};

  constructor(parts: MomentsStruckParts) {
    this.#parts = parts;
  }

  /** From now on what is struck at this kit counts as this; `null`: it is only named. */
  collect(what: "question" | "answer", log: KitLog | null): void {
    this.#begin(what);
    if (log) this.#stopHearing = log.hear((fresh) => this.#struck(what, fresh));
  }

  /** No strike counts. */
  stop(): void {
    this.#begin(null);
  }

  /** What is named so far, before it is an answer. */
  name(moments: Moments): void {
    this.#hits = [];
    this.collecting.dispatch({ what: "answer", moments });
  }

  #begin(what: Collecting["what"]): void {
    clearTimeout(this.#timer);
    this.#stopHearing();
    this.#stopHearing = () => {};
    this.#hits = [];
    this.collecting.dispatch({ what, moments: [] });
  }

  #struck(what: "question" | "answer", fresh: readonly Hit[]): void {
    const { asked, question } = this.#parts;
    this.#hits = [...this.#hits, ...fresh];
    const on = asked();
    const moments = struckMoments(this.#hits, on?.rung?.touch);
    if (moments.length === 0) return;
    this.collecting.dispatch({ what, moments });
    clearTimeout(this.#timer);
    if (what === "question")
      this.#timer = setTimeout(() => {
        const whole = struckMoments(this.#hits);
        this.stop();
        question(whole);
      }, QUESTION_OVER_MS);
    else if (on && moments.length >= on.count)
      this.#timer = setTimeout(() => this.#answerStruck(), ANSWER_OVER_MS);
  }

  #answerStruck(): void {
    const moments = struckMoments(this.#hits, this.#parts.asked()?.rung?.touch);
    this.#hits = [];
    this.#parts.answer(moments);
  }
}
