/**
 * Runs a round of Say & Strike: says phrases or hears them said, collects what is struck, and hears what is said back.
 */
import type { Hit } from "../../../engine/kit/index.ts";
import {
  type AnsweredBy,
  type Call,
  type CallSource,
  type Dealt,
  dealtNext,
  isCalled,
  MOST_PLAYERS,
  MOST_STROKES,
  type Play,
  type PlayerId,
  playerInTurn,
  rungResultsOf,
  type SaidStroke,
  type SayAndStrike,
  type ShownItem,
  sayAndStrikeRules,
  stillToStrike,
} from "../../../engine/rounds/index.ts";
import { FOUR_FOUR, type Level, type Phrase } from "../../../engine/score/index.ts";
import {
  type Counting,
  HOUSE_SPEAKER,
  inventPhrase,
  nextRung,
  PhraseTextError,
  readPhraseText,
  type SaidAt,
  type SyllableSet,
  sayWords,
  syllableOf,
  wordsOfPhrase,
} from "../../../engine/speech/index.ts";
import {
  type Bpm,
  beatSeconds,
  type Chance,
  median,
  seededChance,
  toNumber,
} from "../../../engine/units/index.ts";
import type { SoundDesk } from "../../audio/soundDesk.ts";
import type { Playing } from "../../audio/strokePlayer.ts";
import type { SyllableEar } from "../../microphone/syllableEar.ts";
import type { KitLog } from "../../session/kitLog.ts";
import type { LessonBook } from "../../session/lessonBook.ts";
import type { SteppedRound } from "../../session/steppedRound.ts";
import { Store, type Watched } from "../../session/store.ts";
import type { KitsHeard } from "../back-turned/backTurnedRound.ts";
import type { CommandActs, FramedRound, RoundOnWall } from "../round/framedRound.ts";
import { type Doing, NOTHING, type Proposal } from "./doing.ts";
import { sayAndStrikeOnWall } from "./onWall.ts";

/** Whose examples the ear goes by where nobody in particular speaks. */
export const TEACHERS_VOICE = "teacher";
export const COUNTED: Counting = { counted: true, voice: "snare" };
/** A phrase that was struck is over after so many of its beats without a stroke, and never sooner than this. Our choice. */
const OVER_BEATS = 2;
const LEAST_OVER_MS = 1300;
/** A player's beat, where it is told from the strokes alone: kept within these by doubling. Our choice. */
const SLOWEST_BPM: Bpm = 60;
const FASTEST_BPM: Bpm = 140;
/** Sample rate of what the program says: all that a formant voice has, and little to compute. */
const VOICE_RATE = 24_000;
const STRUCK_VELOCITY = 0.7;
/** So often a phrase is drawn anew, until what was dealt is in it. */
const MOST_DRAWS = 40;

export class SayAndStrikeRound implements FramedRound {
  readonly round: SteppedRound<"say-and-strike">;
  readonly ear: SyllableEar;
  readonly get: () => Play<SayAndStrike>;
  readonly subscribe: FramedRound["subscribe"];
  readonly doing = new Store<Doing, Partial<Doing>>(NOTHING, (before, change) => ({ ...before, ...change }));
  /** The tempo of what is typed. */
  readonly tempo = new Store<Bpm, Bpm>(80, (_, next) => next);
  readonly #sound: Pick<SoundDesk, "playSaid" | "playStrokes">;
  readonly #book: Pick<LessonBook, "log">;
  readonly #kits: KitsHeard;
  readonly #levelOf: (player: PlayerId | null) => Level;
  readonly #syllables: Pick<Watched<SyllableSet>, "get">;
  readonly #chance: Chance;
  #playing: Playing | undefined;
  #hits: readonly Hit[] = [];
  #timer: ReturnType<typeof setTimeout> | undefined;
  #unhear: () => void = () => {};

