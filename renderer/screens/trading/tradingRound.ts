/**
 * Runs a round of Trading: begins the form with its click, time-keeper or the first player's own pulse, follows whose turn it is,
 * plays for players who are not there, and says of every exchange what became of the call.
 */
import { type Hit, type KitMap, noteFor } from "../../../engine/kit/index.ts";
import {
  aimOf,
  answererOf,
  type Dealt,
  MOST_PLAYERS,
  type Play,
  type PlayerId,
  type Trading,
  type TradingSet,
} from "../../../engine/rounds/index.ts";
import { beatsPerBar, FOUR_FOUR, type Level, plainClick } from "../../../engine/score/index.ts";
import {
  barAt,
  beatsAt,
  type Character,
  type Exchange,
  followedPulse,
  freeTurnAt,
  judgeExchange,
  judgePhrases,
  type PhraseHit,
  type Pulse,
  playedBy,
  type Side,
  strokesBetween,
  type Turn,
  tellForm,
  timeKeeperBar,
  turnAt,
  turnHits,
  turnsOf,
  wholeFormWords,
} from "../../../engine/trading/index.ts";
import { type Bpm, beatSeconds, type Chance, type Seconds } from "../../../engine/units/index.ts";
import type { SoundDesk } from "../../audio/soundDesk.ts";
import type { Playing } from "../../audio/strokePlayer.ts";
import type { Judge } from "../../judging/judge.ts";
import type { HeardKit } from "../../session/heardKit.ts";
import type { LessonBook } from "../../session/lessonBook.ts";
import type { SteppedRound } from "../../session/steppedRound.ts";
import { Store } from "../../session/store.ts";
import type { CommandActs, FramedRound, RoundOnWall } from "../round/framedRound.ts";
import { tradingOnWall } from "./onWall.ts";
import { NOTHING_ON, type TradingNow } from "./tradingNow.ts";

/** A kit that is heard, and at which a player who is not there may play. */
export type KitTraded = Pick<HeardKit, "log" | "kitMap" | "receive">;

/** What the round needs of the studio. */
export interface TradingPlace {
  readonly sound: Pick<SoundDesk, "playStrokes" | "startClick" | "stopClick">;
  readonly book: Pick<LessonBook, "log">;
  readonly kits: readonly [KitTraded, KitTraded];
  readonly judge: Pick<Judge, "begin" | "add" | "hear">;
  readonly levelOf: (player: PlayerId | null) => Level;
  readonly nicknameOf: (player: PlayerId) => string | undefined;
  readonly chance: Chance;
  /** The session clock. */
  readonly now: () => Seconds;
}

/** From the press to the first beat that is counted: enough for the two clocks to be joined. Our choice. */
const LEAD_SECONDS: Seconds = 1;
/** An answer is judged so many beats after its turn: its landing has come by then, and messages that were on the way. */
const JUDGED_AFTER_BEATS = 0.35;
/** A player who is not there decides so many beats before the turn what to play: what comes later belongs to that turn. */
const DECIDES_BEFORE_BEATS = 1 / 8;
/** A pulse is listened for from so many strokes on, this often, and no sooner than this after the first. Our choice. */
const FEWEST_FOR_PULSE = 6;
const LISTEN_EVERY_SECONDS: Seconds = 0.7;
const SOONEST_PULSE_SECONDS: Seconds = 1.5;
/** With fewer beats the pulse is as likely the double or the half. Our choice. */
const BEATS_FOR_PULSE = 5;
const DRUM_CHANNEL = 9;

export class TradingRound implements FramedRound {
  readonly round: SteppedRound<"trading">;
  readonly get: () => Play<Trading>;
  readonly subscribe: FramedRound["subscribe"];
  readonly on = new Store<TradingNow, Partial<TradingNow>>(NOTHING_ON, (before, change) => ({
    ...before,
    ...change,
  }));
  /** The last form that was played here to its end, for its timeline. */
  readonly last = new Store<TradingNow | null, TradingNow | null>(null, (_, next) => next);
  /** How it goes the next time it begins. */
  readonly wanted: Store<TradingSet, Partial<TradingSet>>;
  /** Why something could not be done, in a sentence. */
  readonly trouble = new Store<string | null, string | null>(null, (_, next) => next);
  readonly #place: TradingPlace;
  #timers: ReturnType<typeof setTimeout>[] = [];
  #playing: Playing[] = [];
  #stops: readonly (() => void)[] = [];
  #listenedAt: Seconds = Number.NEGATIVE_INFINITY;
  /** Counts forms: what comes too late belongs to another. */
  #forms = 0;

