/** The strokes of each side on its ring: those of its latest turn, laid over one bar. */
import { beatsPerBar } from "../../../engine/score/index.ts";
import { beatsAt, freeTurnOn, isPhrase, type Side, turnHits, turnOn } from "../../../engine/trading/index.ts";
import type { PlayedMark } from "../../charts/BarRing.tsx";
import type { TradingNow } from "./tradingNow.ts";

/** Strokes drawn at most: the ring is read, not counted. */
const MOST_MARKS = 120;

export function ringMarks({ turns, pulse, hits, at, began }: TradingNow, side: Side): readonly PlayedMark[] {
  if (!pulse || at?.stage !== "on") return [];
  const index = turns.slice(0, at.index + 1).findLastIndex((turn) => turn.side === side && isPhrase(turn));
  const latest = turns[index];
  if (!latest) return [];
  const inBar = beatsPerBar(pulse.metre);
  const span = { from: began[index] ?? pulse.from, until: began[index + 1] ?? Number.POSITIVE_INFINITY };
  const played = latest.bars === null ? freeTurnOn(latest, pulse, span) : turnOn(latest, pulse);
  return turnHits(hits, played)
    .phrase.slice(-MOST_MARKS)
    .map(({ voice, time }) => {
      const bars = beatsAt(pulse, time) / inBar;
      return { voice, place: bars - Math.floor(bars), differs: false };
    });
}