  constructor(
    round: SteppedRound<"say-and-strike">,
    {
      sound,
      book,
      kits,
      ear,
      levelOf,
      syllables,
      chance,
    }: {
      readonly sound: Pick<SoundDesk, "playSaid" | "playStrokes">;
      readonly book: Pick<LessonBook, "log">;
      readonly kits: KitsHeard;
      readonly ear: SyllableEar;
      readonly levelOf: (player: PlayerId | null) => Level;
      readonly syllables: Pick<Watched<SyllableSet>, "get">;
      readonly chance: Chance;
    },
  ) {
    this.round = round;
    this.get = round.get;
    this.subscribe = round.subscribe;
    this.ear = ear;
    this.#sound = sound;
    this.#book = book;
    this.#kits = kits;
    this.#levelOf = levelOf;
    this.#syllables = syllables;
    this.#chance = chance;
    round.subscribe(() => this.#settle());
    this.#settle();
  }

  players(): readonly PlayerId[] {
    const { began } = this.#book.log.get();
    return this.#book.log.isOn && began ? began.studentIds.slice(0, MOST_PLAYERS) : [];
  }

  readonly begin = (dealt?: Dealt): void => {
    this.round.begin(this.players(), { dealt });
    if (dealt) this.next();
  };

  readonly pause = (): void => {
    this.#quiet();
    this.round.pause();
  };

  readonly resume = (): void => {
    this.round.resume();
    const { call } = this.get().own;
    if (call && isCalled(call)) this.#sayCall(call);
  };

  readonly anew = (): void => this.round.anew();

  readonly commands = (): CommandActs => {
    const { stage, own } = this.get();
    const stop = (): void => this.stop();
    if (stage === "paused") return { stop };
    if (stage !== "running") return {};
    const acts = { "turn-round": () => this.turnRound(), stop };
    const { proposal, struck } = this.doing.get();
    if (proposal) return { ...acts, next: () => this.confirm(), again: () => this.sayAgain() };
    if (struck === "call") return acts;
    const { call } = own;
    const again = (): void => this.again();
    if (!call) return { ...acts, next: () => this.next() };
    return isCalled(call) ? { ...acts, again } : { ...acts, next: () => this.next(), again };
  };

  readonly onWall = (): RoundOnWall =>
    sayAndStrikeOnWall(this.get(), this.doing.get(), this.ear.get().doing === "listening");

  readonly onWallChanged = (listener: () => void): (() => void) => {
    const stops = [this.doing.subscribe(listener), this.ear.subscribe(listener)];
    return () => {
      for (const stop of stops) stop();
    };
  };

  /** Whose voice the microphone hears now. */
  speaker(): string {
    const play = this.get();
    return play.own.roles === "student-says" ? (playerInTurn(play) ?? "student") : TEACHERS_VOICE;
  }

  /** How hard the next phrase of the program is, from 1. */
  rung(): number {
    const play = this.get();
    const by = playerInTurn(play);
    return nextRung(rungResultsOf(play.own, by), this.#levelOf(by));
  }

  /** The next phrase is the program's: said, or struck where the roles are turned round. */
  next(): void {
    const { stage, own } = this.get();
    if (stage !== "running" || (own.call && isCalled(own.call))) return;
    this.#quiet();
    this.#passOn();
    const rung = this.rung();
    const phrase = this.#phraseOf(rung);
    this.#call(strokesOf(phrase), phrase.name, phrase.tempoBpm.low, "program", rung);
  }

  /** The phrase that was typed is said. */
  sayTyped(text: string): void {
    const phrase = this.#read(text, this.tempo.get());
    if (!phrase) return;
    this.#quiet();
    this.#passOn();
    this.#call(strokesOf(phrase), phrase.name, phrase.tempoBpm.low, "typed", null);
  }

  /** Somebody says the phrase: the microphone hears it, and it is shown for a glance. */
  async sayMyself(): Promise<void> {
    await this.#hearAs("call");
  }

  /** What is struck from now on is the call. */
  strikeCall(): void {
    this.#quiet();
    this.#passOn();
    this.#collect("call");
  }

  /** The call is said back into the microphone. */
  async sayBack(): Promise<void> {
    await this.#hearAs("answer");
  }

  /** The call is typed back. */
  typeBack(text: string): void {
    const { call } = this.get().own;
    if (!call || !isCalled(call)) return;
    const phrase = this.#read(text, call.tempoBpm);
    if (phrase) this.#answer(strokesOf(phrase), "typed");
  }

  /** What was heard is so. */
  confirm(): void {
    const { proposal } = this.doing.get();
    if (!proposal) return;
    this.doing.dispatch({ proposal: null });
    const text = proposal.words.map(({ syllable }) => syllable).join(" ");
    if (proposal.as === "answer") this.#answer(proposal.strokes, "said");
    else {
      this.#passOn();
      this.#called(proposal.strokes, text, tempoOf(proposal.strokes), "said", null);
    }
  }

  /** What was heard is not so: it is said once more. */
  sayAgain(): void {
    const { proposal } = this.doing.get();
    if (!proposal) return;
    this.doing.dispatch({ proposal: null });
    void this.#hearAs(proposal.as);
  }

  /** What was heard is not so, and is not said again. */
  dropProposal(): void {
    this.ear.cancel();
    this.doing.dispatch({ proposal: null });
  }

  again(): void {
    const { call } = this.get().own;
    if (!call) return;
    this.#quiet();
    this.round.add({ kind: "heard-again" });
    this.#hits = [];
    this.#sayCall(call);
  }

  letBe(): void {
    this.#quiet();
    this.round.add({ kind: "let-be" });
  }

  turnRound(): void {
    this.#quiet();
    this.round.add({ kind: "turned-round" });
  }

  stop(): void {
    this.#quiet();
    this.round.stop();
  }

  /** Whoever is to answer. */
  answerer(): PlayerId | null {
    const { call } = this.get().own;
    return (call && stillToStrike(call)[0]) ?? null;
  }

  #phraseOf(rung: number): Phrase {
    const set = this.#syllables.get();
    const { dealt, own } = this.get();
    const asked = sayAndStrikeRules.shown(own).map(({ item }) => item);
    const item = dealtNext(dealt, asked, (each) => voiceOf(each, set) !== undefined);
    const voice = item && voiceOf(item, set);
    const ordered = voice ? withFirst(set, voice) : set;
    for (let draw = 0; draw < MOST_DRAWS; draw += 1) {
      const phrase = inventPhrase(rung, ordered, this.#chance);
      if (!voice || phrase.voices.includes(voice)) return phrase;
    }
    return inventPhrase(rung, ordered, this.#chance);
  }

  #read(text: string, tempoBpm: Bpm): Phrase | null {
    try {
      const syllables = isCountedText(text) ? COUNTED : this.#syllables.get();
      const phrase = readPhraseText(text, { syllables, metre: FOUR_FOUR, tempoBpm });
      this.doing.dispatch({ trouble: null });
      return phrase;
    } catch (error) {
      if (!(error instanceof PhraseTextError)) throw error;
      this.doing.dispatch({ trouble: error.message });
      return null;
    }
  }

  async #hearAs(as: Proposal["as"]): Promise<void> {
    this.#silence();
    const isStill = this.get();
    const heard = await this.ear.hear(this.speaker());
    if (heard === null || this.get().own !== isStill.own || this.get().stage !== "running") return;
    const set = this.#syllables.get();
    const strokes = heard.flatMap(({ centre, syllable }): readonly SaidStroke[] => {
      const voice = set.syllables.find(({ text }) => text === syllable)?.voice;
      return voice ? [{ time: centre, voice }] : [];
    });
    if (strokes.length > 0)
      this.doing.dispatch({ proposal: { as, strokes: strokes.slice(0, MOST_STROKES), words: heard } });
  }

  #passOn(): void {
    if (this.get().own.call) this.round.add({ kind: "passed-on" });
  }