  constructor(round: SteppedRound<"trading">, place: TradingPlace) {
    this.round = round;
    this.get = round.get;
    this.subscribe = round.subscribe;
    this.#place = place;
    this.wanted = new Store<TradingSet, Partial<TradingSet>>(round.get().own.set, (before, change) => ({
      ...before,
      ...change,
    }));
    round.subscribe(() => this.#settle());
  }

  /** The students of the lesson that is on, as many as can play. */
  players(): readonly PlayerId[] {
    const { log } = this.#place.book;
    const { began } = log.get();
    return log.isOn && began ? began.studentIds.slice(0, MOST_PLAYERS) : [];
  }

  /** What the two are called. */
  names(): readonly [string, string] {
    const { set } = this.get().own;
    const [first, second] = this.get().players.map((id) => this.#place.nicknameOf(id));
    switch (set.kits) {
      case "two":
        return [first ?? "First kit", second ?? "Second kit"];
      case "shared":
        return [first ?? "First player", second ?? "Second player"];
      case "with-player":
        return [first ?? "You", PLAYER_NAMES.sparse];
      case "demonstration":
        return [PLAYER_NAMES.early, PLAYER_NAMES.sparse];
    }
  }

  readonly begin = (dealt?: Dealt): void => {
    this.round.begin(this.players(), { dealt });
    this.round.add({ kind: "set-out", set: this.wanted.get() });
    this.next();
  };

  /** Two players who are not there show how it goes, in less than a minute. */
  show(): void {
    this.wanted.dispatch({
      form: "twos",
      time: "time-keeper",
      kits: "demonstration",
      groove: false,
      tempoBpm: 100,
    });
    if (this.get().stage === "over") this.anew();
    this.begin();
  }

  readonly pause = (): void => {
    this.#leave();
    this.round.pause();
  };

  readonly resume = (): void => this.round.resume();

  readonly anew = (): void => {
    this.round.anew();
    // Those who only showed it do not stay.
    if (this.wanted.get().kits === "demonstration") this.wanted.dispatch({ kits: "with-player" });
  };

  readonly commands = (): CommandActs => {
    const { stage, own } = this.get();
    const stop = (): void => this.stop();
    if (stage === "paused") return { stop };
    if (stage !== "running") return {};
    if (!this.isOn) {
      const next = (): void => this.next();
      return { next, "turn-round": () => this.turnRound(), stop };
    }
    const again = (): void => {
      this.#leave();
      this.next();
    };
    return own.set.form === "free"
      ? { next: () => this.#passOn(this.#place.now()), again, stop }
      : { again, stop };
  };

  readonly onWall = (): RoundOnWall => tradingOnWall(this.get(), this.on.get(), this.names());

  readonly onWallChanged = (listener: () => void): (() => void) => this.on.subscribe(listener);

  /** Whether a form is being played in this window. */
  get isOn(): boolean {
    return this.on.get().turns.length > 0;
  }

  /** Begins the form from its top. */
  next(): void {
    if (this.get().stage !== "running" || this.isOn) return;
    // A form that stands in the log as under way was broken off with the program.
    this.round.add({ kind: "form-left" });
    if (this.round.add({ kind: "form-began" })) this.#beginForm();
  }

  turnRound(): void {
    this.round.add({ kind: "turned-round" });
  }

  stop(): void {
    this.#leave();
    this.round.stop();
  }

  #beginForm(): void {
    const { set, calls } = this.get().own;
    this.#forms += 1;
    this.trouble.dispatch(null);
    this.last.dispatch(null);
    const turns = turnsOf(set.form, { groove: set.groove, calls });
    const counted = beatsPerBar(FOUR_FOUR) * beatSeconds(set.tempoBpm);
    const from = this.#place.now() + LEAD_SECONDS + counted;
    const isOwnPulse = set.time === "first-player" && this.#characterOf(calls) === null;
    const pulse: Pulse | null = isOwnPulse ? null : { from, tempoBpm: set.tempoBpm, metre: FOUR_FOUR };
    this.on.dispatch({ ...NOTHING_ON, turns, pulse, began: set.form === "free" && pulse ? [from] : [] });
    this.#hearKits();
    if (!pulse) {
      this.#place.judge.begin(null, []);
      return;
    }
    this.#keepTime(pulse, counted);
    this.#follow();
    this.#decideSoon(0);
  }

  /** Sounds the click or the time-keeper, with a bar before the first one. */
  #keepTime(pulse: Pulse, counted: Seconds): void {
    const { set } = this.get().own;
    const { from, tempoBpm, metre } = pulse;
    if (set.time === "click")
      void this.#place.sound.startClick({ way: plainClick(metre), tempoBpm, from, countInBars: 1 });
    if (set.time === "time-keeper")
      this.#playing.push(
        this.#place.sound.playStrokes(
          timeKeeperBar(pulse).map((stroke) => ({ ...stroke, zone: "whole" as const })),
          { from: from - counted, loopSeconds: counted },
        ),
      );
  }

  #hearKits(): void {
    const { kits } = this.get().own.set;
    const ears = kits === "shared" ? [this.#place.kits[0]] : this.#place.kits;
    this.#stops = ears.map(({ log }, at) => {
      let seen = log.get();
      return log.subscribe(() => {
        const fresh = log.hitsSince(seen);
        seen = log.get();
        if (fresh.length > 0) this.#struck(fresh, kits === "shared" ? null : at === 0 ? 0 : 1);
      });
    });
  }

  #struck(fresh: readonly Hit[], side: Side | null): void {
    const { hits, pulse, at } = this.on.get();
    this.on.dispatch({ hits: [...hits, ...fresh.map((hit) => ({ ...hit, side }))] });
    const { form } = this.get().own.set;
    if (!pulse) this.#listenForPulse(fresh);
    const first = fresh[0];
    // In a free form whoever plays has the turn.
    if (form === "free" && first && side !== null && at?.stage === "on" && side !== at.turn.side)
      this.#passOn(first.time);
  }

  /** The first player's own pulse: thought about beside the page. */
  #listenForPulse(fresh: readonly Hit[]): void {
    const { judge, now } = this.#place;
    judge.add(fresh);
    const { hits } = this.on.get();
    const first = hits[0];
    if (!first || hits.length < FEWEST_FOR_PULSE || now() - first.time < SOONEST_PULSE_SECONDS) return;
    if (now() - this.#listenedAt < LISTEN_EVERY_SECONDS) return;
    this.#listenedAt = now();
    const form = this.#forms;
    judge.hear().then(
      (hearing) => {
        if (form !== this.#forms || this.on.get().pulse || hearing.kind !== "heard") return;
        const tempoBpm = nearestOctave(hearing.pulse.tempoBpm, this.get().own.set.tempoBpm);
        const beat = beatSeconds(tempoBpm);
        if (now() - first.time < BEATS_FOR_PULSE * beat) return;
        // The first player begins on the one: of so few bars that is surer than which beat is heard as the one.
        const metre = FOUR_FOUR;
        const bar = beatsPerBar(metre) * beat;
        let from = first.time;
        const bars = this.on.get().turns[0]?.bars ?? 0;
        // What was heard too late for this turn goes on to the next line.
        while (bars > 0 && from + bars * bar < now() + DECIDES_BEFORE_BEATS * beat) from += bar;
        this.on.dispatch({
          pulse: { from, tempoBpm, metre },
          began: this.get().own.set.form === "free" ? [first.time] : [],
        });
        this.#follow();
        this.#decideSoon(0);
      },
      (error: unknown) => {
        if (form === this.#forms)
          this.trouble.dispatch(
            `The pulse could not be heard (${error instanceof Error ? error.message : String(error)}). Choose a click, then begin again.`,
          );
      },
    );
  }

  /**
   * Tells whose turn it is, beat by beat.
   *
   * @param due when it was to be told: a timer may wake a little too soon, and the beat has come all the same.
   */
  #follow(due: Seconds = Number.NEGATIVE_INFINITY): void {
    const { turns, pulse, began, at: before } = this.on.get();
    if (!pulse) return;
    const now = Math.max(this.#place.now(), due);
    const isFree = this.get().own.set.form === "free";
    const at = isFree ? freeTurnAt(turns, began, pulse, now) : turnAt(turns, pulse, now);
    this.on.dispatch({ at });
    if (
      before?.stage === "on" &&
      !isFree &&
      (at.stage === "after" || (at.stage === "on" && at.index > before.index))
    )
      this.#turnOver(before.index);
    if (at.stage === "after") return;
    const after = this.on.get().pulse ?? pulse;
    const beat = Math.floor(beatsAt(after, now) + 1e-3) + 1;
    const next = after.from + beat * beatSeconds(after.tempoBpm);
    this.#at(next, () => this.#follow(next));
  }

  #turnOver(index: number): void {
    const { turns, pulse, played, hits } = this.on.get();
    const turn = turns[index];
    if (!turn || !pulse) return;
    this.on.dispatch({ played: [...played, { turn, pulse }] });
    const isLast = index === turns.length - 1;
    const call = played.at(-1);
    this.#at(
      barAt(pulse, turn.fromBar + (turn.bars ?? 0)) + JUDGED_AFTER_BEATS * beatSeconds(pulse.tempoBpm),
      () => {
        if (turn.part === "answer" && call) this.#judge(call.turn, turn, pulse);
        if (isLast) this.#formOver();
      },
    );
    if (this.get().own.set.time === "first-player" && !isLast)
      this.on.dispatch({ pulse: followedPulse(pulse, hits, turn) });
    this.#decideSoon(index + 1);
  }

  #judge(call: Turn, answer: Turn, pulse: Pulse): void {
    const { own, players, dealt } = this.get();
    const by = answererOf(own, players);
    const aim = aimOf(own.set, answer.exchange, dealt);
    const level = this.#place.levelOf(by);
    this.#say(judgeExchange(this.on.get().hits, { call, answer }, pulse, { aim, level }), by);
  }

  #say(exchange: Exchange, by: PlayerId | null): void {
    const { calls } = this.get().own;
    const { aim, met, comparison, handOverMs, says } = exchange;
    this.round.add({
      kind: "exchanged",
      aim,
      calls,
      by,
      met,
      rhythm: comparison.rhythm.holds,
      sound: comparison.sound.holds,
      handOverMs: handOverMs === null ? null : Math.round(handOverMs * 10) / 10,
      says,
    });
  }

  /** In a free form the turn is passed on, by hand or by whoever begins to play. */
  #passOn(time: Seconds): void {
    const { turns, began, pulse, hits } = this.on.get();
    const { own, players, dealt } = this.get();
    if (!pulse || began.length >= turns.length) return;
    const over = turns[began.length - 1];
    const from = began.at(-1);
    if (over?.part === "answer" && from !== undefined) {
      const beat = beatSeconds(pulse.tempoBpm);
      const callFrom = began.at(-2) ?? from;
      const called = strokesBetween(hits, over.side === 0 ? 1 : 0, { from: callFrom, until: from, beat });
      const answered = strokesBetween(hits, over.side, { from, until: time, beat });
      const by = answererOf(own, players);
      const how = { aim: aimOf(own.set, over.exchange, dealt), level: this.#place.levelOf(by), ...pulse };
      this.#say(judgePhrases(called.phrase, answered.phrase, how), by);
    }
    this.on.dispatch({ began: [...began, time] });
    this.#follow();
  }

  #formOver(): void {
    const { hits, played } = this.on.get();
    const says = wholeFormWords(tellForm(hits, played), this.names());
    this.last.dispatch(this.on.get());
    this.#silence();
    this.round.add({ kind: "form-over", says });
  }

  /** Which player, who is not there, has this side; `null` where somebody sits there. */
  #characterOf(side: Side): Character | null {
    const { kits } = this.get().own.set;
    if (kits === "demonstration") return side === 0 ? "early" : "sparse";
    return kits === "with-player" && side === 1 ? "sparse" : null;
  }

  /** A player who is not there decides just before the turn what to play. */
  #decideSoon(index: number): void {
    const { turns, pulse } = this.on.get();
    const turn = turns[index];
    if (!turn || !pulse || turn.part === "groove" || turn.bars === null) return;
    const character = this.#characterOf(turn.side);
    if (character === null) return;
    const before = barAt(pulse, turn.fromBar) - DECIDES_BEFORE_BEATS * beatSeconds(pulse.tempoBpm);
    // The turn before this one is over only at the line: what was called is asked for when it is decided.
    this.#at(before, () => this.#decide(index, turn, character));
  }

  #decide(index: number, turn: Turn, character: Character): void {
    const { turns, pulse, hits } = this.on.get();
    if (!pulse) return;
    const call = turn.part === "answer" ? turns[index - 1] : undefined;
    const phrase = playedBy({
      character,
      turn,
      pulse,
      called: call ? { turn: call, phrase: turnHits(hits, call, pulse).phrase } : null,
      aim: aimOf(this.get().own.set, turn.exchange, this.get().dealt),
      chance: this.#place.chance,
    });
    this.#play(phrase, turn.side, barAt(pulse, turn.fromBar));
  }

  /** Sounds a phrase ahead of time, and lets each stroke come in at its kit when it is due. */
  #play(phrase: readonly PhraseHit[], side: Side, from: Seconds): void {
    this.#playing.push(
      this.#place.sound.playStrokes(
        phrase.map((stroke) => ({ ...stroke, zone: "whole" as const, time: stroke.time - from })),
        { from },
      ),
    );
    const kit = this.#place.kits[side];
    for (const stroke of phrase)
      this.#at(stroke.time, () => {
        const message = messageOf(stroke, kit.kitMap.get().map);
        if (message) kit.receive([{ time: stroke.time, message }], "demonstration");
      });
  }

  #at(moment: Seconds, act: () => void): void {
    const timer = setTimeout(act, Math.max(0, (moment - this.#place.now()) * 1000));
    this.#timers.push(timer);
  }

  /** Breaks the form off; its exchanges stay. */
  #leave(): void {
    if (!this.isOn) return;
    this.#silence();
    this.round.add({ kind: "form-left" });
  }

  #silence(): void {
    this.#forms += 1;
    for (const timer of this.#timers) clearTimeout(timer);
    for (const playing of this.#playing) playing.stop();
    for (const stop of this.#stops) stop();
    this.#place.sound.stopClick();
    this.#timers = [];
    this.#playing = [];
    this.#stops = [];
    this.on.dispatch(NOTHING_ON);
  }

  /** The page is left: nobody sees whose turn it is. */
  leavePage(): void {
    this.#leave();
  }

  /** It may be ended from elsewhere: the desk, another round, the end of the lesson. */
  #settle(): void {
    if (this.get().stage !== "running" && this.isOn) this.#silence();
  }
}

/** The tempo, its double or its half, whichever is nearest to about how fast it is meant to go. */
function nearestOctave(tempoBpm: Bpm, aboutBpm: Bpm): Bpm {
  return tempoBpm * 2 ** Math.round(Math.log2(aboutBpm / tempoBpm));
}

/** What the players are called who are not there. */
export const PLAYER_NAMES: Readonly<Record<Character, string>> = {
  early: "The early one",
  sparse: "The sparse one",
};

function messageOf({ voice, velocity }: PhraseHit, map: KitMap) {
  const note = noteFor(map, voice);
  if (note === undefined) return undefined;
  const strength = Math.min(127, Math.max(1, Math.round(velocity * 127)));
  return { kind: "note-on" as const, channel: DRUM_CHANNEL, note, velocity: strength };
}
