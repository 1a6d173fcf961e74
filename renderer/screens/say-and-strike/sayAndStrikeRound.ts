/**
 * Runs a round of Say & Strike: says phrases or hears them said, listens for what is struck, at one kit or at each student's own,
 * and hears what is said back.
 */
import {
  type AnsweredBy,
  type Answering,
  type Call,
  type CallSource,
  type Dealt,
  isCalled,
  MOST_STROKES,
  type PlayerId,
  playersAsked,
  rungResultsOf,
  type SaidStroke,
  sayAndStrikeRules,
  stillToStrike,
} from "../../../engine/rounds/index.ts";
import type { Level, Phrase } from "../../../engine/score/index.ts";
import { type LeftOff, nextRung, PhraseTextError, type SyllableSet } from "../../../engine/speech/index.ts";
import type { Bpm, Chance } from "../../../engine/units/index.ts";
import { leftOff, type PhrasesBefore } from "../../app/phrasesEarlier.ts";
import type { ReadState } from "../../app/readForLesson.ts";
import type { SoundDesk } from "../../audio/soundDesk.ts";
import type { Playing } from "../../audio/strokePlayer.ts";
import type { SyllableEar } from "../../microphone/syllableEar.ts";
import type { LessonBook } from "../../session/lessonBook.ts";
import type { SteppedRound } from "../../session/steppedRound.ts";
import { Store, type Watched, watchAll } from "../../session/store.ts";
import type { CommandActs, FramedRound, RoundOnWall } from "../round/framedRound.ts";
import { RoundOfLesson } from "../round/roundOfLesson.ts";
import { whoAnswers } from "../round/whoAnswers.ts";
import { AnswersStruck } from "./answersStruck.ts";
import { type Doing, NOTHING, type Proposal } from "./doing.ts";
import { drawnPhrase } from "./drawnPhrase.ts";
import { sayAndStrikeOnWall } from "./onWall.ts";
import { saidStrokes, strokesOf, tempoOf, typedPhrase } from "./phraseStrokes.ts";
import { isEachSeated, type SeatedKits, seatsFor } from "./seats.ts";
import { soundCall } from "./soundCall.ts";
import { speakerNow } from "./speaker.ts";
import { StruckPhrase, silenceMs } from "./struckPhrase.ts";