  #call(
    strokes: readonly SaidStroke[],
    text: string,
    tempoBpm: Bpm,
    source: CallSource,
    rung: number | null,
  ): void {
    this.#called(strokes, text, tempoBpm, source, rung);
    const { call } = this.get().own;
    if (call) this.#sayCall(call);
  }

  #called(
    strokes: readonly SaidStroke[],
    text: string | null,
    tempoBpm: Bpm,
    source: CallSource,
    rung: number | null,
  ): void {
    const play = this.get();
    this.round.add({
      kind: "called",
      strokes,
      text,
      tempoBpm,
      source,
      rung,
      of: [playerInTurn(play)],
    });
  }

  #answer(strokes: readonly SaidStroke[], way: AnsweredBy): void {
    const by = this.answerer();
    this.round.add({ kind: "answered", by, strokes, way, level: this.#levelOf(by) });
  }

  /** Lets the call sound: said, or struck by the program where it is to be said back. */
  #sayCall(call: Call): void {
    this.#silence();
    if (call.roles === "student-says") {
      this.#playing = this.#sound.playStrokes(
        call.strokes.map(({ time, voice }) => ({ time, voice, velocity: STRUCK_VELOCITY })),
      );
      return;
    }
    const words = this.#wordsOf(call);
    if (words.length > 0)
      this.#playing = this.#sound.playSaid(sayWords(words, HOUSE_SPEAKER, VOICE_RATE, seededChance(1)));
  }

  #wordsOf({ text, strokes, tempoBpm }: Call): readonly SaidAt[] {
    if (text !== null && isCountedText(text)) {
      const phrase = readPhraseText(text, { syllables: COUNTED, metre: FOUR_FOUR, tempoBpm });
      return wordsOfPhrase(phrase, COUNTED);
    }
    const set = this.#syllables.get();
    return strokes.flatMap(({ time, voice }) => {
      const syllable = syllableOf(set, voice);
      return syllable ? [{ time, text: syllable.text }] : [];
    });
  }

  #silence(): void {
    this.#playing?.stop();
    this.#playing = undefined;
  }

  #quiet(): void {
    this.#silence();
    this.ear.cancel();
    this.#collect(null);
    this.doing.dispatch({ proposal: null, trouble: null });
  }

  /** Strikes count as long as something is waited for, and for that only. */
  #settle(): void {
    const { stage, own } = this.get();
    const { struck } = this.doing.get();
    if (stage !== "running") {
      if (struck !== null) this.#collect(null);
      if (stage === "over") {
        this.#silence();
        this.ear.close();
      }
      return;
    }
    const isWaiting = own.call !== null && isCalled(own.call) && own.roles === "student-strikes";
    if (isWaiting && struck !== "answer") this.#collect("answer");
    if (!isWaiting && struck === "answer") this.#collect(null);
  }

  #collect(struck: Doing["struck"]): void {
    clearTimeout(this.#timer);
    this.#unhear();
    this.#hits = [];
    this.#unhear = struck === null ? () => {} : this.#hearKit(struck);
    this.doing.dispatch({ struck, count: 0 });
  }

  #hearKit(struck: "call" | "answer"): () => void {
    const log: KitLog = struck === "call" ? this.#kits.asking() : this.#kits.answering();
    let seen = log.get();
    return log.subscribe(() => {
      const fresh = log.hitsSince(seen);
      seen = log.get();
      if (fresh.length > 0) this.#struck(struck, fresh);
    });
  }

  #struck(struck: "call" | "answer", fresh: readonly Hit[]): void {
    this.#hits = [...this.#hits, ...fresh].slice(0, MOST_STROKES);
    this.doing.dispatch({ count: this.#hits.length });
    clearTimeout(this.#timer);
    const { call } = this.get().own;
    const beatMs = (call ? beatSeconds(call.tempoBpm) : 0) * 1000;
    // Within the phrase a silence may be as long as its longest one.
    const longest = struck === "answer" && call ? longestGapMs(call.strokes) : 0;
    this.#timer = setTimeout(
      () => this.#strikesOver(struck),
      Math.max(LEAST_OVER_MS, OVER_BEATS * beatMs, longest + beatMs),
    );
  }

  #strikesOver(struck: "call" | "answer"): void {
    const first = this.#hits[0]?.time ?? 0;
    const strokes = this.#hits.map(({ time, voice }) => ({ time: Math.max(0, time - first), voice }));
    this.#collect(null);
    if (strokes.length === 0) return;
    if (struck === "answer") this.#answer(strokes, "struck");
    else this.#called(strokes, null, tempoOf(strokes), "struck", null);
  }
}

