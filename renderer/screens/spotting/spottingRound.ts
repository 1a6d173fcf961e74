/**
 * Runs a round of Spotting: draws what is played and lets it sound, or hears what a kit plays and proposes what it was, and
 * takes answers by name and by playing back.
 */
import type { ListenedFor } from "../../../engine/catalogue/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import {
  type About,
  type Answering,
  type Dealt,
  type DrawnThing,
  dealtNext,
  drawPerformance,
  isNameDue,
  isSameThing,
  nameItem,
  nextThing,
  type PlayerId,
  performedStrokes,
  playersAsked,
  playItem,
  proposalOf,
  type ShownItem,
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
import type { Chance, Milliseconds } from "../../../engine/units/index.ts";
import type { SoundDesk } from "../../audio/soundDesk.ts";
import type { Playing } from "../../audio/strokePlayer.ts";
import type { Judge } from "../../judging/judge.ts";
import type { KitLog } from "../../session/kitLog.ts";
import type { LessonBook } from "../../session/lessonBook.ts";
import type { SteppedRound } from "../../session/steppedRound.ts";
import { Store, watchAll } from "../../session/store.ts";
import type { CommandActs, FramedRound, RoundOnWall } from "../round/framedRound.ts";
import { RoundOfLesson } from "../round/roundOfLesson.ts";
import { whoAnswers } from "../round/whoAnswers.ts";
import { type HearingNow, NOTHING_HEARD } from "./hearing.ts";
import { spottingOnWall } from "./onWall.ts";

/** How a thing's name stands with a student: the chance that it is forgotten; `null`: never met. */
export type Standing = (thing: Thing) => number | null;

/** What the round needs of the studio. */
export interface SpottingPlace {
  readonly sound: Pick<SoundDesk, "playStrokes">;
  readonly book: Pick<LessonBook, "log">;
  readonly kits: {
    /** The kit that plays back. */
    readonly answering: () => KitLog;
    /** The kit whose playing is the question; the same one where there is no second. */
    readonly asking: () => KitLog;
  };
  readonly judge: Pick<Judge, "begin" | "add" | "hear" | "judge">;
  /** All that can be played: the stock, and what is on the Shelf now; the same array while it is the same. */
  readonly spottables: () => readonly Spottable[];
  /** What of the Shelf is listened for; the same object while it is the same. */
  readonly listenedFor: () => ListenedFor;
  /** What a student has met; `null` is nobody in particular. @throws StoreError when it cannot be read. */
  readonly standing: (student: PlayerId | null) => Promise<Standing>;
  readonly chance: Chance;
}

/** What is chosen before it begins. */
export interface SpottingWanted {
  readonly source: Spotting["source"];
  readonly about: About;
  /** How several players answer. */
  readonly answering: Answering;
}

/** So long after the last strike it is over, what was played on a kit. Our choice: longer than a slow bar's rest. */
const OVER_MS: Milliseconds = 2400;
/** From one look at what is played to the next. Our choice: a beat or two. */
const LOOK_EVERY_MS: Milliseconds = 1000;
/** With fewer strikes than these nothing was played back: somebody tried a drum. Our choice. */
const FEWEST_STROKES = 12;

export class SpottingRound extends RoundOfLesson<"spotting"> implements FramedRound {
  readonly hearing = new Store<HearingNow, Partial<HearingNow>>(NOTHING_HEARD, (before, change) => ({
    ...before,
    ...change,
  }));
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
  readonly #standings = new Map<PlayerId | null, Standing>();
  #names: { readonly of: readonly Spottable[]; readonly by: Map<string, ThingNames> } | undefined;
  #playing: Playing | undefined;
  #soundingOver: ReturnType<typeof setTimeout> | undefined;
  #over: ReturnType<typeof setTimeout> | undefined;
  #look: ReturnType<typeof setTimeout> | undefined;
  #stopHearing: () => void = () => {};
  /** All that was struck since it is heard. */
  #hits: readonly Hit[] = [];
  /** Counts what is heard: an answer of the judge that comes too late belongs to another. */
  #heard = 0;
  #isDrawing = false;
  /** By its number in `#heard`, what is over and is being thought over as a whole. */
  #playedOutOf: number | null = null;

