/**
 * Question: whose turn is it at this moment, and how many bars are left?
 * A pure function of the form, the pulse and the time: the same on every screen, in every place, live and in Replay. Where hits
 * come from plays no part in it.
 */
import { beatsPerBar, type Metre } from "../score/index.ts";
import { type Bpm, beatSeconds, type Seconds } from "../units/index.ts";
import type { Turn } from "./form.ts";

/** A pulse on the clock of the strikes: beat 0 is the first one of the form. */
export interface Pulse {
  readonly from: Seconds;
  readonly tempoBpm: Bpm;
  readonly metre: Metre;
}

/** The moment a bar begins. */
export function barAt({ from, tempoBpm, metre }: Pulse, bar: number): Seconds {
  return from + bar * beatsPerBar(metre) * beatSeconds(tempoBpm);
}

/** Beats since the first one; negative before it. */
export function beatsAt({ from, tempoBpm }: Pulse, time: Seconds): number {
  return (time - from) / beatSeconds(tempoBpm);
}

export type TurnNow =
  /** Counting in. */
  | { readonly stage: "before"; readonly beatsLeft: number; readonly next: Turn }
  | {
      readonly stage: "on";
      /** Its place among the turns. */
      readonly index: number;
      readonly turn: Turn;
      /** The bar of the turn, from 1. */
      readonly bar: number;
      /** Bars that are not over, the one that is being played among them; `null` where nobody knows yet, in a free form. */
      readonly barsLeft: number | null;
      /** The beat of the bar, from 1. */
      readonly beat: number;
      /** How much of the bar is over, 0 to 1. */
      readonly shareOfBar: number;
      /** Whose turn comes after it; `null` for the last one. */
      readonly next: Turn | null;
    }
  | { readonly stage: "after" };

/** A moment this near to a bar line stands on it: differences of seconds are not exact. */
const ON_THE_LINE = 1e-6;

/**
 * Whose turn it is.
 *
 * @param turns of a form with bars; a free form's turns are passed on by hand, see {@link freeTurnAt}.
 * @example
 * const turns = turnsOf("twos", { groove: false, calls: 0 });
 * const now = turnAt(turns, { from: 0, tempoBpm: 120, metre: FOUR_FOUR }, 5);
 * [now.turn.side, now.bar, now.beat] // => [1, 1, 3]
 */
export function turnAt(turns: readonly Turn[], pulse: Pulse, time: Seconds): TurnNow {
  const [first] = turns;
  if (!first) return { stage: "after" };
  const inBar = beatsPerBar(pulse.metre);
  const beats = beatsAt(pulse, time) + ON_THE_LINE;
  if (beats < 0) return { stage: "before", beatsLeft: Math.ceil(-beats), next: first };
  const bars = beats / inBar;
  const index = turns.findIndex(({ fromBar, bars: long }) => long === null || bars < fromBar + long);
  const turn = turns[index];
  if (!turn) return { stage: "after" };
  return onTurn(turns, index, turn, bars - turn.fromBar, inBar);
}

/** The same in a free form: the turns that have begun, each with its moment, and when the last is passed on, where that is known. */
export function freeTurnAt(
  turns: readonly Turn[],
  began: readonly Seconds[],
  pulse: Pulse | null,
  time: Seconds,
  passesAt: Seconds | null = null,
): TurnNow {
  const [first] = turns;
  if (!first) return { stage: "after" };
  const index = began.findLastIndex((moment) => moment <= time);
  const turn = turns[index];
  if (index < 0) {
    const beats = pulse ? beatsAt(pulse, began[0] ?? pulse.from) - beatsAt(pulse, time) : 0;
    return { stage: "before", beatsLeft: Math.max(0, Math.ceil(beats - ON_THE_LINE)), next: first };
  }
  if (!turn) return { stage: "after" };
  const inBar = pulse ? beatsPerBar(pulse.metre) : 1;
  const bars = pulse
    ? beatsAt(pulse, time) / inBar - Math.floor(beatsAt(pulse, began[index] ?? time) / inBar)
    : 0;
  const on = onTurn(turns, index, turn, Math.max(0, bars), inBar);
  if (passesAt === null || !pulse || on.stage !== "on") return on;
  const left = (beatsAt(pulse, passesAt) - beatsAt(pulse, time)) / inBar;
  return { ...on, barsLeft: Math.max(1, Math.ceil(left - ON_THE_LINE)) };
}

function onTurn(turns: readonly Turn[], index: number, turn: Turn, bars: number, inBar: number): TurnNow {
  const whole = Math.floor(bars);
  const shareOfBar = Math.min(1, Math.max(0, bars - whole));
  return {
    stage: "on",
    index,
    turn,
    bar: whole + 1,
    barsLeft: turn.bars === null ? null : turn.bars - whole,
    beat: Math.floor(shareOfBar * inBar) + 1,
    shareOfBar,
    next: turns[index + 1] ?? null,
  };
}
