/**
 * Question: did the tempo hold?
 * The trend is what the offsets do over the take: a line against a shared clock, a bend when the start was free
 * (the line is then the tempo itself). It is taken out of the spread only when it is more than chance.
 */
import { type Milliseconds, robustLine, robustSpread, type Seconds } from "../units/index.ts";
import type { Stroke } from "./matching.ts";

/** Fewer strokes do not make a trend. Our choice. */
const FEWEST_STROKES = 8;
/** Known less well than this (one standard error, in percent), a drift is not told at all. Our choice. */
const LARGEST_ERROR_PERCENT = 0.5;
/** A trend of this many standard errors is more than chance (about 1 in 400 by chance). Common practice. */
const SIGNIFICANT_ERRORS = 3;
/** Rounds of fitting line and bend in turn; strokes that lie evenly need one. */
const BEND_ROUNDS = 4;

export interface Trend {
  /** See `driftPercent` of the report; `null` when too little was played to tell. */
  readonly driftPercent: number | null;
  readonly significant: boolean;
  /** The part of the offset at a moment of the target that the trend explains; 0 everywhere unless significant. */
  readonly offsetMsAt: (time: Seconds) => Milliseconds;
}

const NO_TREND: Trend = { driftPercent: null, significant: false, offsetMsAt: () => 0 };

/** Drift against a shared clock: the robust slope of the offsets, positive when they get ever earlier. */
export function lineTrend(strokes: readonly Stroke[]): Trend {
  const times = strokes.map(({ note }) => note.time);
  const offsets = strokes.map(({ offsetMs }) => offsetMs);
  return trendOf(times, offsets, times, (time) => time, 1);
}

/** Change of tempo from beginning to end when the start was free: the robust bend of the offsets. */
export function bendTrend(strokes: readonly Stroke[]): Trend {
  const times = strokes.map(({ note }) => note.time);
  const from = times[0] ?? 0;
  const length = (times[times.length - 1] ?? 0) - from;
  const middle = from + length / 2;
  const bend = (time: Seconds) => (time - middle) ** 2;
  const bends = times.map(bend);
  let offsets = strokes.map(({ offsetMs }) => offsetMs);
  for (let round = 0; round < BEND_ROUNDS; round += 1) {
    const bent = robustLine(bends, offsets);
    const level = robustLine(
      times,
      offsets.map((offset, at) => offset - bent.slope * (bends[at] ?? 0)),
    );
    offsets = offsets.map((offset, at) => offset - level.slope * ((times[at] ?? 0) - middle));
  }
  // The slope of c·(t − m)² changes by 2·c·length from beginning to end.
  return trendOf(times, offsets, bends, bend, 2 * length);
}

/** A line through offsets against `x` (time, or its square); `perSlope` turns its slope into milliseconds a second. */
function trendOf(
  times: readonly Seconds[],
  offsets: readonly Milliseconds[],
  x: readonly number[],
  xAt: (time: Seconds) => number,
  perSlope: number,
): Trend {
  if (times.length < FEWEST_STROKES) return NO_TREND;
  const line = robustLine(x, offsets);
  const left = offsets.map((offset, at) => offset - line.at0 - line.slope * (x[at] ?? 0));
  const meanX = x.reduce((sum, value) => sum + value, 0) / x.length;
  const squares = x.reduce((sum, value) => sum + (value - meanX) ** 2, 0);
  const error = robustSpread(left).sd / Math.sqrt(squares);
  // 10 ms a second are 1 percent.
  if (!(error * perSlope <= LARGEST_ERROR_PERCENT * 10)) return NO_TREND;
  const significant = Math.abs(line.slope) > SIGNIFICANT_ERRORS * error;
  return {
    driftPercent: (-line.slope * perSlope) / 10 + 0,
    significant,
    offsetMsAt: significant ? (time) => line.slope * (xAt(time) - meanX) : () => 0,
  };
}
