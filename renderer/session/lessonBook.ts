/**
 * The book the lessons are written in: begins a lesson when students are chosen, records it, ends it, takes up again one
 * that was broken off. One book for the program; screens watch its log.
 */
import { lessonIdAt, type WasMet } from "../../engine/records/index.ts";
import type { Sitting } from "../../engine/rounds/index.ts";
import type { Lane, RoundKind } from "../../engine/session/index.ts";
import type { Judge } from "../judging/judge.ts";
import {
  freshJournal,
  metBefore,
  readLesson,
  type StudioDatabase,
  storeErrorOf,
  unendedLessons,
} from "../store/index.ts";
import type { KitLog } from "./kitLog.ts";
import { endAsItWas, type JudgeTake, judgeTakesLeft, takeLeft } from "./lessonBrokenOff.ts";
import { CLOCK_OF_THIS_COMPUTER, LessonLog, type LogClock } from "./lessonLog.ts";
import { LessonWriter, THIS_WINDOW, type WriterPlace } from "./lessonWriter.ts";
import { endRound, openRound, recordRound, recordStrikes } from "./recordRounds.ts";
import type { Watched } from "./store.ts";

/** What the book needs of this computer; a test brings its own. */
export interface BookPlace {
  readonly clock: LogClock;
  readonly writer: WriterPlace;
  /** An id that was never given before. */
  readonly newId: () => string;
  /** IANA name of the zone the studio is in. */
  readonly zone: () => string;
  readonly judge: JudgeTake;
}

export const THIS_COMPUTER: BookPlace = {
  clock: CLOCK_OF_THIS_COMPUTER,
  writer: THIS_WINDOW,
  newId: () => crypto.randomUUID(),
  zone: () => Intl.DateTimeFormat().resolvedOptions().timeZone,
  judge: judgeOfThisPage(),
};

/** Fetched when it is first asked: a lesson is seldom broken off. */
function judgeOfThisPage(): JudgeTake {
  let made: Promise<Judge> | undefined;
  return async (take, shelf) => {
    made ??= import("../judging/judge.ts").then((judging) => new judging.Judge());
    const judge = await made;
    judge.begin(take.styleId, [], shelf);
    return judge.judge(take);
  };
}

/** How a broken-off lesson was found when the program was opened. */
export type BrokenOff =
  | { readonly kind: "none" }
  /** It can go on: {@link LessonBook.goOn}, or {@link LessonBook.leave} it as it was. */
  | { readonly kind: "open"; readonly lessonId: string; readonly at: string };

export class LessonBook {
  readonly log: LessonLog;
  readonly writer: LessonWriter;
  readonly #database: StudioDatabase;
  readonly #place: BookPlace;
  /** What the students of the lesson had met before it. */
  #wasMet: WasMet = () => false;

  constructor(database: StudioDatabase, place: BookPlace = THIS_COMPUTER) {
    this.#database = database;
    this.#place = place;
    this.log = new LessonLog(place.clock);
    this.writer = new LessonWriter(database, this.log, place.writer);
  }

  /** From now on the strikes of a kit, and the takes of a round, are recorded. Returns the way to stop. */
  record(kit: KitLog, round: Watched<Sitting>, lane = 0): () => void {
    const stops = [
      recordStrikes(kit, this.log, lane),
      recordRound(round, this.log, this.#place.newId, (...asked) => this.beginRound(...asked), lane),
    ];
    return () => {
      for (const stop of stops) stop();
    };
  }