  constructor(round: SteppedRound<"spotting">, place: SpottingPlace) {
    super(round, place.book);
    this.#place = place;
    round.subscribe(() => this.#settle());
    this.#settle();
  }

  readonly begin = (dealt?: Dealt): void => {
    const { source: wanted, about, answering } = this.wanted.get();
    // What was dealt is the program's to play.
    const source = dealt ? "program" : wanted;
    this.#standings.clear();
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
    const { what, strokes } = this.hearing.get();
    const isPlayed = what === "question";
    return {
      ...acts,
      ...(isPlayed && strokes > 0 ? { next: () => void this.#playedOut() } : {}),
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
      const standings = await Promise.all(of.map((each) => this.#standingOf(each)));
      // It may have been stopped or turned round meanwhile.
      const now = this.get();
      if (now.stage !== "running" || now.own.question !== own.question || this.isAskedByKit) return;
      const dealt = this.#dealtNext(standings);
      const askable = this.#place
        .spottables()
        .filter(({ thing }) => isAbout(thing, own.about))
        .map((spottable) => ({ spottable, chanceForgotten: standingOfAll(standings, spottable.thing) }));
      const drawn =
        dealt ??
        nextThing(
          askable.filter(({ spottable }) => askable.length === 1 || !isOf(own.question, spottable.thing)),
          own.past.filter((each) => each.of.some((id) => of.includes(id))),
          this.#place.chance,
        );
      if (!drawn) return;
      const { thing } = drawn.spottable;
      const performance = drawPerformance(drawn.spottable, this.#place.chance);
      this.round.add({ kind: "asked", thing, performance, isNew: drawn.isNew, of });
      const { question } = this.get().own;
      if (question) this.#sound(question.key);
    } finally {
      this.#isDrawing = false;
    }
  }

  /** What was dealt and comes next. */
  #dealtNext(standings: readonly Standing[]): DrawnThing | null {
    const { dealt, own } = this.get();
    const all = this.#place.spottables();
    const named = (item: ShownItem): Spottable | undefined =>
      all.find(({ thing }) => item === nameItem(thing) || item === playItem(thing));
    const asked = own.past.flatMap(({ key }) =>
      key.by === "program" ? [nameItem(key.thing), playItem(key.thing)] : [],
    );
    const item = dealtNext(dealt, asked, (each) => named(each) !== undefined);
    const spottable = item === null ? undefined : named(item);
    if (!spottable) return null;
    return { spottable, isNew: standingOfAll(standings, spottable.thing) === null };
  }

  async #standingOf(student: PlayerId | null): Promise<Standing> {
    const known = this.#standings.get(student);
    if (known) return known;
    try {
      const read = await this.#place.standing(student);
      this.trouble.dispatch(null);
      this.#standings.set(student, read);
      return read;
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      this.trouble.dispatch(`What this student has met could not be read: what is played may be new. ${why}`);
      return () => null;
    }
  }

  /** Sounds it once more; of a kit, what is played from now on is the question. */
  again(): void {
    const { question } = this.get().own;
    if (!question) return;
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
    this.#hear(null);
  }

  /** Strikes count as long as something is waited for, and for that only. */
  #settle(): void {
    const { stage, own } = this.get();
    const { question } = own;
    const { what, strokes } = this.hearing.get();
    if (stage !== "running" || !question || !isNameDue(question)) {
      // Named before the silence that ends it: the key is all that was played until then.
      if (stage === "running" && question && what === "question" && strokes > 0) void this.#playedOut();
      else if (what !== null) this.#hear(null);
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

  #hear(what: HearingNow["what"]): void {
    this.#stopHearing();
    clearTimeout(this.#over);
    clearTimeout(this.#look);
    this.#look = undefined;
    this.#heard += 1;
    const { kits, judge, listenedFor } = this.#place;
    this.#hits = [];
    this.hearing.dispatch({ ...NOTHING_HEARD, what });
    this.#stopHearing = () => {};
    if (what === null) return;
    const { roles } = this.get().own;
    const log = what === "question" && roles === "student-names" ? kits.asking() : kits.answering();
    judge.begin(null, [], listenedFor());
    this.#stopHearing = log.hear((fresh) => this.#struck(fresh));
  }

  #struck(fresh: readonly Hit[]): void {
    const { what, strokes } = this.hearing.get();
    // Who drums along while it sounds is not playing it back.
    if (what === "answer" && this.sounding.get()) return;
    this.#place.judge.add(fresh);
    this.#hits = [...this.#hits, ...fresh];
    this.hearing.dispatch({ strokes: strokes + fresh.length, note: null });
    clearTimeout(this.#over);
    this.#over = setTimeout(
      () => void (what === "question" ? this.#playedOut() : this.#playedBack()),
      OVER_MS,
    );
    if (what === "question") this.#look ??= setTimeout(() => void this.#lookAtQuestion(), LOOK_EVERY_MS);
  }

  /**
   * What is heard; `undefined` where it came too late to matter.
   *
   * @param of the last bars, while it is played; all of it once it is over: a fill may have been long ago.
   */
  async #proposed(of: "last-bars" | "all"): Promise<HearingNow["proposal"] | undefined> {
    const { question } = this.get().own;
    if (!question) return undefined;
    const heard = this.#heard;
    const about = this.#aboutOf(question.key);
    try {
      const { judge } = this.#place;
      const hearing =
        of === "all"
          ? (await judge.judge({ hits: this.#hits, styleId: null, click: null })).hearing
          : await judge.hear();
      return heard === this.#heard ? proposalOf(hearing, about) : undefined;
    } catch (error) {
      if (heard === this.#heard)
        this.trouble.dispatch(error instanceof Error ? error.message : String(error));
      return undefined;
    }
  }

  async #lookAtQuestion(): Promise<void> {
    const proposal = await this.#proposed("last-bars");
    this.#look = undefined;
    if (proposal !== undefined) this.#propose(proposal);
  }

  #propose(proposal: HearingNow["proposal"]): void {
    this.hearing.dispatch({ proposal });
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
  async #playedOut(): Promise<void> {
    const heard = this.#heard;
    if (this.hearing.get().what !== "question" || this.#playedOutOf === heard) return;
    this.#playedOutOf = heard;
    const proposal = await this.#proposed("all");
    if (proposal === undefined) {
      // It could not be thought over, and may be asked for again.
      if (this.#heard === heard) this.#playedOutOf = null;
      return;
    }
    const { question } = this.get().own;
    const isHeard = question !== null && isNameDue(question) && this.isPlayBackHeard(question);
    this.#hear(isHeard ? "answer" : null);
    this.#propose(proposal);
  }

  /** Somebody played it back. */
  async #playedBack(): Promise<void> {
    const { what, strokes } = this.hearing.get();
    if (what !== "answer") return;
    if (strokes < FEWEST_STROKES) {
      this.#hear("answer");
      return;
    }
    const proposal = await this.#proposed("all");
    if (proposal === undefined) return;
    this.#hear("answer");
    if (proposal) this.answer({ way: "played", thing: proposal.thing });
    else this.hearing.dispatch({ note: "I cannot tell what was played back. Once more, or name it." });
    // Others may still answer the same question.
    this.#settle();
  }
}

/** Of several who answer the same question, what not all have met is new, and who forgot it likeliest decides. */
function standingOfAll(standings: readonly Standing[], thing: Thing): number | null {
  const each = standings.map((standing) => standing(thing));
  const met = each.filter((chance) => chance !== null);
  return met.length < each.length ? null : Math.max(...met);
}

/** Whether it is what was played just now, to somebody else perhaps. */
function isOf(question: SpottingQuestion | null, thing: Thing): boolean {
  return question !== null && question.key.thing !== null && isSameThing(question.key.thing, thing);
}

function isAbout({ kind }: Thing, about: About): boolean {
  if (about === "both") return true;
  return about === "fills" ? kind === "fill" : kind !== "fill";
}
