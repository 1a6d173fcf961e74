/**
 * Hears what a kit plays: the question, or an answer that plays it back. It is looked at while it is played, and thought over as
 * a whole once a silence has ended it.
 */
import type { Hit } from "../../../engine/kit/index.ts";
import { type About, type Proposal, proposalOf } from "../../../engine/rounds/index.ts";
import type { Milliseconds } from "../../../engine/units/index.ts";
import type { KitLog } from "../../session/kitLog.ts";
import { Store } from "../../session/store.ts";
import { type HearingNow, NOTHING_HEARD } from "./hearing.ts";
import type { SpottingPlace } from "./spottingPlace.ts";

/** So long after the last strike it is over, what was played on a kit. Our choice: longer than a slow bar's rest. */
const OVER_MS: Milliseconds = 2400;
/** From one look at what is played to the next. Our choice: a beat or two. */
const LOOK_EVERY_MS: Milliseconds = 1000;
/** With fewer strikes than these nothing was played back: somebody tried a drum. Our choice. */
const FEWEST_STROKES = 12;

export interface SpottingEarParts extends Pick<SpottingPlace, "judge" | "listenedFor"> {
  /** What the question is about; `null` where nothing is asked. */
  readonly about: () => About | null;
  /** Whether the program is sounding the question now: who drums along is not playing it back. */
  readonly isSounding: () => boolean;
  /** What the question may be, while it is played. `null`: none that is known. */
  readonly looked: (proposal: Proposal | null) => void;
  /** What the question was, once it is over. */
  readonly playedOut: (proposal: Proposal | null) => void;
  /** What was played back. */
  readonly playedBack: (proposal: Proposal | null) => void;
  /** Again was asked for while it was thought over, which is done. */
  readonly again: () => void;
  readonly trouble: (sentence: string) => void;
}

export class SpottingEar {
  readonly now = new Store<HearingNow, Partial<HearingNow>>(NOTHING_HEARD, (before, change) => ({
    ...before,
    ...change,
  }));
  readonly #parts: SpottingEarParts;
  #log: KitLog | undefined;
  #stopHearing: () => void = () => {};
  #over: ReturnType<typeof setTimeout> | undefined;
  #look: ReturnType<typeof setTimeout> | undefined;
  /** All that was struck since it is heard. */
  #hits: readonly Hit[] = [];
  /** Counts what is heard: an answer of the judge that comes too late belongs to another. */
  #heard = 0;

  constructor(parts: SpottingEarParts) {
    this.#parts = parts;
  }

  /** From now on what is struck at this kit is the question, or plays it back. */
  hear(what: "question" | "answer", log: KitLog): void {
    this.#begin(what);
    this.#log = log;
    const { judge, listenedFor } = this.#parts;
    judge.begin(null, [], listenedFor());
    this.#stopHearing = log.hear((fresh) => this.#struck(what, fresh));
  }

  /** No strike counts. */
  stop(): void {
    this.#begin(null);
  }

  /** Again comes as soon as what was played is thought over. */
  askAgain(): void {
    if (this.now.get().isThoughtOver) this.now.dispatch({ isAgainAsked: true });
  }

  /** The kit that asks has fallen silent, or it is said that this was it. */
  playedOut(): void {
    if (this.now.get().what === "question") void this.#thinkOver(this.#parts.playedOut);
  }

  #begin(what: HearingNow["what"]): void {
    this.#stopHearing();
    this.#stopHearing = () => {};
    clearTimeout(this.#over);
    clearTimeout(this.#look);
    this.#look = undefined;
    this.#heard += 1;
    this.#hits = [];
    this.now.dispatch({ ...NOTHING_HEARD, what });
  }

  #struck(what: "question" | "answer", fresh: readonly Hit[]): void {
    if (what === "answer" && this.#parts.isSounding()) return;
    this.#parts.judge.add(fresh);
    this.#hits = [...this.#hits, ...fresh];
    this.now.dispatch({ strokes: this.now.get().strokes + fresh.length, note: null });
    clearTimeout(this.#over);
    this.#over = setTimeout(() => (what === "question" ? this.playedOut() : this.#playedBack()), OVER_MS);
    if (what === "question") this.#look ??= setTimeout(() => void this.#lookAtQuestion(), LOOK_EVERY_MS);
  }

  async #lookAtQuestion(): Promise<void> {
    const proposal = await this.#proposed("last-bars");
    this.#look = undefined;
    if (proposal !== undefined) this.#parts.looked(proposal);
  }

  /** Somebody played it back. */
  #playedBack(): void {
    const { what, strokes } = this.now.get();
    if (what !== "answer" || !this.#log) return;
    if (strokes < FEWEST_STROKES) this.hear("answer", this.#log);
    else void this.#thinkOver(this.#parts.playedBack);
  }

  async #thinkOver(tell: (proposal: Proposal | null) => void): Promise<void> {
    if (this.now.get().isThoughtOver) return;
    this.now.dispatch({ isThoughtOver: true });
    const heard = this.#heard;
    const proposal = await this.#proposed("all");
    if (heard !== this.#heard) return;
    const { isAgainAsked } = this.now.get();
    // It could not be thought over, and may be asked for again.
    if (proposal === undefined) this.now.dispatch({ isThoughtOver: false, isAgainAsked: false });
    else tell(proposal);
    if (isAgainAsked) this.#parts.again();
  }

  /**
   * What is heard; `undefined` where it came too late to matter.
   *
   * @param of the last bars, while it is played; all of it once it is over: a fill may have been long ago.
   */
  async #proposed(of: "last-bars" | "all"): Promise<Proposal | null | undefined> {
    const { judge, about: aboutNow, trouble } = this.#parts;
    const about = aboutNow();
    if (about === null) return undefined;
    const heard = this.#heard;
    try {
      const hearing =
        of === "all"
          ? (await judge.judge({ hits: this.#hits, styleId: null, click: null })).hearing
          : await judge.hear();
      return heard === this.#heard ? proposalOf(hearing, about) : undefined;
    } catch (error) {
      if (heard === this.#heard) trouble(error instanceof Error ? error.message : String(error));
      return undefined;
    }
  }
}
