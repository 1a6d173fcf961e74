/**
 * Runs a round of Card Table: lays the deck, turns cards up, takes answers by word, by choice, said aloud or struck.
 */
import type { Hit } from "../../../engine/kit/index.ts";
import { layDeck } from "../../../engine/memory/index.ts";
import { matchSign, rudimentMatcher } from "../../../engine/recall/index.ts";
import {
  type CardId,
  type CardOutcome,
  type CardTable,
  cardName,
  choicesFor,
  type Dealt,
  faceOf,
  isCardOpen,
  judgeRhythm,
  LONGEST_ANSWER,
  type PlayerId,
  playersAsked,
  type RhythmClick,
  stillToAnswerCard,
} from "../../../engine/rounds/index.ts";
import { beatsPerBar, LEVELS, type Level, type Metre, plainClick } from "../../../engine/score/index.ts";
import { beatSeconds, type Chance, type Seconds } from "../../../engine/units/index.ts";
import type { SoundDesk } from "../../audio/soundDesk.ts";
import type { CardSettings } from "../../session/cardSettings.ts";
import type { KitLog } from "../../session/kitLog.ts";
import type { LessonBook } from "../../session/lessonBook.ts";
import type { SteppedRound } from "../../session/steppedRound.ts";
import { Store, watchAll } from "../../session/store.ts";
import { storeErrorOf } from "../../store/index.ts";
import type { CommandActs, FramedRound, RoundOnWall } from "../round/framedRound.ts";
import { RoundOfLesson } from "../round/roundOfLesson.ts";
import { type AtHand, NOTHING_AT_HAND } from "./atHand.ts";
import { cardTableOnWall } from "./onWall.ts";
import { PICTURES } from "./pictures/pictures.ts";
import { NOTHING_REMEMBERED, type Remembered } from "./studentDeck.ts";

/** So long after the last strike nothing more belongs to the bar. Our choice: longer than a half at 50 beats a minute. */
const BAR_OVER_MS = 2600;
/** On a bad day a joker comes after every other card, or oftener where the teacher set it so. Our choice. */
const BAD_DAY_JOKERS = 0.5;
/** Shorter where the next one has been struck as well, or the click has gone by it. */
const CLOSED_MS = 500;
/** From the card to the count-in. */
const BREATH_SECONDS: Seconds = 0.5;

export interface CardTableMaking {
  readonly book: Pick<LessonBook, "log">;
  /** The kit that strikes. */
  readonly kit: () => KitLog;
  readonly levelOf: (player: PlayerId | null) => Level;
  /** May fail with a StoreError. */
  readonly remembered: (players: readonly PlayerId[]) => Promise<Remembered>;
  readonly settings: CardSettings;
  readonly sound: Pick<SoundDesk, "startClick" | "stopClick">;
  readonly chance: Chance;
}

export class CardTableRound extends RoundOfLesson<"card-table"> implements FramedRound {
  readonly settings: CardSettings;
  readonly atHand = new Store<AtHand, Partial<AtHand>>(NOTHING_AT_HAND, (state, change) => ({
    ...state,
    ...change,
  }));
  /** Whether all answer each card, where there are several. */
  readonly everybody = new Store<boolean, boolean>(false, (_, next) => next);
  readonly #making: CardTableMaking;
  #stopHearing: (() => void) | undefined;
  /** The log's length when the card was turned up, or begun again. */
  #heardFrom = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #heard: CardTable["open"] = null;
  /** What the bar that lies open is struck to. */
  #click: RhythmClick | null = null;