  /**
   * Asks to be the window that writes, and looks for a lesson that was broken off. Older ones than the latest are ended
   * where they were last heard.
   *
   * @throws StoreError when the storage cannot be read.
   */
  async open(): Promise<BrokenOff> {
    await this.writer.claim();
    if (this.writer.get().stage !== "writing") return { kind: "none" };
    const mishap = await freshJournal(this.#database).then(
      () => null,
      (error: unknown) => storeErrorOf(error).message,
    );
    // A lesson that was broken off is looked for all the same.
    const [latest, ...older] = await unendedLessons(this.#database);
    if (mishap !== null) this.writer.dispatch({ mishap });
    for (const { id } of older) await endAsItWas(this.#database, id, this.#place.judge);
    return latest ? { kind: "open", lessonId: latest.id, at: latest.at } : { kind: "none" };
  }

  /**
   * Begins a lesson with these students, one to a kit; the one that is on is ended first, at once where nothing of it is
   * left to judge. Their earlier results are read meanwhile.
   *
   * @param lanes who sits at which kit; one kit for the first student when not said.
   */
  async begin(studentIds: readonly string[], lanes?: readonly Lane[]): Promise<void> {
    if (this.#roundsLeft().length > 0) await this.end();
    else this.#endAtOnce();
    this.writer.dispatch({ mishap: null });
    const lessonId = lessonIdAt(this.#place.clock.instant(), this.#place.newId().slice(0, 8));
    this.log.begin({
      lessonId,
      studentIds,
      lanes: lanes ?? [{ studentId: studentIds[0] ?? null, source: "kit" }],
      zone: this.#place.zone(),
    });
    void this.#readMet(lessonId, studentIds);
  }

  /**
   * Goes on with a lesson that was broken off; what was being played then is judged.
   *
   * @throws StoreError, or Error when its beginning is lost.
   */
  async goOn(lessonId: string): Promise<void> {
    const { events } = await readLesson(this.#database, lessonId);
    await this.end();
    this.writer.isWritten(lessonId, events.length);
    this.log.takeUpAgain(events);
    await this.#readMet(lessonId, this.log.get().began?.studentIds ?? []);
    for (const late of await judgeTakesLeft(this.#database, events, this.log.get(), this.#place.judge))
      this.log.add(late);
  }

  /** Ends a lesson that was broken off where it was last heard. @throws as {@link endAsItWas}. */
  leave(lessonId: string): Promise<void> {
    return endAsItWas(this.#database, lessonId, this.#place.judge);
  }

  /**
   * Begins a round at a kit and gives its id; the one that is open there is ended with its tally, see {@link endRound}. To be
   * asked only while a lesson is on.
   */
  beginRound(round: RoundKind, studentIds: readonly string[], lane: number): string {
    void this.endRound(lane);
    const roundId = this.#place.newId();
    this.log.add({ kind: "round-began", lane, roundId, round, studentIds });
    return roundId;
  }

  /**
   * Ends the round that is open on a kit: its tally is written. A take of it that is being played or thought over is judged
   * first; else it is done at once.
   */
  async endRound(lane = 0): Promise<void> {
    const round = this.log.isOn ? openRound(this.log, lane) : undefined;
    if (!round) return;
    const isHere = this.#lessonHere();
    if (takeLeft(round)) await this.#judgeLeft([round.roundId]);
    if (isHere()) endRound(this.log, this.#wasMet, round.roundId);
  }

  /** Ends the lesson that is on, and its rounds. Takes that are being played or thought over are judged first; else it is done at once. */
  async end(): Promise<void> {
    const isHere = this.#lessonHere();
    const left = this.#roundsLeft();
    if (left.length > 0) await this.#judgeLeft(left);
    if (isHere()) this.#endAtOnce();
  }

  #endAtOnce(): void {
    for (const { roundId } of this.log.get().rounds)
      if (this.log.isOn) endRound(this.log, this.#wasMet, roundId);
    this.log.end();
  }

  /** Tells, later on, whether the lesson that is on now is still on. */
  #lessonHere(): () => boolean {
    const lessonId = this.log.get().began?.lessonId;
    return () => this.log.isOn && this.log.get().began?.lessonId === lessonId;
  }

  /** The rounds in which a take waits to be judged. */
  #roundsLeft(): readonly string[] {
    if (!this.log.isOn) return [];
    return this.log.get().rounds.flatMap((round) => (takeLeft(round) ? [round.roundId] : []));
  }

  /** Waits until the takes of these rounds are judged: by the round itself where it is at it, else from their strikes. */
  async #judgeLeft(roundIds: readonly string[]): Promise<void> {
    const isHere = this.#lessonHere();
    const isLeft = (roundId: string): boolean => isHere() && this.#roundsLeft().includes(roundId);
    let stop = (): void => {};
    const judgedThere = new Promise<void>((done) => {
      stop = this.log.subscribe(() => {
        if (!roundIds.some(isLeft)) done();
      });
    });
    try {
      await Promise.race([judgedThere, this.#judgeFromStrikes(roundIds, isLeft)]);
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      this.writer.dispatch({
        mishap: `The last take could not be judged: ${why} Its strikes are kept, and Replay judges it again.`,
      });
    } finally {
      stop();
    }
  }

  async #judgeFromStrikes(roundIds: readonly string[], isLeft: (roundId: string) => boolean): Promise<void> {
    const late = await judgeTakesLeft(this.#database, this.log.events, this.log.get(), this.#place.judge);
    for (const each of late)
      if (roundIds.includes(each.summary.roundId) && isLeft(each.summary.roundId)) this.log.add(each);
  }

  /** Notes something about this moment, or about another one of the lesson. */
  remark(text: string, { flagged = false, about }: { flagged?: boolean; about?: number } = {}): void {
    const moment = about === undefined ? {} : { about };
    this.log.add({ kind: "remark", remarkId: this.#place.newId(), text, flagged, ...moment });
  }

  async #readMet(lessonId: string, studentIds: readonly string[]): Promise<void> {
    this.#wasMet = () => false;
    try {
      const wasMet = await metBefore(this.#database, lessonId, studentIds);
      if (this.log.get().began?.lessonId === lessonId) this.#wasMet = wasMet;
    } catch (error) {
      // The lesson goes on without: what was met before then counts as new.
      this.writer.dispatch({ mishap: storeErrorOf(error).message });
    }
  }
}
