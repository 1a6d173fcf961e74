/**
 * Runs a round of Wall Chart: counts how long is looked, takes names as they are typed or ticked, asks for the hands of one
 * rudiment after the other, and hears them played on two pads.
 */
import { type Rudiment, rudimentById, stickingOf } from "../../../engine/catalogue/index.ts";
import { checkSticking, StickingError } from "../../../engine/recall/index.ts";
import {
  type Answering,
  type ChartLook,
  type ChartSettings,
  chartList,
  type Dealt,
  FIRST_SETTINGS,
  isOfLooks,
  isSamePart,
  isStickingOf,
  nextDealtTask,
  offeredStickings,
  type PlayerId,
  playersAsked,
} from "../../../engine/rounds/index.ts";
import type { Chance } from "../../../engine/units/index.ts";
import type { SoundDesk } from "../../audio/soundDesk.ts";
import type { Playing } from "../../audio/strokePlayer.ts";
import type { HandPads } from "../../session/handPads.ts";
import type { KitLog } from "../../session/kitLog.ts";
import type { LessonBook } from "../../session/lessonBook.ts";
import type { SteppedRound } from "../../session/steppedRound.ts";
import { Store } from "../../session/store.ts";
import type { CommandActs, FramedRound, RoundOnWall } from "../round/framedRound.ts";
import { RoundOfLesson } from "../round/roundOfLesson.ts";
import { type BesideRound, NOTHING_BESIDE } from "./besideRound.ts";
import { drawnRudiment } from "./drawnRudiment.ts";
import { LookClock } from "./lookClock.ts";
import { wallChartOnWall } from "./onWall.ts";
import { byHand, struckEarlier } from "./padsStruck.ts";
import { playedHeld, playedWords } from "./playedWords.ts";
import { rudimentStrokes } from "./rudimentStrokes.ts";
import { namedEntry, typedName } from "./typedName.ts";

export class WallChartRound extends RoundOfLesson<"wall-chart"> implements FramedRound {
  /** How it goes the next time it begins. */
  readonly wanted = new Store<ChartSettings, Partial<ChartSettings>>(FIRST_SETTINGS, (before, change) => ({
    ...before,
    ...change,
  }));
  /** Whether all look, or are asked, at once, where there are several. */
  readonly answering = new Store<Answering, Answering>("in-turn", (_, next) => next);
  readonly beside = new Store<BesideRound, Partial<BesideRound>>(NOTHING_BESIDE, (before, change) => ({
    ...before,
    ...change,
  }));
  readonly hands: HandPads;
  readonly #kit: () => KitLog;
  readonly #sound: Pick<SoundDesk, "playStrokes">;
  readonly #chance: Chance;
  readonly #clock: LookClock;
  #stopHearing: (() => void) | undefined;
  #playing: Playing | undefined;