  constructor(round: SteppedRound<"card-table">, making: CardTableMaking) {
    super(round, making.book);
    this.settings = making.settings;
    this.#making = making;
    round.subscribe(() => this.#settle());
    this.#settle();
  }

  begin(dealt?: Dealt): void {
    this.round.begin(this.players(), {
      answering: this.everybody.get() ? "all-at-once" : "in-turn",
      dealt,
    });
    void this.#lay();
  }

  pause(): void {
    this.round.pause();
  }

  resume(): void {
    this.round.resume();
  }

  protected acts(): CommandActs {
    if (this.atHand.get().isLaying) return {};
    const { open } = this.get().own;
    return {
      next: () => this.next(),
      "turn-round": () => this.turnRound(),
      stop: () => this.stop(),
      ...(open && (isCardOpen(open) ? isToBeStruck(open.card) : open.of.length > 0 && !open.isPutBack)
        ? { again: () => this.again() }
        : {}),
    };
  }

  readonly onWall = (): RoundOnWall =>
    cardTableOnWall(this.get(), { naming: this.settings.get().naming, atHand: this.atHand.get() });

  readonly onWallChanged = (listener: () => void): (() => void) =>
    watchAll([this.atHand, this.settings], listener);

  /** The next card; the tally where there is none. A card that was not answered is laid away and counts for nothing. */
  next(): void {
    const play = this.get();
    if (play.stage !== "running") return;
    const { open, deck, roles } = play.own;
    if (open && isCardOpen(open)) this.round.add({ kind: "laid-away" });
    const [coming] = deck;
    if (!coming && play.own.turned === 0) {
      // It was broken off before the cards lay.
      void this.#lay();
      return;
    }
    if (!coming) {
      this.stop();
      return;
    }
    if (open && open.of.length > 0 && play.answering === "in-turn") this.round.add({ kind: "passed-on" });
    const { naming, fourNames } = this.settings.get();
    this.round.add({
      kind: "turned-up",
      choices: fourNames ? [...choicesFor(coming.card, naming, this.#making.chance)] : [],
      of: roles === "teacher-answers" ? [null] : [...playersAsked(this.get())],
    });
  }

  /** The bar from its beginning; or, once it is answered, the card once more, a few cards later. */
  again(): void {
    const { open } = this.get().own;
    if (!open) return;
    if (isCardOpen(open)) this.#listenAfresh();
    else this.round.add({ kind: "put-back" });
  }

  turnRound(): void {
    this.round.add({ kind: "cards-turned-round" });
    this.next();
  }

  stop(): void {
    // What was missed last shows when its card is laid away.
    this.round.add({ kind: "laid-away" });
    this.round.stop();
  }

  /** A card known to be new: it comes next. */
  slipIn(card: CardId): void {
    this.round.add({ kind: "slipped-in", card });
  }

  /** Takes a name that was typed. One that may be several is asked about; one that is none is not an answer yet. */
  name(given: string): void {
    const { open } = this.get().own;
    if (!open || !isCardOpen(open) || given.trim() === "") return;
    const face = faceOf(open.card);
    const kind = face?.kind === "sticking" ? "sticking" : "symbol";
    const match = kind === "sticking" ? rudimentMatcher().match(given) : matchSign(given);
    switch (match.kind) {
      case "named":
        this.#answerWord(given, `${kind}:${match.id}`);
        return;
      case "ask":
        this.atHand.dispatch({ asks: match.ids.map((id): CardId => `${kind}:${id}`), unknown: null });
        return;
      case "none":
        this.atHand.dispatch({ asks: [], unknown: given.trim() });
        return;
    }
  }

  /** Which of several was meant. */
  meant(card: CardId, given: string): void {
    this.#answerWord(given, card);
  }

  choose(card: CardId): void {
    const named = cardName(card, this.settings.get().naming);
    this.round.add({
      kind: "card-answered",
      by: this.answerer(),
      answer: { way: "choice", meant: card, named },
    });
  }

  /** The teacher's word: over what was said aloud, or over an answer that was taken otherwise. */
  judge(outcome: CardOutcome): void {
    const { open } = this.get().own;
    if (!open) return;
    if (isCardOpen(open)) {
      this.round.add({ kind: "card-answered", by: this.answerer(), answer: { way: "said", outcome } });
      return;
    }
    const last = open.answers.at(-1);
    if (last) this.round.add({ kind: "overruled", by: last.by, outcome });
  }

  /** Whose answer is waited for next. */
  answerer(): PlayerId | null {
    const { open } = this.get().own;
    return (open && stillToAnswerCard(open)[0]) ?? null;
  }

  #answerWord(given: string, meant: CardId): void {
    this.round.add({
      kind: "card-answered",
      by: this.answerer(),
      answer: { way: "word", given: given.trim().slice(0, LONGEST_ANSWER), meant },
    });
  }

  async #lay(): Promise<void> {
    const { players, dealt } = this.get();
    this.atHand.dispatch({ ...NOTHING_AT_HAND, isLaying: true });
    let trouble: string | null = null;
    const known = await this.#making.remembered(players).catch((error: unknown) => {
      trouble = storeErrorOf(error).message;
      return NOTHING_REMEMBERED;
    });
    this.atHand.dispatch({ isLaying: false, trouble });
    const { cards, jokersInTen, rhythms } = this.settings.get();
    const levels = players.map((player) => LEVELS.indexOf(this.#making.levelOf(player)));
    const level = players.length === 0 ? this.#making.levelOf(null) : LEVELS[Math.min(...levels)];
    this.round.add({
      kind: "deck-laid",
      cards: [
        ...layDeck({
          ...known,
          level: level ?? "steady",
          count: cards,
          rhythms,
          dealt,
          jokerShare: dealt?.nothingElse ? Math.max(BAD_DAY_JOKERS, jokersInTen / 10) : jokersInTen / 10,
          pictures: PICTURES.map(({ id }) => id),
          chance: this.#making.chance,
        }),
      ],
    });
    if (this.get().own.open === null) this.next();
  }

  /** Strikes count while a rhythm lies open, and for nothing else. */
  #settle(): void {
    const { stage, own } = this.get();
    const { open } = own;
    const card = stage === "running" && open && isCardOpen(open) && isToBeStruck(open.card) ? open : null;
    if (open?.card !== this.#heard?.card || own.open === null) this.#clearAtHand();
    if (card && this.#heard === card) return;
    this.#heard = card;
    if (card) this.#listenAfresh();
    else this.#stopListening();
  }

  #clearAtHand(): void {
    const { asks, unknown, struck } = this.atHand.get();
    if (asks.length > 0 || unknown !== null || struck > 0)
      this.atHand.dispatch({ asks: [], unknown: null, struck: 0 });
  }

  #listenAfresh(): void {
    this.#stopListening();
    const log = this.#making.kit();
    this.#heardFrom = log.get();
    this.#stopHearing = log.subscribe(() => this.#struck(log));
    this.#startClick();
  }

