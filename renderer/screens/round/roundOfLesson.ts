/** What all rounds on pages of their own have in common, whatever is asked: their steps, and whom they are of. */
import {
  type Dealt,
  MOST_PLAYERS,
  type OwnOf,
  type Play,
  type PlayerId,
  type SteppedKind,
} from "../../../engine/rounds/index.ts";
import type { LessonBook } from "../../session/lessonBook.ts";
import type { SteppedRound } from "../../session/steppedRound.ts";
import type { CommandActs, FramedRound } from "./framedRound.ts";

export abstract class RoundOfLesson<Kind extends SteppedKind> {
  readonly round: SteppedRound<Kind>;
  readonly get: () => Play<OwnOf<Kind>>;
  readonly subscribe: FramedRound["subscribe"];
  protected readonly book: Pick<LessonBook, "log">;

  constructor(round: SteppedRound<Kind>, book: Pick<LessonBook, "log">) {
    this.round = round;
    this.get = round.get;
    this.subscribe = round.subscribe;
    this.book = book;
  }

  /** The students of the lesson that is on, as many as can play. */
  players(): readonly PlayerId[] {
    const { began } = this.book.log.get();
    return this.book.log.isOn && began ? began.studentIds.slice(0, MOST_PLAYERS) : [];
  }

  /** As it is before it begins. */
  anew(): void {
    this.round.anew();
  }

  /** What each command does now: paused, it can only be ended. */
  commands(): CommandActs {
    const { stage } = this.get();
    if (stage === "paused") return { stop: () => this.stop() };
    // Once more: nobody has to lay the sticks down for it.
    if (stage === "over") return { again: () => this.onceMore() };
    return stage === "running" ? this.acts() : {};
  }

  /** The same again, as it was set. */
  onceMore(): void {
    this.anew();
    this.begin();
  }

  /** @param dealt what it begins with. */
  abstract begin(dealt?: Dealt): void;

  /** Ends it. */
  abstract stop(): void;

  /** What each command does while it runs. */
  protected abstract acts(): CommandActs;
}