/** A line that begins with a number is counted. */
export function isCountedText(text: string): boolean {
  return /^[\s(]*\d/.test(text);
}

function strokesOf(phrase: Phrase): readonly SaidStroke[] {
  const secondsPerBeat = beatSeconds(phrase.tempoBpm.low);
  return phrase.notes.map(({ position, voice }) => ({ time: toNumber(position) * secondsPerBeat, voice }));
}

/** A beat told from nothing but the strokes: their middle interval, doubled or halved until it is a beat. */
function tempoOf(strokes: readonly SaidStroke[]): Bpm {
  const gaps = strokes.slice(1).map(({ time }, at) => time - (strokes[at]?.time ?? 0));
  let bpm = 60 / (median(gaps) || 0.75);
  if (!Number.isFinite(bpm)) return 80;
  while (bpm < SLOWEST_BPM) bpm *= 2;
  while (bpm > FASTEST_BPM) bpm /= 2;
  return bpm;
}

function longestGapMs(strokes: readonly SaidStroke[]): number {
  return strokes
    .slice(1)
    .reduce((longest, { time }, at) => Math.max(longest, (time - (strokes[at]?.time ?? 0)) * 1000), 0);
}

function voiceOf(item: ShownItem, set: SyllableSet) {
  return set.syllables.find(({ voice }) => item === `syllable:${voice}`)?.voice;
}

function withFirst(set: SyllableSet, voice: string): SyllableSet {
  const first = set.syllables.filter((each) => each.voice === voice);
  return { ...set, syllables: [...first, ...set.syllables.filter((each) => each.voice !== voice)] };
}
