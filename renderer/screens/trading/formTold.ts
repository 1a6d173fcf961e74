/** What is told of a form while it is played: each exchange, as it is kept, and the whole in the end. */
import {
  aimOf,
  answererOf,
  exchangeTimeline,
  type Play,
  type Trading,
  type TradingEvent,
} from "../../../engine/rounds/index.ts";
import {
  judgeExchange,
  type PlayedTurn,
  type TradedHit,
  tellForm,
  wholeFormWords,
} from "../../../engine/trading/index.ts";
import type { Milliseconds } from "../../../engine/units/index.ts";
import type { TradingNow } from "./tradingNow.ts";
import type { TradingPlace } from "./tradingPlace.ts";

/**
 * An exchange that is over.
 *
 * @param how `fresh`: what was struck since the exchange before. `clockMs`: within how much the clocks of two places are known.
 */
export function exchanged(
  { call, answer }: { readonly call: PlayedTurn; readonly answer: PlayedTurn },
  { played, hits }: Pick<TradingNow, "played" | "hits">,
  { own, players, dealt }: Play<Trading>,
  {
    place,
    fresh,
    clockMs,
  }: {
    readonly place: Pick<TradingPlace, "levelOf">;
    readonly fresh: readonly TradedHit[];
    readonly clockMs: Milliseconds;
  },
): TradingEvent {
  const by = answererOf(own, players);
  const aim = aimOf(own.set, answer.turn.exchange, dealt);
  const how = { aim, level: place.levelOf(by), clockMs };
  const { met, comparison, handOverMs, says } = judgeExchange(hits, { call, answer }, how);
  const turns = played.filter(({ turn }) => turn.exchange === answer.turn.exchange);
  return {
    kind: "exchanged",
    aim,
    calls: own.calls,
    by,
    met,
    rhythm: comparison.rhythm.holds,
    sound: comparison.sound.holds,
    handOverMs: handOverMs === null ? null : Math.round(handOverMs * 10) / 10,
    says,
    timeline: exchangeTimeline(turns, fresh, played[0]?.from ?? call.from),
  };
}

/** The whole form in sentences, and, in two places, how sure of it one can be. */
export function formWords(
  { hits, played }: Pick<TradingNow, "played" | "hits">,
  names: readonly [string, string],
  clockMs: Milliseconds,
): readonly string[] {
  const says = wholeFormWords(tellForm(hits, played), names);
  if (clockMs === 0) return says;
  const known = `The clocks of the two places are known to some ${Math.ceil(clockMs)} ms`;
  return [...says, `${known}: where ${names[1]} stands is no surer.`];
}
