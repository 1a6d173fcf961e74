/**
 * A round that is kept step by step. While a lesson is on its steps go into the log, and what is shown is the fold of what
 * stands there: a program that is opened again goes on with the round. Without a lesson it is kept of nobody.
 */
import {
  type Answering,
  type Dealt,
  type FrameEvent,
  freshPlay,
  type OwnOf,
  type Play,
  type PlayerId,
  playAfter,
  ROUND_RULES,
  type RoundStep,
  type StepEvent,
  type SteppedKind,
} from "../../engine/rounds/index.ts";
import type { RoundState } from "../../engine/session/index.ts";
import type { LessonBook } from "./lessonBook.ts";
import { openRound } from "./recordRounds.ts";
import type { Watched } from "./store.ts";

/** The round of the lesson that is followed, and how many of its steps are in. */
interface Followed {
  readonly roundId: string;
  readonly count: number;
}

export class SteppedRound<Kind extends SteppedKind> implements Watched<Play<OwnOf<Kind>>> {
  readonly kind: Kind;
  readonly #book: Pick<LessonBook, "log" | "beginRound" | "endRound">;
  readonly #lane: () => number;
  readonly #listeners = new Set<() => void>();
  #play: Play<OwnOf<Kind>>;
  #followed: Followed | undefined;
  /** The lesson that is on. */
  #lessonId: string | undefined;

  /**
   * @param lane the kit it is played at.
   * @param turned tells when that is another one.
   */
  constructor(
    kind: Kind,
    book: Pick<LessonBook, "log" | "beginRound" | "endRound">,
    lane: () => number,
    turned?: Watched<unknown>,
  ) {
    this.kind = kind;
    this.#book = book;
    this.#lane = lane;
    this.#play = freshPlay(ROUND_RULES[kind]);
    this.#follow();
    book.log.subscribe(() => this.#follow());
    turned?.subscribe(() => this.#follow());
  }

  readonly get = (): Play<OwnOf<Kind>> => this.#play;

  /** Its id in the log of the lesson that is on; `undefined` where it is of nobody. */
  get roundId(): string | undefined {
    return this.#followed?.roundId;
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  /** Begins it; one that is over is begun anew. */
  begin(
    players: readonly PlayerId[],
    {
      answering = "in-turn",
      dealt,
    }: { readonly answering?: Answering; readonly dealt?: Dealt | undefined } = {},
  ): void {
    const { stage } = this.#play;
    if (stage === "running" || stage === "paused") return;
    this.anew();
    if (this.#book.log.isOn) {
      this.#book.beginRound(this.kind, players, this.#lane());
      this.#follow();
    }
    this.add({ kind: "began", players, answering, ...(dealt ? { dealt } : {}) });
  }

  /** One more step. A step that changes nothing is not kept. Returns whether it did. */
  add(event: StepEvent<Kind>): boolean {
    if (playAfter(ROUND_RULES[this.kind], this.#play, event) === this.#play) return false;
    if (this.#followed) {
      const step = { round: this.kind, event } as unknown as RoundStep;
      this.#book.log.add({
        kind: "round-step",
        lane: this.#lane(),
        roundId: this.#followed.roundId,
        step,
      });
    } else this.#show(playAfter(ROUND_RULES[this.kind], this.#play, event));
    return true;
  }

  pause(): void {
    this.add({ kind: "paused" });
  }

  resume(): void {
    this.add({ kind: "resumed" });
  }

  /** Ends it; its tally is written into the lesson. */
  stop(): void {
    const isKept = this.#followed !== undefined;
    if (this.add({ kind: "stopped" }) && isKept) void this.#book.endRound(this.#lane());
  }

  /** As it is before it begins: only where it is over. */
  anew(): void {
    if (this.#play.stage === "over") this.#show(freshPlay(ROUND_RULES[this.kind]));
  }

  /** Takes in what the log has of it. */
  #follow(): void {
    const lessonId = this.#book.log.isOn ? this.#book.log.get().began?.lessonId : undefined;
    const isNewLesson = lessonId !== undefined && lessonId !== this.#lessonId;
    this.#lessonId = lessonId;
    const open = this.#book.log.isOn ? openRound(this.#book.log, this.#lane(), this.kind) : undefined;
    if (open) this.#takeIn(open);
    else if (this.#followed || isNewLesson) {
      // It was ended from elsewhere: the desk, another round, the end of the lesson; or it was of nobody, and a lesson begins.
      this.#followed = undefined;
      const stopped: FrameEvent = { kind: "stopped" };
      this.#show(playAfter(ROUND_RULES[this.kind], this.#play, stopped));
    }
  }

  #takeIn({ roundId, steps }: RoundState): void {
    const isSame = this.#followed?.roundId === roundId;
    const from = isSame ? (this.#followed?.count ?? 0) : 0;
    if (isSame && steps.length === from) return;
    let play = isSame ? this.#play : freshPlay(ROUND_RULES[this.kind]);
    for (const { step } of steps.slice(from))
      if (step.round === this.kind)
        play = playAfter(ROUND_RULES[this.kind], play, step.event as StepEvent<Kind>);
    this.#followed = { roundId, count: steps.length };
    this.#show(play);
  }

  #show(play: Play<OwnOf<Kind>>): void {
    if (play === this.#play) return;
    this.#play = play;
    for (const listener of this.#listeners) listener();
  }
}