  /** One bar is counted in; then the click goes on until the bar was struck. */
  #startClick(): void {
    const { open } = this.get().own;
    const face = open && faceOf(open.card);
    const { toClick, clickBpm } = this.#making.settings.get();
    if (!toClick || face?.kind !== "rhythm") return;
    const { metre } = face.rhythm.groove;
    const from = performance.now() / 1000 + BREATH_SECONDS + beatsPerBar(metre) * beatSeconds(clickBpm);
    this.#click = { tempoBpm: clickBpm, from };
    void this.#making.sound.startClick({
      way: plainClick(metre),
      tempoBpm: clickBpm,
      from,
      countInBars: 1,
    });
  }

  /** The strikes that count: with a click all from the first bar on in which something was struck. */
  #strikes(log: KitLog, metre: Metre): { readonly hits: readonly Hit[]; readonly click: RhythmClick | null } {
    const hits = log.hitsSince(this.#heardFrom);
    const click = this.#click;
    if (!click) return { hits, click };
    const beat = beatSeconds(click.tempoBpm);
    // Half a beat ahead of the first beat belongs to its bar already.
    const counting = hits.filter(({ time }) => time >= click.from - beat / 2);
    const [first] = counting;
    if (!first) return { hits: [], click };
    const bar = beatsPerBar(metre) * beat;
    const bars = Math.floor((first.time - click.from + beat / 2) / bar);
    return { hits: counting, click: { ...click, from: click.from + bars * bar } };
  }

  #stopListening(): void {
    clearTimeout(this.#timer);
    this.#stopHearing?.();
    this.#stopHearing = undefined;
    if (this.#click) this.#making.sound.stopClick();
    this.#click = null;
    if (this.atHand.get().struck > 0) this.atHand.dispatch({ struck: 0 });
  }

  #struck(log: KitLog): void {
    const { open } = this.get().own;
    const face = open && faceOf(open.card);
    if (face?.kind !== "rhythm") return;
    const { groove } = face.rhythm;
    const { hits, click } = this.#strikes(log, groove.metre);
    if (hits.length === 0) return;
    this.atHand.dispatch({ struck: hits.length });
    clearTimeout(this.#timer);
    this.#timer = setTimeout(
      () => {
        const by = this.answerer();
        const struck = this.#strikes(log, groove.metre);
        const { held, words } = judgeRhythm(struck.hits, face.rhythm, this.#making.levelOf(by), struck.click);
        this.round.add({ kind: "card-answered", by, answer: { way: "struck", held, words } });
      },
      click ? leftOfBarMs(groove.metre, click) : hits.length > groove.notes.length ? CLOSED_MS : BAR_OVER_MS,
    );
  }
}

/** Until the bar of a click is over, the stroke on the next one with it. */
function leftOfBarMs(metre: Metre, { tempoBpm, from }: RhythmClick): number {
  const over = from + beatsPerBar(metre) * beatSeconds(tempoBpm);
  return Math.max(0, over * 1000 - performance.now()) + CLOSED_MS;
}

function isToBeStruck(card: CardId): boolean {
  return faceOf(card)?.kind === "rhythm";
}
