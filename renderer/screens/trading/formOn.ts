/**
 * A form while it is played: it follows whose turn it is, hears the kits, lets players who are not there play, and tells each
 * exchange and, in the end, the whole.
 */
import type { Hit } from "../../../engine/kit/index.ts";
import type { Heard } from "../../../engine/listening/index.ts";
import type { Presence } from "../../../engine/rooms/index.ts";
import { metreSaid, type Play, type Trading } from "../../../engine/rounds/index.ts";
import { beatsPerBar, FOUR_FOUR } from "../../../engine/score/index.ts";
import {
  barAt,
  beatsAt,
  EARLY_BEATS,
  firstPulse,
  firstPulseWords,
  followedPulse,
  freeTurnAt,
  freeTurnOn,
  LANDING_BEATS,
  type PlayedTurn,
  type Pulse,
  type Side,
  type TurnNow,
  turnAt,
  turnOn,
  turnsOf,
  type Way,
} from "../../../engine/trading/index.ts";
import { beatSeconds, type Milliseconds, type Seconds } from "../../../engine/units/index.ts";
import type { SteppedRound } from "../../session/steppedRound.ts";
import type { Store } from "../../session/store.ts";
import { AbsentTurns, DECIDES_BEFORE_BEATS } from "./absentTurns.ts";
import { FarWatch } from "./farWatch.ts";
import { exchanged, formWords } from "./formTold.ts";
import { PulseEar } from "./pulseEar.ts";
import { countedSeconds, keepTime } from "./timeKept.ts";
import { NOTHING_ON, type TradingNow } from "./tradingNow.ts";
import type { TradingPlace } from "./tradingPlace.ts";

/** From the press to the first beat that is counted: enough for the two clocks to be joined. Our choice. */
const LEAD_SECONDS: Seconds = 1;
/** An answer is judged so many beats after its turn: its landing has come by then, and messages that were on the way. */
const JUDGED_AFTER_BEATS = 0.35;
/** With fewer beats the pulse is as likely the double or the half. Our choice. */
const BEATS_FOR_PULSE = 5;
/** What is not clear by then is said to be so: two bars of four are nearly over. Our choice. */
const BEATS_TO_BE_SURE = 7;
/** A form that is traded with another place. */
export interface FarOver {
  readonly way: Way;
  /** The first bar line here. */
  readonly line: Seconds;
  /** Told when the form is over; `isLeft`: it was broken off here. */
  readonly ended: (isLeft: boolean) => void;
  /** Whether the far player is there. */
  readonly presence: () => Presence;
  /** Within how much the clocks of the two places are known now. */
  readonly clockSeconds: () => Seconds;
}

export interface FormParts {
  readonly round: SteppedRound<"trading">;
  readonly on: Store<TradingNow, Partial<TradingNow>>;
  readonly place: TradingPlace;
  readonly names: () => readonly [string, string];
  /** How it goes over to another place and back; `null` where both play here. */
  readonly over: FarOver | null;
  /** Takes a sentence about what could not be done, or is not sure. */
  readonly trouble: (sentence: string) => void;
}

export class FormOn {
  readonly #parts: FormParts;
  readonly #isFree: boolean;
  readonly #absent: AbsentTurns;
  #timers: ReturnType<typeof setTimeout>[] = [];
  #stops: (() => void)[] = [];
  #ear: PulseEar | undefined;
  /** The strokes before these are told of. */
  #told = 0;
  #isOver = false;
  readonly #far: FarWatch | null;
  /** An exchange is over that is not told yet: what was played far away may still come. */
  #isHeld = false;
  /** All turns are over. */
  #isPlayedOut = false;

