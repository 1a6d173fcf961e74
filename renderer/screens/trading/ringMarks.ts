/** The strokes of each side on its ring: those of its latest turn, laid over one bar. */
import { beatsPerBar } from "../../../engine/score/index.ts";
import { beatsAt, type Side, turnHits } from "../../../engine/trading/index.ts";
import type { PlayedMark } from "../../charts/BarRing.tsx";
import type { TradingNow } from "./tradingNow.ts";

/** Strokes drawn at most: the ring is read, not counted. */
const MOST_MARKS = 120;

export function ringMarks({ turns, pulse, hits, at }: TradingNow, side: Side): readonly PlayedMark[] {
  if (!pulse || at?.stage !== "on") return [];
  const latest = turns
    .slice(0, at.index + 1)
    .findLast(({ side: its, part }) => its === side && part !== "groove");
  if (!latest) return [];
  const inBar = beatsPerBar(pulse.metre);
  const isNow = latest === at.turn;
  // A free turn has no end: all that was struck since it began.
  const phrase =
    latest.bars === null
      ? hits.filter(({ side: by }) => by === null || by === side)
      : turnHits(hits, latest, pulse).phrase;
  const bars = phrase.map((hit) => ({ hit, bars: beatsAt(pulse, hit.time) / inBar }));
  const from = isNow || latest.bars !== null ? Number.NEGATIVE_INFINITY : 0;
  return bars
    .filter(({ bars: place }) => place >= from)
    .slice(-MOST_MARKS)
    .map(({ hit, bars: place }) => ({ voice: hit.voice, place: place - Math.floor(place), differs: false }));
}