  constructor(
    round: SteppedRound<"wall-chart">,
    {
      book,
      hands,
      kit,
      sound,
      chance,
    }: {
      readonly book: Pick<LessonBook, "log">;
      readonly hands: HandPads;
      readonly kit: () => KitLog;
      readonly sound: Pick<SoundDesk, "playStrokes">;
      readonly chance: Chance;
    },
  ) {
    super(round, book);
    this.hands = hands;
    this.#kit = kit;
    this.#sound = sound;
    this.#chance = chance;
    this.#clock = new LookClock({
      look: () => {
        const { stage, own } = this.get();
        return stage === "running" && own.stage.at === "looking" ? own.stage.look : undefined;
      },
      left: (leftSeconds, page) => this.beside.dispatch({ leftSeconds, ...(page === null ? {} : { page }) }),
      looked: (seconds) => this.round.add({ kind: "looked", seconds }),
    });
    round.subscribe(() => this.#settle());
    this.#settle();
  }

  readonly begin = (dealt?: Dealt): void => {
    this.beside.dispatch(NOTHING_BESIDE);
    this.round.begin(this.players(), { answering: this.answering.get(), dealt });
    this.round.add({ kind: "set", settings: this.wanted.get() });
    this.next();
  };

  readonly pause = (): void => {
    this.#clock.write();
    this.#silence();
    this.round.pause();
  };

  readonly resume = (): void => this.round.resume();

  protected acts(): CommandActs {
    const { own } = this.get();
    const stop = (): void => this.stop();
    const acts = { next: () => this.next(), "turn-round": () => this.turnRound(), stop };
    const { at } = own.stage;
    const isPlayed = at === "asked" && own.settings.task === "played";
    return isPlayed || at === "told" || at === "answered" ? { ...acts, again: () => this.again() } : acts;
  }

  readonly onWall = (): RoundOnWall => wallChartOnWall(this.get(), this.beside.get());

  readonly onWallChanged = (listener: () => void): (() => void) => this.beside.subscribe(listener);

  /** What comes next: the chart is hidden, the naming is over, the next is shown or asked. */
  next(): void {
    const { own } = this.get();
    switch (own.stage.at) {
      case "looking":
        this.#clock.write();
        this.round.add({ kind: "hidden" });
        return;
      case "naming":
        this.round.add({ kind: "named-all" });
        return;
      case "asked":
        if (own.settings.task === "played") this.judgePlayed();
        else this.round.add({ kind: "let-be" });
        return;
      case "told":
      case "answered":
        if (this.get().answering === "in-turn") this.round.add({ kind: "passed-on" });
        this.#showOrAsk();
        return;
      case "before":
        this.#showOrAsk();
        return;
    }
  }

  /** The same once more: a short look, or the same rudiment; while it is played, from its beginning. */
  again(): void {
    const { stage, past } = this.get().own;
    const last = past.at(-1);
    if (stage.at === "asked") this.beside.dispatch({ played: [], earlier: 0, trouble: null });
    else if (stage.at === "answered" && last?.kind === "sticking") this.#ask(last.asked.entry);
    else this.#showOrAsk({ isAgain: true });
  }

  turnRound(): void {
    this.#silence();
    this.round.add({ kind: "turned-round" });
    this.#showOrAsk();
  }

  stop(): void {
    this.#clock.write();
    this.#takeInNamed();
    this.#silence();
    this.round.stop();
  }

  /** It is this player's names, or hands, that are taken in now. */
  turnToPlayer(by: PlayerId | null): void {
    this.round.add({ kind: "turned-to", by });
    this.beside.dispatch({ typed: { as: "nothing" }, played: [], earlier: 0, trouble: null });
  }

  /** Who waits for their names, or hands, to be taken in; the one whose are taken in first. */
  still(): readonly (PlayerId | null)[] {
    const { stage } = this.get().own;
    if (stage.at === "naming") return [stage.look, ...stage.others].map(({ by }) => by);
    return stage.at === "asked" ? [stage.by, ...stage.others] : [];
  }

  /** A name that was typed, or said and typed by the teacher. */
  type(given: string): void {
    const look = this.#lookNamed();
    if (!look || given.trim() === "") return;
    this.#takeName(typedName(look, given), "typed");
  }

  /** An entry that is meant, typed or ticked off. */
  name(entry: string, way: "typed" | "ticked", given = ""): void {
    const look = this.#lookNamed();
    if (look) this.#takeName(namedEntry(look, entry, given), way);
  }

  #takeName(typed: ReturnType<typeof typedName>, way: "typed" | "ticked"): void {
    this.beside.dispatch({ typed });
    if (typed.as === "named" || typed.as === "repeated")
      this.round.add({ kind: "named", entry: typed.entry, way });
    else this.round.add({ kind: "strayed", given: typed.given.slice(0, 80), as: typed.as });
  }

  takeBack(entry: string): void {
    this.round.add({ kind: "taken-back", entry });
    this.beside.dispatch({ typed: { as: "nothing" } });
  }

  turnTo(page: number): void {
    this.beside.dispatch({ page });
  }

  /** The rudiment that is asked, or was asked last. */
  asked(): Rudiment | undefined {
    const { stage, past } = this.get().own;
    if (stage.at === "asked") return rudimentById(stage.entry);
    const last = past.at(-1);
    return last?.kind === "sticking" ? rudimentById(last.asked.entry) : undefined;
  }

  choose(sticking: string): void {
    const rudiment = this.asked();
    if (!rudiment) return;
    const held = sticking === stickingOf(rudiment);
    this.round.add({ kind: "answered", way: "chosen", held, words: held ? "" : `${sticking} was chosen.` });
  }

  typeSticking(given: string): void {
    const rudiment = this.asked();
    if (!rudiment || given.trim() === "") return;
    const held = isStickingOf(rudiment, given);
    this.round.add({
      kind: "answered",
      way: "typed",
      held,
      words: held ? "" : `${given.trim().slice(0, 80)} was said.`,
    });
  }

  /** The teacher heard it said. */
  heardSaid(held: boolean): void {
    this.round.add({
      kind: "answered",
      way: "said",
      held,
      words: held ? "" : "The hands were said otherwise.",
    });
  }

  /** Sounds the rudiment that was asked, once it is answered. */
  hear(): void {
    const rudiment = this.asked();
    if (!rudiment || this.get().own.stage.at !== "answered") return;
    this.#silence();
    this.#playing = this.#sound.playStrokes(rudimentStrokes(rudiment));
  }

  /** What was struck on the two pads since it was asked. */
  judgePlayed(): void {
    const rudiment = this.asked();
    const { stage } = this.get().own;
    if (!rudiment || stage.at !== "asked") return;
    try {
      const { played, reports } = this.beside.get();
      const report = checkSticking(rudiment, played);
      this.beside.dispatch({
        reports: [...reports, { by: stage.by, report }],
        trouble: null,
        played: [],
        earlier: 0,
      });
      this.round.add({
        kind: "answered",
        way: "played",
        held: playedHeld(report),
        words: playedHeld(report) ? "" : (playedWords(report)[0] ?? ""),
      });
    } catch (error) {
      if (!(error instanceof StickingError)) throw error;
      this.beside.dispatch({ trouble: error.message, played: [], earlier: 0 });
    }
  }

  #lookNamed(): ChartLook | undefined {
    const { stage } = this.get().own;
    return this.get().stage === "running" && stage.at === "naming" ? stage.look : undefined;
  }

  #showOrAsk({ isAgain = false } = {}): void {
    const task = isAgain ? null : nextDealtTask(this.get());
    if (task && !isSamePart(task, this.get().own.settings)) this.round.add({ kind: "set", settings: task });
    const play = this.get();
    if (isOfLooks(play.own.settings.task)) {
      this.beside.dispatch({ typed: { as: "nothing" }, page: 0 });
      this.round.add({ kind: "look-began", of: this.#whoIsAsked() });
      return;
    }
    const asked = play.own.past.flatMap((each) => (each.kind === "sticking" ? [each.asked.entry] : []));
    const drawn = drawnRudiment(chartList(play.own.settings), asked, this.#chance);
    if (drawn !== undefined) this.#ask(drawn);
  }

  #ask(entry: string): void {
    const rudiment = rudimentById(entry);
    if (!rudiment) return;
    this.#silence();
    this.beside.dispatch({
      offered: offeredStickings(rudiment, this.#chance),
      played: [],
      earlier: 0,
      reports: [],
      trouble: null,
    });
    this.round.add({ kind: "asked", entry, of: this.#whoIsAsked() });
  }

  /** Turned round it is the teacher. */
  #whoIsAsked(): readonly (PlayerId | null)[] {
    const play = this.get();
    return play.own.roles === "teacher-names" ? [null] : playersAsked(play);
  }

  /** A round that ends while names are taken in: lists that hold one count. */
  #takeInNamed(): void {
    const { stage } = this.get().own;
    if (stage.at !== "naming") return;
    for (const { by, named } of [stage.look, ...stage.others]) {
      if (named.length === 0) continue;
      this.round.add({ kind: "turned-to", by });
      this.round.add({ kind: "named-all" });
    }
  }

  #silence(): void {
    this.#playing?.stop();
    this.#playing = undefined;
  }

  /** The clock runs while the chart is looked at, the pads are heard while hands are to be played. */
  #settle(): void {
    const { stage, own } = this.get();
    this.#clock.settle();
    const isPlayed = stage === "running" && own.stage.at === "asked" && own.settings.task === "played";
    if (isPlayed && !this.#stopHearing) this.#stopHearing = this.#hearPads();
    else if (!isPlayed && this.#stopHearing) {
      this.#stopHearing();
      this.#stopHearing = undefined;
    }
    // A program that is opened again still has something to offer.
    const rudiment = own.stage.at === "asked" ? rudimentById(own.stage.entry) : undefined;
    if (rudiment && this.beside.get().offered.length === 0)
      this.beside.dispatch({ offered: offeredStickings(rudiment, this.#chance) });
  }

  #hearPads(): () => void {
    this.#recallStruck();
    return this.#kit().hear((fresh) => {
      const { log } = this.book;
      // On the lesson's clock, so that what was struck before a break can stand beside it.
      const hits = fresh.map((hit) => ({ ...hit, time: log.timeOf(hit.time) }));
      const strokes = byHand(hits, this.hands.get());
      if (strokes.length > 0)
        this.beside.dispatch({ played: [...this.beside.get().played, ...strokes], trouble: null });
    });
  }

  /** What was struck before the program was opened again is taken in as well. */
  #recallStruck(): void {
    if (this.beside.get().played.length > 0) return;
    const played = byHand(struckEarlier(this.book.log, this.round.roundId), this.hands.get());
    if (played.length > 0) this.beside.dispatch({ played, earlier: played.length });
  }
}
