/**
 * Runs a round of Spotting: draws what is played and lets it sound, or hears what a kit plays and proposes what it was, and
 * takes answers by name and by playing back.
 */
import {
  type About,
  type Answering,
  type Dealt,
  drawPerformance,
  isNameDue,
  isSameThing,
  type PlayerId,
  type Proposal,
  performedStrokes,
  playersAsked,
  type Spottable,
  type Spotting,
  type SpottingAnswer,
  type SpottingKey,
  type SpottingQuestion,
  stillToName,
  type Thing,
  ThingNames,
  thingKey,
} from "../../../engine/rounds/index.ts";
import type { Playing } from "../../audio/strokePlayer.ts";
import type { SteppedRound } from "../../session/steppedRound.ts";
import { Store, type Watched, watchAll } from "../../session/store.ts";
import type { CommandActs, FramedRound, RoundOnWall } from "../round/framedRound.ts";
import { RoundOfLesson } from "../round/roundOfLesson.ts";
import { whoAnswers } from "../round/whoAnswers.ts";
import { drawnThing, isAbout } from "./drawnThing.ts";
import type { HearingNow } from "./hearing.ts";
import { spottingOnWall } from "./onWall.ts";
import { SpottingEar } from "./spottingEar.ts";
import type { SpottingPlace } from "./spottingPlace.ts";
import { Standings } from "./standings.ts";

/** What is chosen before it begins. */
export interface SpottingWanted {
  readonly source: Spotting["source"];
  readonly about: About;
  /** How several players answer. */
  readonly answering: Answering;
}

export class SpottingRound extends RoundOfLesson<"spotting"> implements FramedRound {
  /** What a kit plays, before it is a step of the round. */
  readonly hearing: Watched<HearingNow>;
  /** Whether the program is sounding it now. */
  readonly sounding = new Store<boolean, boolean>(false, (_, next) => next);
  /** Who answers next, where several do to one question; `undefined` where nobody was chosen. */
  readonly chosen = new Store<PlayerId | undefined, PlayerId | undefined>(undefined, (_, next) => next);
  /** How it goes the next time it begins. */
  readonly wanted = new Store<SpottingWanted, Partial<SpottingWanted>>(
    { source: "program", about: "grooves", answering: "in-turn" },
    (before, change) => ({ ...before, ...change }),
  );
  /** Why something could not be done, in a sentence. */
  readonly trouble = new Store<string | null, string | null>(null, (_, next) => next);
  readonly #place: SpottingPlace;
  readonly #standings: Standings;
  readonly #ear: SpottingEar;
  #names: { readonly of: readonly Spottable[]; readonly by: Map<string, ThingNames> } | undefined;
  #playing: Playing | undefined;
  #soundingOver: ReturnType<typeof setTimeout> | undefined;
  #isDrawing = false;

