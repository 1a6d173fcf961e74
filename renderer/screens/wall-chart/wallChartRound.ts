/**
 * Runs a round of Wall Chart: counts how long is looked, takes names as they are typed or ticked, asks for the hands of one
 * rudiment after the other, and hears them played on two pads.
 */
import { type Rudiment, rudimentById, rudimentGroove, stickingOf } from "../../../engine/catalogue/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { checkSticking, type PlayedStroke, StickingError } from "../../../engine/recall/index.ts";
import {
  type Answering,
  type ChartLook,
  type ChartSettings,
  chartList,
  chartMatcher,
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
import { DYNAMIC_VELOCITY, performed, usualTempo } from "../../../engine/score/index.ts";
import type { Chance, Seconds } from "../../../engine/units/index.ts";
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
import { pagesOf } from "./chartPages.ts";
import { wallChartOnWall } from "./onWall.ts";
import { playedHeld, playedWords } from "./playedWords.ts";

/** Looking is written down as often: a program that is opened again has lost no more of it. */
const WRITTEN_EACH_SECONDS: Seconds = 5;
const TICK_MS = 250;
/** How often a rudiment is sounded. */
const SOUNDED_TIMES = 2;

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
  #timer: ReturnType<typeof setInterval> | undefined;
  #lookedFromMs = 0;
  /** The page that time has turned to. */
  #turned = 0;
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
    this.#writeLooked();
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
        this.#writeLooked();
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
    this.#writeLooked();
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
    const match = chartMatcher(look.settings.task).match(given);
    if (match.kind === "ask") {
      const perhaps = match.ids.filter((id) => chartList(look.settings).includes(id));
      this.beside.dispatch({ typed: { as: "unclear", given, perhaps } });
      this.round.add({ kind: "strayed", given: given.slice(0, 80), as: "unclear" });
      return;
    }
    if (match.kind === "none") {
      this.beside.dispatch({ typed: { as: "none", given } });
      this.round.add({ kind: "strayed", given: given.slice(0, 80), as: "none" });
      return;
    }
    this.name(match.id, "typed", given);
  }

  /** An entry that is meant, typed or ticked off. */
  name(entry: string, way: "typed" | "ticked", given = ""): void {
    const look = this.#lookNamed();
    if (!look) return;
    if (!chartList(look.settings).includes(entry)) {
      this.beside.dispatch({ typed: { as: "elsewhere", given, entry } });
      this.round.add({ kind: "strayed", given: given.slice(0, 80), as: "elsewhere" });
      return;
    }
    const isAgain = look.named.includes(entry);
    this.beside.dispatch({ typed: { as: isAgain ? "repeated" : "named", given, entry } });
    this.round.add({ kind: "named", entry, way });
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
    const groove = rudimentGroove(rudiment);
    const how = { tempoBpm: usualTempo(groove), bars: groove.bars * SOUNDED_TIMES };
    this.#playing = this.#sound.playStrokes(
      performed(groove, how).flatMap(({ time, note }) => {
        const graces = note.ornament === "drag" ? [0.09, 0.045] : note.ornament === "flam" ? [0.03] : [];
        const stroke = { voice: note.voice, velocity: DYNAMIC_VELOCITY[note.dynamic] };
        const soft = { voice: note.voice, velocity: DYNAMIC_VELOCITY.ghost };
        // Graces of the first stroke sound before time 0 of what is played.
        const at = time + 0.1;
        return [...graces.map((before) => ({ ...soft, time: at - before })), { ...stroke, time: at }];
      }),
    );
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
    const list = chartList(play.own.settings);
    // Those that were asked least often, so that none comes again before all have been.
    const times = (id: string): number => asked.filter((each) => each === id).length;
    const least = Math.min(...list.map(times));
    const open = list.filter((id) => times(id) === least);
    const drawn = open[Math.floor(this.#chance() * open.length)];
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
    const isLooking = stage === "running" && own.stage.at === "looking";
    if (isLooking && this.#timer === undefined) {
      this.#lookedFromMs = performance.now();
      this.#turned = 0;
      this.#timer = setInterval(() => this.#tick(), TICK_MS);
      this.#tick();
    } else if (!isLooking && this.#timer !== undefined) {
      clearInterval(this.#timer);
      this.#timer = undefined;
    }
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

  #tick(): void {
    const { stage } = this.get().own;
    if (stage.at !== "looking") return;
    const { forSeconds, seconds } = stage.look;
    const passed = (performance.now() - this.#lookedFromMs) / 1000;
    const left = Math.max(0, forSeconds - seconds - passed);
    const leftSeconds = Math.ceil(left);
    const pages = pagesOf(stage.look).length;
    // The pages are turned so that each is open as long as the others.
    const turned = Math.min(pages - 1, Math.floor(((forSeconds - left) / forSeconds) * pages));
    const before = this.beside.get();
    if (leftSeconds !== before.leftSeconds)
      this.beside.dispatch({ leftSeconds, ...(turned > this.#turned ? { page: turned } : {}) });
    this.#turned = turned;
    if (left <= 0 || passed >= WRITTEN_EACH_SECONDS) this.#writeLooked();
  }
  /** Writes down what was looked since it was last written down. */
  #writeLooked(): void {
    const { stage, own } = this.get();
    if (stage !== "running" || own.stage.at !== "looking") return;
    const now = performance.now();
    const seconds = (now - this.#lookedFromMs) / 1000;
    this.#lookedFromMs = now;
    const { forSeconds } = own.stage.look;
    if (seconds > 0) this.round.add({ kind: "looked", seconds: Math.min(seconds, forSeconds) });
  }

  #hearPads(): () => void {
    const log = this.#kit();
    this.#recallStruck();
    return log.hear((fresh) => {
      const strokes = fresh.flatMap((hit) => this.#byHand({ ...hit, time: this.book.log.timeOf(hit.time) }));
      if (strokes.length > 0)
        this.beside.dispatch({ played: [...this.beside.get().played, ...strokes], trouble: null });
    });
  }

  /** What was struck before the program was opened again stands in the lesson's log. */
  #recallStruck(): void {
    const { log } = this.book;
    if (!log.isOn || this.beside.get().played.length > 0) return;
    const asked = log.events.findLast(
      (event) => event.kind === "round-step" && event.roundId === this.round.roundId,
    );
    if (!asked) return;
    const struck = log.events.flatMap((event) =>
      event.kind === "hit" && event.lane === asked.lane && event.seq > asked.seq ? [event.hit] : [],
    );
    const played = struck.flatMap((hit) => this.#byHand(hit));
    if (played.length > 0) this.beside.dispatch({ played, earlier: played.length });
  }

  /** @param hit its time on the lesson's clock, so that what was struck before a break can stand beside it. */
  #byHand({ time, pad, velocity }: Hit): readonly PlayedStroke[] {
    const { L, R } = this.hands.get();
    if (pad === L) return [{ time, velocity, hand: "L" }];
    return pad === R ? [{ time, velocity, hand: "R" }] : [];
  }
}