export class SayAndStrikeRound extends RoundOfLesson<"say-and-strike"> implements FramedRound {
  readonly ear: SyllableEar;
  readonly doing = new Store<Doing, Partial<Doing>>(NOTHING, (before, change) => ({ ...before, ...change }));
  /** The tempo of what is typed. */
  readonly tempo = new Store<Bpm, Bpm>(80, (_, next) => next);
  /** How several players answer the next time it begins. */
  readonly answering = new Store<Answering, Answering>("in-turn", (_, next) => next);
  readonly #sound: Pick<SoundDesk, "playSaid" | "playStrokes">;
  readonly #kits: SeatedKits;
  readonly levelOf: (player: PlayerId | null) => Level;
  /** What became of earlier phrases, by student. */
  readonly phrases: Watched<ReadState<PhrasesBefore | null>>;
  readonly #nicknameOf: (player: PlayerId) => string | undefined;
  readonly #syllables: Pick<Watched<SyllableSet>, "get">;
  readonly #chance: Chance;
  #playing: Playing | undefined;
  #calling: StruckPhrase | undefined;
  readonly #answers = new AnswersStruck(
    (answering) => this.doing.dispatch({ answering }),
    (strokes, by) => this.#answer(strokes, "struck", by),
  );

  constructor(
    round: SteppedRound<"say-and-strike">,
    {
      sound,
      book,
      kits,
      ear,
      levelOf,
      phrases,
      nicknameOf,
      syllables,
      chance,
    }: {
      readonly sound: Pick<SoundDesk, "playSaid" | "playStrokes">;
      readonly book: Pick<LessonBook, "log">;
      readonly kits: SeatedKits;
      readonly ear: SyllableEar;
      readonly levelOf: (player: PlayerId | null) => Level;
      readonly phrases: Watched<ReadState<PhrasesBefore | null>>;
      readonly nicknameOf: (player: PlayerId) => string | undefined;
      readonly syllables: Pick<Watched<SyllableSet>, "get">;
      readonly chance: Chance;
    },
  ) {
    super(round, book);
    this.ear = ear;
    this.#sound = sound;
    this.#kits = kits;
    this.levelOf = levelOf;
    this.phrases = phrases;
    this.#nicknameOf = nicknameOf;
    this.#syllables = syllables;
    this.#chance = chance;
    round.subscribe(() => this.#settle());
    this.#settle();
  }

  readonly begin = (dealt?: Dealt): void => {
    this.round.begin(this.players(), { answering: this.answering.get(), dealt });
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

  protected acts(): CommandActs {
    const { own } = this.get();
    const stop = (): void => this.stop();
    const acts = { "turn-round": () => this.turnRound(), stop };
    const { proposal, calling } = this.doing.get();
    if (proposal) return { ...acts, next: () => this.confirm(), again: () => this.sayAgain() };
    if (calling !== null) return acts;
    const { call } = own;
    const again = (): void => this.again();
    if (!call) return { ...acts, next: () => this.next() };
    return isCalled(call) ? { ...acts, again } : { ...acts, next: () => this.next(), again };
  }

  readonly onWall = (): RoundOnWall =>
    sayAndStrikeOnWall(this.get(), this.doing.get(), {
      isListening: this.ear.get().doing === "listening",
      nicknameOf: this.#nicknameOf,
    });

  readonly onWallChanged = (listener: () => void): (() => void) => watchAll([this.doing, this.ear], listener);

  /** Whose voice the microphone hears now. */
  speaker(): string {
    return speakerNow(this.get(), this.answerer());
  }

  /** How hard the next phrase of the program is, from 1: for several at once as hard as the one can take who takes least. */
  rung(): number {
    const { own } = this.get();
    const rungs = playersAsked(this.get()).map((by) =>
      nextRung(rungResultsOf(own, by), this.levelOf(by), this.leftOff(by)),
    );
    return Math.min(...rungs);
  }

  /** Where a player left off before this round; `null` where nothing is known of it. */
  leftOff(player: PlayerId | null): LeftOff | null {
    if (player === null) return null;
    return leftOff(player, this.phrases.get().of.get(player) ?? null, this.book.log.get());
  }

  /** The next phrase is the program's: said, or struck where the roles are turned round. */
  next(): void {
    const { stage, own, dealt } = this.get();
    if (stage !== "running" || (own.call && isCalled(own.call))) return;
    this.#quiet();
    this.#passOn();
    const rung = this.rung();
    const asked = sayAndStrikeRules.shown(own).map(({ item }) => item);
    const phrase = drawnPhrase(rung, this.#syllables.get(), { dealt, asked }, this.#chance);
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
    this.doing.dispatch({ calling: 0 });
    this.#calling = new StruckPhrase(
      this.#kits.asking(),
      silenceMs(null),
      (count) => this.doing.dispatch({ calling: count }),
      (strokes) => {
        this.#calling = undefined;
        this.doing.dispatch({ calling: null });
        this.#called(strokes, null, tempoOf(strokes), "struck", null);
      },
    );
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

  /** Whoever is to answer where one is heard at a time: who was chosen, or the first. */
  answerer(): PlayerId | null {
    const { call } = this.get().own;
    const still = call ? stillToStrike(call) : [];
    return whoAnswers(still, this.doing.get().chosen);
  }

  /** Whether each who is still waited for strikes at a kit of their own, so that nobody need say whose answer it is. */
  isSeated(): boolean {
    const { call, roles } = this.get().own;
    return roles === "student-strikes" && call !== null && isEachSeated(call, this.#kits);
  }

  /** The next answer is this player's. */
  choose(player: PlayerId | null): void {
    this.doing.dispatch({ chosen: player ?? undefined });
    this.#settle();
  }

  #read(text: string, tempoBpm: Bpm): Phrase | null {
    try {
      const phrase = typedPhrase(text, this.#syllables.get(), tempoBpm);
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
    const strokes = saidStrokes(heard, this.#syllables.get());
    if (strokes.length > 0)
      this.doing.dispatch({ proposal: { as, strokes: strokes.slice(0, MOST_STROKES), words: heard } });
  }

  #passOn(): void {
    const { answering, own } = this.get();
    if (own.call && answering === "in-turn") this.round.add({ kind: "passed-on" });
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
    this.round.add({ kind: "called", strokes, text, tempoBpm, source, rung, of: playersAsked(this.get()) });
  }

  #answer(strokes: readonly SaidStroke[], way: AnsweredBy, by = this.answerer()): void {
    this.doing.dispatch({ chosen: undefined });
    this.round.add({ kind: "answered", by, strokes, way, level: this.levelOf(by) });
  }

  #sayCall(call: Call): void {
    this.#silence();
    this.#playing = soundCall(call, this.#sound, this.#syllables.get());
  }

  #silence(): void {
    this.#playing?.stop();
    this.#playing = undefined;
  }

  #quiet(): void {
    this.#silence();
    this.ear.cancel();
    this.#calling?.stop();
    this.#calling = undefined;
    this.#answers.stop();
    this.doing.dispatch({ calling: null, chosen: undefined, proposal: null, trouble: null });
  }

  /** Strikes count as long as something is waited for, and for that only. */
  #settle(): void {
    const { stage, own } = this.get();
    if (stage !== "running") {
      this.#calling?.stop();
      this.#calling = undefined;
      this.#answers.stop();
      if (this.doing.get().calling !== null) this.doing.dispatch({ calling: null });
      if (stage === "over") {
        this.#silence();
        this.ear.close();
      }
      return;
    }
    const isStruck = own.call !== null && isCalled(own.call) && own.roles === "student-strikes";
    if (isStruck) this.#answers.hear(seatsFor(own.call, this.answerer(), this.#kits), own.call);
    else this.#answers.stop();
  }
}