  /** Begins it. Call it from the user's own action, because of the sound. */
  constructor(parts: FormParts) {
    this.#parts = parts;
    const { set, calls } = this.#play().own;
    this.#isFree = set.form === "free";
    this.#absent = new AbsentTurns({
      now: parts.on.get,
      play: () => this.#play(),
      place: parts.place,
      isFree: this.#isFree,
      at: (moment, act) => this.#at(moment, act),
      playing: (stop) => this.#stops.push(stop),
    });
    const metre = metreSaid(set) ?? FOUR_FOUR;
    const turns = turnsOf(set.form, {
      groove: set.groove,
      calls,
      ...(parts.over ? { way: parts.over.way } : {}),
    });
    const counted = countedSeconds({ metre, tempoBpm: set.tempoBpm });
    const from = parts.over?.line ?? parts.place.now() + LEAD_SECONDS + counted;
    const isOwnPulse = set.time === "first-player" && this.#absent.character(calls) === null;
    const pulse: Pulse | null = isOwnPulse ? null : { from, tempoBpm: set.tempoBpm, metre };
    parts.on.dispatch({ ...NOTHING_ON, turns, pulse, began: this.#isFree && pulse ? [from] : [] });
    this.#hearKits();
    this.#far = parts.over && this.#watch(parts.over);
    if (pulse) {
      this.#stops.push(keepTime(parts.place.sound, set.time, pulse));
      this.#goOn();
    } else
      this.#ear = new PulseEar(
        parts.place,
        (hearing, first) => this.#pulseHeard(hearing, first),
        parts.trouble,
      );
  }

  /** Whether the turn of a free form can be passed on by hand: not within that of a player who is not there. */
  get canPassOn(): boolean {
    const { turns, began, at, passesAt } = this.#parts.on.get();
    return this.#isFree && at?.stage === "on" && passesAt === null && began.length < turns.length;
  }

  /**
   * In a free form the turn is passed on by hand: what is struck before is the one's, and what comes after the other's. A player
   * who is not there begins with the next bar.
   */
  passOn(time: Seconds): void {
    const { turns, began, pulse } = this.#parts.on.get();
    const next = turns[began.length];
    if (!this.canPassOn || !next || !pulse) return;
    if (this.#absent.character(next.side) === null) this.#pass(passedByHand(time, pulse));
    else this.#passAt(barAt(pulse, Math.max(0, Math.ceil(decidedBars(pulse, time)))));
  }

  /** Ends a free form where it is, and tells it; one that has its own end is broken off. Its exchanges stay. */
  end(): void {
    if (this.#isOver) return;
    const { on, place } = this.#parts;
    const { hits, pulse } = on.get();
    if (this.#isFree && hits.length > 0 && pulse) this.#closeTurn(passedByHand(place.now(), pulse));
    if (this.#isFree && on.get().played.length > 0) this.#tellWhole([], true);
    else this.#leave();
  }

  /** Nobody waits any longer for the far kit, which is gone: it ends with what was heard so far. */
  endWithoutFar(): void {
    if (this.#parts.on.get().gone) this.#far?.giveUp();
  }

  /** The form was left at the other place: it ends here as well. */
  leftThere(): void {
    this.#endedThere(`${this.#parts.names()[1]} has left the form.`);
  }

  /** Nothing of it goes on. `isLeft`: it was broken off here. */
  silence(isLeft = true): void {
    if (this.#isOver) return;
    this.#isOver = true;
    this.#far?.stop();
    this.#parts.over?.ended(isLeft);
    this.#ear?.stop();
    for (const timer of this.#timers) clearTimeout(timer);
    for (const stop of this.#stops) stop();
    this.#timers = [];
    this.#stops = [];
    this.#parts.on.dispatch(NOTHING_ON);
  }

  #leave(isLeft = true): void {
    this.silence(isLeft);
    this.#parts.round.add({ kind: "form-left" });
  }

  #watch({ presence }: FarOver): FarWatch {
    const { on, names, place, trouble } = this.#parts;
    return new FarWatch({
      presence,
      name: () => names()[1],
      now: place.now,
      changed: (gone) => on.dispatch({ gone }),
      back: trouble,
      ended: (sentence) => this.#endedThere(sentence),
      looked: () => this.#tellHeld(),
    });
  }

  /** Without the other place: what was heard so far is told. */
  #endedThere(why: string): void {
    if (this.#isOver) return;
    const { on, trouble } = this.#parts;
    if (on.get().played.length > 0) {
      this.#tellWhole([`${why} This is what was heard until then.`]);
      return;
    }
    this.#leave(false);
    trouble(why);
  }

  #play(): Play<Trading> {
    return this.#parts.round.get();
  }

  #hearKits(): void {
    const { kits } = this.#play().own.set;
    const ears = kits === "shared" ? [this.#parts.place.kits[0]] : this.#parts.place.kits;
    this.#stops = ears.map(({ log }, at) =>
      log.hear((fresh) => this.#struck(fresh, kits === "shared" ? null : at === 0 ? 0 : 1)),
    );
  }

  #struck(fresh: readonly Hit[], side: Side | null): void {
    const { hits, pulse, at, began } = this.#parts.on.get();
    this.#parts.on.dispatch({ hits: [...hits, ...fresh.map((hit) => ({ ...hit, side }))] });
    if (!pulse) this.#ear?.add(fresh);
    const first = fresh[0];
    if (!this.#isFree || !pulse || !first || at?.stage !== "on") return;
    if (side === null || side === at.turn.side) return;
    // Beside a player who is not there turns go by bar lines: a pick-up, or a last stroke, does not take theirs away.
    if (this.#absent.character(0) !== null || this.#absent.character(1) !== null) return;
    // Whoever plays has the turn; but what comes with the other's first stroke is the landing of the turn before.
    const landed = (began.at(-1) ?? pulse.from) + LANDING_BEATS * beatSeconds(pulse.tempoBpm);
    if (began.length < 2 || first.time > landed) this.#pass(first.time);
  }

  #pulseHeard(hearing: Heard, first: Seconds): void {
    const { on, place, trouble } = this.#parts;
    const { set } = this.#play().own;
    const heard = firstPulse(hearing, first, { aboutBpm: set.tempoBpm, metre: metreSaid(set) });
    const { tempoBpm, metre } = heard.pulse;
    const beats = (place.now() - first) / beatSeconds(tempoBpm);
    if (beats < (heard.isOneSure ? BEATS_FOR_PULSE : BEATS_TO_BE_SURE)) return;
    this.#ear?.stop();
    for (const sentence of firstPulseWords(heard)) trouble(sentence);
    const bar = countedSeconds({ tempoBpm, metre });
    let { from } = heard.pulse;
    const bars = on.get().turns[0]?.bars ?? 0;
    // What was heard too late for this turn goes on to the next line.
    while (bars > 0 && from + bars * bar < place.now() + DECIDES_BEFORE_BEATS * beatSeconds(tempoBpm))
      from += bar;
    on.dispatch({ pulse: { from, tempoBpm, metre }, began: this.#isFree ? [first] : [] });
    this.#goOn();
  }

  #goOn(): void {
    this.#absent.decideSoon(0);
    this.#untilItsLine(0);
    this.#follow();
  }

  /**
   * Tells whose turn it is, beat by beat.
   *
   * @param due when it was to be told: a timer may wake a little too soon, and the beat has come all the same.
   */
  #follow(due: Seconds = Number.NEGATIVE_INFINITY): void {
    const { on, place } = this.#parts;
    const { turns, pulse, began, passesAt, at: before } = on.get();
    if (!pulse) return;
    const now = Math.max(place.now(), due);
    const at = this.#isFree ? freeTurnAt(turns, began, pulse, now, passesAt) : turnAt(turns, pulse, now);
    on.dispatch({ at });
    if (!this.#isFree && indexOf(at) !== indexOf(before)) {
      if (before?.stage === "on") this.#turnOver(turnOn(before.turn, pulse), before.next === null);
      if (at.stage === "on") this.#absent.decideSoon(at.index + 1);
    }
    if (at.stage === "after") return;
    const after = on.get().pulse ?? pulse;
    const beat = Math.floor(beatsAt(after, now) + 1e-3) + 1;
    const next = after.from + beat * beatSeconds(after.tempoBpm);
    this.#at(next, () => this.#follow(next));
  }

  /** The turn of a free form goes on at this line, which a player who is not there has to know before. */
  #passAt(line: Seconds): void {
    const { on } = this.#parts;
    on.dispatch({ passesAt: line });
    this.#absent.decideSoon(on.get().began.length);
    this.#at(line, () => this.#pass(line));
  }

  #pass(time: Seconds): void {
    const { on } = this.#parts;
    const { turns, began } = on.get();
    if (began.length >= turns.length || !this.#closeTurn(time)) return;
    on.dispatch({ began: [...began, time], passesAt: null });
    this.#untilItsLine(began.length);
    this.#follow(time);
  }

  /** In a free form a player who is not there passes the turn on at a line that is known when it begins. */
  #untilItsLine(index: number): void {
    const line = this.#absent.endsAt(index);
    if (line !== null) this.#passAt(line);
  }

  /** Closes the turn that is on in a free form. False where none has begun. */
  #closeTurn(until: Seconds): boolean {
    const { turns, began, pulse } = this.#parts.on.get();
    const turn = turns[began.length - 1];
    const from = began.at(-1);
    if (!turn || !pulse || from === undefined || from > until) return false;
    this.#turnOver(freeTurnOn(turn, pulse, { from, until }), false);
    return true;
  }

  #turnOver(over: PlayedTurn, isLast: boolean): void {
    const { on } = this.#parts;
    const { played, hits } = on.get();
    const { pulse, until } = over;
    on.dispatch({ played: [...played, over] });
    this.#at(until + JUDGED_AFTER_BEATS * beatSeconds(pulse.tempoBpm), () => {
      this.#isPlayedOut ||= isLast;
      this.#isHeld = true;
      this.#tellHeld();
    });
    if (this.#play().own.set.time === "first-player" && !isLast)
      on.dispatch({ pulse: followedPulse(hits, over) });
  }

  /** Tells what can be told by now. Of what was played far away all must be here. */
  #tellHeld(): void {
    if (this.#isOver || !this.#isHeld) return;
    this.#isHeld = !this.#tellExchanges();
    if (!this.#isHeld && this.#isPlayedOut) this.#tellWhole();
  }

  /** Tells the exchanges that are over and were not told yet. False where one is held back. */
  #tellExchanges(): boolean {
    const { played } = this.#parts.on.get();
    const told = this.#play().own.exchanges.length;
    const heardUntil = this.#far?.heardUntil ?? Number.POSITIVE_INFINITY;
    for (const answer of played) {
      const { part, exchange } = answer.turn;
      if (part !== "answer" || exchange < told) continue;
      if (answer.until > heardUntil) return false;
      const call = played.find(({ turn }) => turn.part === "call" && turn.exchange === exchange);
      if (call) this.#tellExchange(call, answer);
    }
    return true;
  }

  #tellExchange(call: PlayedTurn, answer: PlayedTurn): void {
    const { on, round, place } = this.#parts;
    const { hits } = on.get();
    const fresh = hits.slice(this.#told);
    this.#told = hits.length;
    round.add(
      exchanged({ call, answer }, on.get(), this.#play(), { place, fresh, clockMs: this.#clockMs() }),
    );
  }

  #clockMs(): Milliseconds {
    return (this.#parts.over?.clockSeconds() ?? 0) * 1000;
  }

  /** @param before what is said first. @param isLeft whether it was ended by hand here. */
  #tellWhole(before: readonly string[] = [], isLeft = false): void {
    const { on, round, names } = this.#parts;
    this.#tellExchanges();
    const { hits, played } = on.get();
    const says = [...before, ...formWords({ hits, played }, names(), this.#clockMs())];
    this.silence(isLeft);
    round.add({ kind: "form-over", says });
  }

  #at(moment: Seconds, act: () => void): void {
    const timer = setTimeout(act, Math.max(0, (moment - this.#parts.place.now()) * 1000));
    this.#timers.push(timer);
  }
}

/** Its place among the turns; `undefined` where none is on. */
function indexOf(at: TurnNow | null): number | undefined {
  return at?.stage === "on" ? at.index : undefined;
}

/** Where the turn goes on that is passed on by hand: all that was struck before the press is still of this turn. */
function passedByHand(time: Seconds, pulse: Pulse): Seconds {
  return time + EARLY_BEATS * beatSeconds(pulse.tempoBpm);
}

/** Bars since the first line, at the moment by which a player who begins with the next bar has decided. */
function decidedBars(pulse: Pulse, time: Seconds): number {
  return (beatsAt(pulse, time) + DECIDES_BEFORE_BEATS) / beatsPerBar(pulse.metre);
}
