/**
 * Runs a round of Back Turned: draws what is asked and lets it sound, or hears what a kit sounds, and takes answers by name
 * and by strike.
 */
import {
  type DrawnOf,
  type Moments,
  type Rung,
  rungAt,
  SURFACES,
  type Surface,
} from "../../../engine/ear/index.ts";
import {
  type Answering,
  type AnswerWay,
  type Dealt,
  isOpen,
  type PlayerId,
  playerInTurn,
  playersAsked,
  type SoundSource,
  stillToAnswer,
} from "../../../engine/rounds/index.ts";
import type { Chance } from "../../../engine/units/index.ts";
import { type HeardBefore, NOTHING_HEARD } from "../../app/heardEarlier.ts";
import type { SoundDesk } from "../../audio/soundDesk.ts";
import type { Planned, Playing } from "../../audio/strokePlayer.ts";
import { FIRST_TOMS, type TomPitchesOf } from "../../audio/tomPitches.ts";
import type { LessonBook } from "../../session/lessonBook.ts";
import type { SteppedRound } from "../../session/steppedRound.ts";
import { Store, type Watched, watchAll } from "../../session/store.ts";
import type { CommandActs, FramedRound, RoundOnWall } from "../round/framedRound.ts";
import type { KitsHeard } from "../round/kitsHeard.ts";
import { RoundOfLesson } from "../round/roundOfLesson.ts";
import { whoAnswers } from "../round/whoAnswers.ts";
import type { Collecting } from "./collecting.ts";
import { Listener } from "./listener.ts";
import { MomentsStruck } from "./momentsStruck.ts";
import { backTurnedOnWall } from "./onWall.ts";
import { contrastStrokes, MOMENT_SECONDS, soundedStrokes } from "./soundedStrokes.ts";

/** What is chosen before it begins. */
export interface Wanted {
  readonly source: SoundSource;
  /** How several players answer. */
  readonly answering: Answering;
}

/** How much lower "simpler" asks. Our choice. */
const SIMPLER_BY = 2;
export class BackTurnedRound extends RoundOfLesson<"back-turned"> implements FramedRound {
  /** What is struck or named, before it is a step of the round. */
  readonly collecting: Watched<Collecting>;
  /** The surface of the refresher that sounds now; `null` while none does. */
  readonly refreshing = new Store<Surface | null, Surface | null>(null, (_, next) => next);
  /** Who answers next, where several do to one question; `undefined` where nobody was chosen. */
  readonly chosen = new Store<PlayerId | undefined, PlayerId | undefined>(undefined, (_, next) => next);
  /** How it goes the next time it begins. */
  readonly wanted = new Store<Wanted, Partial<Wanted>>(
    { source: "sampler", answering: "in-turn" },
    (before, change) => ({ ...before, ...change }),
  );
  readonly #sound: Pick<SoundDesk, "playStrokes">;
  readonly #kits: KitsHeard;
  readonly #toms: () => TomPitchesOf;
  readonly #earlier: (by: PlayerId | null) => HeardBefore;
  readonly #chance: Chance;
  readonly #struck: MomentsStruck;
  #playing: Playing | undefined;
  #refreshTimers: readonly ReturnType<typeof setTimeout>[] = [];

