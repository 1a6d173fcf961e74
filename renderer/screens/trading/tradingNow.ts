/** What is on while a form is traded: it is of this moment, and none of it is kept. */
import type { PlayedTurn, Pulse, TradedHit, Turn, TurnNow } from "../../../engine/trading/index.ts";
import type { Seconds } from "../../../engine/units/index.ts";
import type { FarGone } from "./farWatch.ts";

export interface TradingNow {
  readonly turns: readonly Turn[];
  /** `null` until the first player's own pulse is heard. */
  readonly pulse: Pulse | null;
  /** Of a free form: when each turn began. */
  readonly began: readonly Seconds[];
  /** Of a free form: the line at which the turn that is on is passed on, where it is known. */
  readonly passesAt: Seconds | null;
  /** Turns that are over, each with the pulse it was played on. */
  readonly played: readonly PlayedTurn[];
  /** In two places: the far kit is gone; `null` while it is there. */
  readonly gone: FarGone | null;
  /** All strokes since the form began, in the order they came. */
  readonly hits: readonly TradedHit[];
  /** As it stood at the last beat. */
  readonly at: TurnNow | null;
}

export const NOTHING_ON: TradingNow = {
  turns: [],
  pulse: null,
  began: [],
  passesAt: null,
  played: [],
  gone: null,
  hits: [],
  at: null,
};
