/**
 * The turns of players who are not there: each decides just before its line what to play, and is laid out in bars even where the
 * form is free.
 */
import { aimOf, type Play, type Trading } from "../../../engine/rounds/index.ts";
import { beatsPerBar } from "../../../engine/score/index.ts";
import {
  barAt,
  beatsAt,
  type Character,
  followedPulse,
  freeTurnOn,
  isPhrase,
  type Pulse,
  playedBy,
  type Side,
  type Turn,
  turnHits,
  turnOn,
} from "../../../engine/trading/index.ts";
import { beatSeconds, type Seconds } from "../../../engine/units/index.ts";
import { characterOf, playAt } from "./absentPlayers.ts";
import type { TradingNow } from "./tradingNow.ts";
import type { TradingPlace } from "./tradingPlace.ts";

/** A player who is not there decides so many beats before the turn what to play: what comes later belongs to that turn. */
export const DECIDES_BEFORE_BEATS = 1 / 8;
/** A player who is not there calls so many bars in a free form. Our choice. */
const FREE_CALL_BARS = 2;

export interface AbsentTurnsParts {
  readonly now: () => TradingNow;
  readonly play: () => Play<Trading>;
  readonly place: TradingPlace;
  readonly isFree: boolean;
  /** Does something at a moment, unless the form is over by then. */
  readonly at: (moment: Seconds, act: () => void) => void;
  /** Something is played: this stops it when the form is over. */
  readonly playing: (stop: () => void) => void;
}

export class AbsentTurns {
  readonly #parts: AbsentTurnsParts;

  constructor(parts: AbsentTurnsParts) {
    this.#parts = parts;
  }

  /** Which player, who is not there, has this side. */
  character(side: Side): Character | null {
    return characterOf(this.#parts.play().own.set.kits, side);
  }

  /** Just before the line of the turn it is decided what to play. */
  decideSoon(index: number): void {
    const { turns, pulse, passesAt } = this.#parts.now();
    const turn = turns[index];
    if (!turn || !pulse || !isPhrase(turn)) return;
    const character = this.character(turn.side);
    if (character === null) return;
    const line = this.#parts.isFree ? (passesAt ?? pulse.from) : barAt(pulse, turn.fromBar);
    const before = line - DECIDES_BEFORE_BEATS * beatSeconds(pulse.tempoBpm);
    this.#parts.at(before, () => this.#decide(index, turn, character));
  }

  /** In a free form such a turn goes on at a line that is known when it begins; `null` where somebody is there. */
  endsAt(index: number): Seconds | null {
    const { turns, pulse } = this.#parts.now();
    const turn = turns[index];
    if (!this.#parts.isFree || !turn || !pulse || this.character(turn.side) === null) return null;
    const { fromBar, bars } = this.#laidOut(index, turn, pulse);
    return barAt(pulse, fromBar + (bars ?? 0));
  }

  #decide(index: number, turn: Turn, character: Character): void {
    const { place, at, playing } = this.#parts;
    const { turns, pulse: now, hits } = this.#parts.now();
    if (!now) return;
    const { own, dealt } = this.#parts.play();
    const before = turns[index - 1];
    const isFollowed = own.set.time === "first-player" && !this.#parts.isFree && before !== undefined;
    // The turn before this one is over only at the line; where the players have the pulse then is known by now.
    const pulse = isFollowed ? followedPulse(hits, turnOn(before, now)) : now;
    const laidOut = this.#laidOut(index, turn, pulse);
    const phrase = playedBy({
      character,
      turn: laidOut,
      pulse,
      called: turn.part === "answer" ? this.#called(index, pulse) : null,
      aim: aimOf(own.set, turn.exchange, dealt),
      chance: place.chance,
    });
    const { sound } = place;
    const on = playAt(place.kits[turn.side], phrase, barAt(pulse, laidOut.fromBar), { sound, at });
    playing(() => on.stop());
  }

  /** The turn with its bars: in a free form it begins with a bar, and lasts as long as was called. */
  #laidOut(index: number, turn: Turn, pulse: Pulse): Turn {
    if (turn.bars !== null) return turn;
    const { began, passesAt } = this.#parts.now();
    const inBar = beatsPerBar(pulse.metre);
    const line = began[index] ?? passesAt ?? pulse.from;
    const fromBar = Math.max(0, Math.round(beatsAt(pulse, line) / inBar));
    const called = turn.part === "answer" ? this.#called(index, pulse) : null;
    return {
      ...turn,
      fromBar,
      bars: called ? Math.max(1, fromBar - called.turn.fromBar) : FREE_CALL_BARS,
    };
  }

  /** The call that is answered in a turn, which may be over only at the line; in a free form with the bar of its first stroke. */
  #called(index: number, pulse: Pulse) {
    const { turns, hits, played, began, passesAt } = this.#parts.now();
    const exchange = turns[index]?.exchange;
    const isCall = (turn: Turn): boolean => turn.exchange === exchange && turn.part === "call";
    const over = played.find(({ turn }) => isCall(turn));
    const planned = turns.find(isCall);
    if (!planned) return null;
    const span = { from: began[index - 1] ?? pulse.from, until: began[index] ?? passesAt ?? pulse.from };
    const call = over ?? (this.#parts.isFree ? freeTurnOn(planned, pulse, span) : turnOn(planned, pulse));
    const { phrase } = turnHits(hits, call);
    const [first] = phrase;
    if (!this.#parts.isFree || !first) return { turn: call.turn, phrase };
    const fromBar = Math.round(beatsAt(pulse, first.time) / beatsPerBar(pulse.metre));
    return { turn: { ...call.turn, fromBar }, phrase };
  }
}