  constructor(
    round: SteppedRound<"back-turned">,
    {
      sound,
      book,
      kits,
      toms = () => FIRST_TOMS,
      earlier = () => NOTHING_HEARD,
      chance,
    }: {
      readonly sound: Pick<SoundDesk, "playStrokes">;
      readonly book: Pick<LessonBook, "log">;
      readonly kits: KitsHeard;
      readonly toms?: () => TomPitchesOf;
      /** What a player heard in earlier lessons. */
      readonly earlier?: (by: PlayerId | null) => HeardBefore;
      readonly chance: Chance;
    },
  ) {
    super(round, book);
    this.#sound = sound;
    this.#kits = kits;
    this.#toms = toms;
    this.#earlier = earlier;
    this.#chance = chance;
    this.#struck = new MomentsStruck({
      asked: () => {
        const { question } = this.get().own;
        return question && { count: question.moments.length, rung: this.rung() };
      },
      question: (moments) => void this.#asked(moments, null),
      answer: (moments) => this.#answerStruck(moments),
    });
    this.collecting = this.#struck.collecting;
    round.subscribe(() => this.#settle());
    this.#settle();
  }

  /** Begins with what will be asked, sounded one by one. */
  readonly begin = (dealt?: Dealt): void => {
    const { source: wanted, answering } = this.wanted.get();
    // What was dealt is the program's to ask.
    const source = dealt ? "sampler" : wanted;
    this.round.begin(this.players(), { answering, dealt });
    if (source !== this.get().own.source) this.round.add({ kind: "source-chosen", source });
    this.refresh();
  };

  readonly pause = (): void => {
    this.#silence();
    this.round.pause();
  };

  readonly resume = (): void => {
    this.round.resume();
    const { question } = this.get().own;
    if (question && isOpen(question)) this.#play(soundedStrokes(question.moments, this.#toms()));
  };

  protected acts(): CommandActs {
    const { own } = this.get();
    const stop = (): void => this.stop();
    const { question } = own;
    const again = (): void => this.again();
    const next = (): void => this.next();
    const acts = { "turn-round": () => this.turnRound(), stop };
    if (!question) return { ...acts, next, again: () => this.refresh() };
    return isOpen(question) ? { ...acts, again } : { ...acts, next, again };
  }

  readonly onWall = (): RoundOnWall =>
    backTurnedOnWall(this.get(), {
      collecting: this.collecting.get(),
      refreshing: this.refreshing.get(),
      names: this.names(),
    });

  readonly onWallChanged = (listener: () => void): (() => void) =>
    watchAll([this.collecting, this.refreshing], listener);

  /** Whether questions come from a kit: what is heard there is the key. */
  get isAskedByKit(): boolean {
    const { source, roles } = this.get().own;
    return source === "kit" || roles === "teacher-names";
  }

  /** What may be said: of the rung that is asked, or all where a kit asks. */
  names(): readonly Surface[] {
    const rung = this.rung();
    return rung ? rung.pool : SURFACES;
  }

  /** The rung of the question on the page; `null` where a kit asked it. */
  rung(): Rung | null {
    const number = this.get().own.question?.rung ?? null;
    return number === null ? null : rungAt(number);
  }

  /** A player with all they heard, in earlier lessons and now; the one whose turn it is where none is said. */
  listener(by = playerInTurn(this.get())): Listener {
    return new Listener(this.get(), by, this.#earlier(by));
  }

  /** Sounds what will be asked, one surface after the other. Nothing of it from a kit: its own player does that. */
  refresh(): void {
    this.#silence();
    if (this.isAskedByKit || this.get().own.question) return;
    const surfaces = this.refresher();
    const playing = this.#play(surfaces.flatMap((surface, place) => this.#alone(surface, place)));
    this.#refreshTimers = [...surfaces, null].map((surface, place) => {
      const at = (playing.from + place * MOMENT_SECONDS) * 1000 - performance.now();
      return setTimeout(() => {
        this.refreshing.dispatch(surface);
        if (surface !== null) this.round.add({ kind: "refreshed", surface });
      }, at);
    });
  }

  /** What will be asked, in the order of the kit. */
  refresher(): readonly Surface[] {
    return this.listener().refresher();
  }

  /** Sounds one surface, as long as nothing is waited for. */
  hear(surface: Surface): void {
    const { question } = this.get().own;
    if (question && isOpen(question)) return;
    this.#silence();
    this.round.add({ kind: "refreshed", surface });
    this.#play(this.#alone(surface, 0));
  }

  #alone(surface: Surface, place: number): readonly Planned[] {
    return soundedStrokes([[{ surface }]], this.#toms(), place * MOMENT_SECONDS);
  }

  /** The next question: drawn and sounded, or waited for from a kit. */
  next(): void {
    const { stage, answering, own } = this.get();
    if (stage !== "running" || (own.question && isOpen(own.question))) return;
    this.#silence();
    if (answering === "in-turn" && own.question) this.round.add({ kind: "passed-on" });
    if (this.isAskedByKit) this.#collect("question");
    else this.#ask(this.listener().question(this.#chance));
  }

  /** Takes the question back and asks something simpler. */
  simpler(): void {
    const { question } = this.get().own;
    this.#silence();
    this.round.add({ kind: "let-be" });
    if (this.isAskedByKit) this.#collect("question");
    else {
      const rung = Math.max(1, (question?.rung ?? 1) - SIMPLER_BY);
      this.#ask(this.listener().questionAt(rung, this.#chance));
    }
  }

  /** Sounds it once more. */
  again(): void {
    const { question } = this.get().own;
    if (!question) return;
    this.#silence();
    this.round.add({ kind: "heard-again" });
    this.#play(soundedStrokes(question.moments, this.#toms()));
  }

  /** Takes an answer of whoever is to answer; one that is missed is laid beside what it was. */
  answer(moments: Moments, way: AnswerWay): void {
    const before = this.get().own.question;
    if (!before || !isOpen(before)) return;
    this.round.add({ kind: "answered", by: this.answerer(), moments, way });
    this.chosen.dispatch(undefined);
    const { question } = this.get().own;
    if (!question || isOpen(question)) return;
    const missed = question.answers.find(({ right }) => !right);
    if (missed && !this.isAskedByKit) this.contrast(missed.moments);
  }

  /** Whose answer is waited for next; `null` for the teacher, or nobody in particular. */
  answerer(): PlayerId | null {
    const { question } = this.get().own;
    if (!question) return null;
    return whoAnswers(stillToAnswer(question), this.chosen.get());
  }

  /** Plays what was sounded and what was said, one after the other. */
  contrast(said: Moments): void {
    const { question } = this.get().own;
    if (!question || isOpen(question)) return;
    this.#silence();
    this.round.add({ kind: "contrasted" });
    this.#play(contrastStrokes(question.moments, said, this.#toms()));
  }

  /** What is named so far, before it is an answer. */
  name(moments: Collecting["moments"]): void {
    this.#struck.name(moments);
  }

  turnRound(): void {
    this.#silence();
    this.round.add({ kind: "turned-round" });
    if (this.get().own.question || this.isAskedByKit) this.next();
  }

  stop(): void {
    this.#silence();
    this.round.stop();
  }

  #ask({ moments, rung }: DrawnOf): void {
    if (this.#asked(moments, rung)) this.#play(soundedStrokes(moments, this.#toms()));
  }

  #asked(moments: Moments, rung: number | null): boolean {
    const play = this.get();
    return this.round.add({
      kind: "asked",
      moments,
      rung,
      of: play.own.roles === "teacher-names" ? [null] : playersAsked(play),
    });
  }

  #play(strokes: readonly Planned[]): Playing {
    this.#playing = this.#sound.playStrokes(strokes, { isTrueToPitch: true });
    return this.#playing;
  }

  #silence(): void {
    this.#playing?.stop();
    this.#playing = undefined;
    for (const timer of this.#refreshTimers) clearTimeout(timer);
    this.#refreshTimers = [];
    this.refreshing.dispatch(null);
  }

  /** Strikes count as long as something is waited for, and for that only. */
  #settle(): void {
    const { stage, own } = this.get();
    const { what } = this.collecting.get();
    if (stage !== "running") {
      if (what !== null) this.#struck.stop();
      if (stage === "over") this.#silence();
      return;
    }
    const isWaiting = own.question !== null && isOpen(own.question);
    if (isWaiting && what !== "answer") this.#collect("answer");
    if (!isWaiting && what === "answer") this.#struck.stop();
  }

  /** A kit that has asked does not answer: whoever sits there may sound it once more. */
  #collect(what: "question" | "answer"): void {
    const isStudents = this.get().own.roles === "teacher-names";
    const asking = isStudents ? this.#kits.answering() : this.#kits.asking();
    const log = what === "question" ? asking : this.#kits.answering();
    const isOfAsker = what === "answer" && this.isAskedByKit && log === asking;
    this.#struck.collect(what, isOfAsker ? null : log);
  }

  #answerStruck(moments: Moments): void {
    this.answer(moments, "struck");
    // Others may still answer the same question.
    if (this.collecting.get().what === "answer") this.#collect("answer");
  }
}
