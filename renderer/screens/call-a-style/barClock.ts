/**
 * Question: where in the bar is this moment?
 * Answered from the pulse that is heard, or from the click; as a share of a turn of the bar ring.
 */
import type { Click, Pulse } from "../../../engine/listening/index.ts";
import { beatsPerBar } from "../../../engine/score/index.ts";
import { beatSeconds, type Seconds } from "../../../engine/units/index.ts";

export interface BarClock {
  readonly beatsPerTurn: number;
  /** A moment at which a turn begins, and how long a turn is: enough to draw a moving hand. */
  readonly turnFrom: Seconds;
  readonly turnSeconds: Seconds;
  /** Beginnings of turns that were heard, in order; where there are none, turns are even. */
  readonly turns: readonly Seconds[];
}

/** The clock of the pulse that is heard; `undefined` while no downbeat is. */
export function clockOfPulse(pulse: Pulse): BarClock | undefined {
  const latest = pulse.downbeats.at(-1);
  if (latest === undefined) return undefined;
  const beatsPerTurn = beatsPerBar(pulse.metre);
  const turnSeconds = beatsPerTurn * beatSeconds(pulse.tempoBpm);
  return { beatsPerTurn, turnFrom: latest, turnSeconds, turns: pulse.downbeats };
}

/** The clock of the click; it knows which of two bars is the first. */
export function clockOfClick(click: Click, beatsInBar: number, bars: number): BarClock {
  const beatsPerTurn = beatsInBar * bars;
  return {
    beatsPerTurn,
    turnFrom: click.from,
    turnSeconds: beatsPerTurn * beatSeconds(click.tempoBpm),
    turns: [],
  };
}

/**
 * The place of a moment, 0 included to 1 excluded.
 *
 * @example
 * placeAt({ beatsPerTurn: 4, turnFrom: 10, turnSeconds: 2, turns: [] }, 9.5) // => 0.75
 */
export function placeAt(clock: BarClock, time: Seconds): number {
  const index = clock.turns.findLastIndex((turn) => turn <= time);
  const from = clock.turns[index];
  const to = clock.turns[index + 1];
  if (from !== undefined && to !== undefined) return (time - from) / (to - from);
  const turns = (time - clock.turnFrom) / clock.turnSeconds;
  return turns - Math.floor(turns);
}