  constructor(round: SteppedRound<"spotting">, place: SpottingPlace) {
    super(round, place.book);
    this.#place = place;
    this.#standings = new Standings(place.standing, this.trouble.dispatch);
    this.#ear = new SpottingEar({
      judge: place.judge,
      listenedFor: place.listenedFor,
      about: () => {
        const { question } = this.get().own;
        return question && this.#aboutOf(question.key);
      },
      isSounding: this.sounding.get,
      looked: (proposal) => this.#keyHeard(proposal),
      playedOut: (proposal) => this.#playedOut(proposal),
      playedBack: (proposal) => this.#playedBack(proposal),
      again: () => this.again(),
      trouble: this.trouble.dispatch,
    });
    this.hearing = this.#ear.now;
    round.subscribe(() => this.#settle());
    this.#settle();
  }

  readonly begin = (dealt?: Dealt): void => {
    const { source: wanted, about, answering } = this.wanted.get();
    // What was dealt is the program's to play.
    const source = dealt ? "program" : wanted;
    this.#standings.forget();
    this.round.begin(this.players(), { answering, dealt });
    this.round.add({ kind: "source-chosen", source, about });
    this.next();
  };

  readonly pause = (): void => {
    this.#silence();
    this.round.pause();
  };

  readonly resume = (): void => {
    this.round.resume();
    const { question } = this.get().own;
    if (question && isNameDue(question)) this.#sound(question.key);
  };

  protected acts(): CommandActs {
    const { own } = this.get();
    const stop = (): void => this.stop();
    const { question } = own;
    const acts = { "turn-round": () => this.turnRound(), stop };
    const next = (): void => this.next();
    const again = (): void => this.again();
    if (!question) return { ...acts, next };
    if (!isNameDue(question))
      return question.key.by === "program" ? { ...acts, next, again } : { ...acts, next };
    // While a kit is heard, next says that this was it.
    const { what, strokes, isThoughtOver, isAgainAsked } = this.hearing.get();
    // An answer to what a kit asked is the end of the question: there is nothing to come again.
    if (isThoughtOver)
      return isAgainAsked || (what === "answer" && question.key.by === "ear") ? acts : { ...acts, again };
    const isPlayed = what === "question";
    return {
      ...acts,
      ...(isPlayed && strokes > 0 ? { next: () => this.#ear.playedOut() } : {}),
      ...(isPlayed ? {} : { again }),
    };
  }

  readonly onWall = (): RoundOnWall =>
    spottingOnWall(this.get(), {
      hearing: this.hearing.get(),
      isSounding: this.sounding.get(),
      spottable: (key) => this.spottable(key.thing),
    });

  readonly onWallChanged = (listener: () => void): (() => void) =>
    watchAll([this.hearing, this.sounding], listener);

  /** Whether a kit asks: what is heard there is the key. */
  get isAskedByKit(): boolean {
    const { source, roles } = this.get().own;
    return source === "kit" || roles === "teacher-names";
  }

  /** All that the program knows of a thing; `undefined` where it is no longer on the Shelf. */
  spottable(thing: Thing | null): Spottable | undefined {
    return thing === null
      ? undefined
      : this.#place.spottables().find((each) => isSameThing(each.thing, thing));
  }

  /** The names that may be meant now: of grooves and tunes, or of fills, or of all. */
  names(question: Pick<SpottingQuestion, "key">): ThingNames {
    const about = this.#aboutOf(question.key);
    const of = this.#place.spottables();
    if (this.#names?.of !== of) this.#names = { of, by: new Map() };
    const known = this.#names.by.get(about);
    if (known) return known;
    const made = new ThingNames(of.filter(({ thing }) => isAbout(thing, about)));
    this.#names.by.set(about, made);
    return made;
  }

  #aboutOf(key: SpottingKey): About {
    if (key.by === "program") return key.thing.kind === "fill" ? "fills" : "grooves";
    return this.get().own.about;
  }

  /** The next question: drawn and sounded, or waited for from a kit. */
  next(): void {
    const { stage, answering, own } = this.get();
    const { question } = own;
    if (stage !== "running" || (question && isNameDue(question))) return;
    this.#silence();
    this.#leaveQuestion();
    if (answering === "in-turn" && question) this.round.add({ kind: "passed-on" });
    if (this.isAskedByKit) this.round.add({ kind: "asked-by-kit", of: this.#askedPlayers() });
    else void this.#ask();
  }

  /** What a kit played is left at what it is taken for. */
  #leaveQuestion(): void {
    const { question } = this.get().own;
    if (!question || question.isSettled) return;
    if (!this.round.add({ kind: "settled" })) this.round.add({ kind: "let-be" });
  }

  #askedPlayers(): readonly (PlayerId | null)[] {
    const play = this.get();
    return play.own.roles === "teacher-names" ? [null] : playersAsked(play);
  }

  async #ask(): Promise<void> {
    if (this.#isDrawing) return;
    this.#isDrawing = true;
    try {
      const { own } = this.get();
      const of = this.#askedPlayers();
      const standings = await this.#standings.of(of);
      // It may have been stopped or turned round meanwhile.
      const now = this.get();
      if (now.stage !== "running" || now.own.question !== own.question || this.isAskedByKit) return;
      const { chance } = this.#place;
      const drawn = drawnThing(now, { spottables: this.#place.spottables(), of, standings }, chance);
      if (!drawn) return;
      const { thing } = drawn.spottable;
      const performance = drawPerformance(drawn.spottable, chance);
      this.round.add({ kind: "asked", thing, performance, isNew: drawn.isNew, of });
      const { question } = this.get().own;
      if (question) this.#sound(question.key);
    } finally {
      this.#isDrawing = false;
    }
  }

  /**
   * Sounds it once more; of a kit, what is played from now on is the question. While what was played is thought over, as soon
   * as that is done.
   */
  again(): void {
    const { question } = this.get().own;
    if (!question) return;
    if (this.hearing.get().isThoughtOver) {
      this.#ear.askAgain();
      return;
    }
    this.#silence();
    if (question.key.by === "program") {
      this.round.add({ kind: "heard-again" });
      this.#sound(question.key);
      return;
    }
    if (isNameDue(question)) {
      this.round.add({ kind: "heard-again" });
      this.#hear("question");
    }
  }

  /** Takes an answer of whoever is to answer. */
  answer(answer: SpottingAnswer): void {
    const { question } = this.get().own;
    if (!question || !isNameDue(question)) return;
    this.#stopSounding();
    this.round.add({ kind: "answered", by: this.answerer(), answer });
    this.chosen.dispatch(undefined);
  }

  /** What it was, by who played it. */
  overrule(thing: Thing): void {
    this.round.add({ kind: "overruled", thing });
  }

  /** Takes the question back. */
  letBe(): void {
    this.#silence();
    this.round.add({ kind: "let-be" });
    this.next();
  }

  /** Whose answer is waited for next; `null` for the teacher, or nobody in particular. */
  answerer(): PlayerId | null {
    const { question } = this.get().own;
    if (!question) return null;
    return whoAnswers(stillToName(question), this.chosen.get());
  }

  turnRound(): void {
    this.#silence();
    this.#leaveAnswered();
    this.round.add({ kind: "turned-round" });
    this.next();
  }

  stop(): void {
    this.#silence();
    this.#leaveAnswered();
    this.round.stop();
  }

  #leaveAnswered(): void {
    const { question } = this.get().own;
    if (question && !isNameDue(question)) this.#leaveQuestion();
  }

  #sound(key: SpottingKey): void {
    this.#stopSounding();
    if (key.by !== "program") return;
    const spottable = this.spottable(key.thing);
    if (!spottable) {
      this.trouble.dispatch(`${key.thing.name} is no longer on the Shelf, so that it cannot be played.`);
      return;
    }
    const strokes = performedStrokes(spottable, key.performance);
    this.#playing = this.#place.sound.playStrokes(strokes);
    const overAt = (this.#playing.from + (strokes.at(-1)?.time ?? 0)) * 1000;
    this.sounding.dispatch(true);
    this.#soundingOver = setTimeout(() => this.sounding.dispatch(false), overAt - performance.now());
  }

  #stopSounding(): void {
    this.#playing?.stop();
    this.#playing = undefined;
    clearTimeout(this.#soundingOver);
    this.sounding.dispatch(false);
  }

  #silence(): void {
    this.#stopSounding();
    this.#ear.stop();
  }

  /** Strikes count as long as something is waited for, and for that only. */
  #settle(): void {
    const { stage, own } = this.get();
    const { question } = own;
    const { what, strokes } = this.hearing.get();
    if (stage !== "running" || !question || !isNameDue(question)) {
      // Named before the silence that ends it: the key is all that was played until then.
      if (stage === "running" && question && what === "question" && strokes > 0) this.#ear.playedOut();
      else if (what !== null) this.#ear.stop();
      if (stage === "over") this.#stopSounding();
      return;
    }
    if (what !== null) return;
    if (question.key.by === "ear" && question.key.thing === null) this.#hear("question");
    else if (this.isPlayBackHeard(question)) this.#hear("answer");
  }

  /**
   * Whether whatever is played back is heard at once: not where the kit that asked is the one that would answer, since who
   * sits there may play on; there it is asked for.
   */
  isPlayBackHeard({ key, roles }: Pick<SpottingQuestion, "key" | "roles">): boolean {
    if (roles === "teacher-names") return false;
    const { asking, answering } = this.#place.kits;
    return key.by === "program" || asking() !== answering();
  }

  /** From now on what is struck plays it back. */
  playBack(): void {
    const { question } = this.get().own;
    if (question && isNameDue(question)) this.#hear("answer");
  }

  #hear(what: "question" | "answer"): void {
    const { kits } = this.#place;
    const { roles } = this.get().own;
    this.#ear.hear(what, what === "question" && roles === "student-names" ? kits.asking() : kits.answering());
  }

  #keyHeard(proposal: Proposal | null): void {
    const key = this.get().own.question?.key;
    if (key?.by !== "ear") return;
    const isSame = (key.thing && thingKey(key.thing)) === (proposal && thingKey(proposal.thing));
    // Another chance of the same thing is no news, until it is over.
    if (isSame && this.hearing.get().what === "question") return;
    this.round.add({
      kind: "heard",
      thing: proposal?.thing ?? null,
      confidence: Math.min(1, Math.max(0, proposal?.confidence ?? 0)),
    });
  }

  /** The kit that asks has fallen silent: what it was heard to play is the key. */
  #playedOut(proposal: Proposal | null): void {
    const { question } = this.get().own;
    if (question && isNameDue(question) && this.isPlayBackHeard(question)) this.#hear("answer");
    else this.#ear.stop();
    this.#keyHeard(proposal);
  }

  /** Somebody played it back. */
  #playedBack(proposal: Proposal | null): void {
    this.#hear("answer");
    if (proposal) this.answer({ way: "played", thing: proposal.thing });
    else this.#ear.now.dispatch({ note: "I cannot tell what was played back. Once more, or name it." });
    // Others may still answer the same question.
    this.#settle();
  }
}
