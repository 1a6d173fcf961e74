/**
 * Question: did the tempo hold?
 * The trend is what the offsets do over the take: a line against a shared clock, a bend when the start was free
 * (the line is then the tempo itself). It is taken out of the spread only when it is more than chance.
 */
import { type Line, type Milliseconds, robustLine, robustSpread, type Seconds } from "../units/index.ts";
import type { Stroke } from "./matching.ts";

/** Fewer strokes do not make a trend. Our choice. */
const FEWEST_STROKES = 8;
/** Known less well than this (one standard error, in percent), a drift is not told at all. Our choice. */
const LARGEST_ERROR_PERCENT = 0.5;
/** A trend of this many standard errors is more than chance (about 1 in 400 by chance). Common practice. */
const SIGNIFICANT_ERRORS = 3;

export interface Trend {
  /** See `driftPercent` of the report; `null` when too little was played to tell. */
  readonly driftPercent: number | null;
  readonly significant: boolean;
  /** Seconds the take loses against the target in each second, all along: 0 for a bend. */
  readonly slope: number;
  /** The part of the offset at a moment of the target that the trend explains; 0 everywhere unless significant. */
  readonly offsetMsAt: (time: Seconds) => Milliseconds;
}

const NO_TREND: Trend = { driftPercent: null, significant: false, slope: 0, offsetMsAt: () => 0 };

/** Points of a robust line at most: the slopes between all pairs are taken, which is dear. */
const MOST_POINTS = 150;

/**
 * The robust line through many strokes in order of time: of neighbours first the mean without mistakes, so that
 * all of them count and ten minutes cost little more than one.
 */
export function takeLine(x: readonly number[], y: readonly number[]): Line {
  const each = Math.ceil(x.length / MOST_POINTS);
  if (each <= 1) return robustLine(x, y);
  const pointsX: number[] = [];
  const pointsY: number[] = [];
  for (let from = 0; from < x.length; from += each) {
    pointsX.push(mean(x.slice(from, from + each)));
    pointsY.push(robustSpread(y.slice(from, from + each)).mean);
  }
  return robustLine(pointsX, pointsY);
}

/** Drift against a shared clock: the robust slope of the offsets, positive when they get ever earlier. */
export function lineTrend(strokes: readonly Stroke[]): Trend {
  const times = strokes.map(({ note }) => note.time);
  const offsets = strokes.map(({ offsetMs }) => offsetMs);
  return trendOf(times, offsets, times, (time) => time, { perSlope: 1, slopeIsTempo: true });
}

/**
 * Change of tempo from beginning to end when the start was free: the robust bend of the offsets. What a straight
 * line would explain is taken out of the bend first (Frisch & Waugh, Econometrica 1 (1933) 387–401), so that one
 * fit is enough however the strokes lie.
 */
export function bendTrend(strokes: readonly Stroke[]): Trend {
  const times = strokes.map(({ note }) => note.time);
  const offsets = strokes.map(({ offsetMs }) => offsetMs);
  const from = times[0] ?? 0;
  const length = (times[times.length - 1] ?? 0) - from;
  const square = (time: Seconds) => (time - from - length / 2) ** 2;
  const line = leastSquares(times, times.map(square));
  const bend = (time: Seconds) => square(time) - line.at0 - line.slope * time;
  // The slope of c·(t − m)² changes by 2·c·length from beginning to end.
  return trendOf(times, offsets, times.map(bend), bend, { perSlope: 2 * length, slopeIsTempo: false });
}

function leastSquares(x: readonly number[], y: readonly number[]): Line {
  const meanX = mean(x);
  const meanY = mean(y);
  const squares = x.reduce((sum, value) => sum + (value - meanX) ** 2, 0);
  const products = x.reduce((sum, value, at) => sum + (value - meanX) * ((y[at] ?? 0) - meanY), 0);
  const slope = squares > 0 ? products / squares : 0;
  return { at0: meanY - slope * meanX, slope };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** A line through offsets against `x` (time, or its square); `perSlope` turns its slope into milliseconds a second. */
function trendOf(
  times: readonly Seconds[],
  offsets: readonly Milliseconds[],
  x: readonly number[],
  xAt: (time: Seconds) => number,
  { perSlope, slopeIsTempo }: { readonly perSlope: number; readonly slopeIsTempo: boolean },
): Trend {
  if (times.length < FEWEST_STROKES) return NO_TREND;
  const line = takeLine(x, offsets);
  const left = offsets.map((offset, at) => offset - line.at0 - line.slope * (x[at] ?? 0));
  const meanX = mean(x);
  const squares = x.reduce((sum, value) => sum + (value - meanX) ** 2, 0);
  const error = robustSpread(left).sd / Math.sqrt(squares);
  // 10 ms a second are 1 percent.
  if (!(error * perSlope <= LARGEST_ERROR_PERCENT * 10)) return NO_TREND;
  const significant = Math.abs(line.slope) > SIGNIFICANT_ERRORS * error;
  return {
    driftPercent: (-line.slope * perSlope) / 10 + 0,
    significant,
    slope: slopeIsTempo ? line.slope / 1000 : 0,
    offsetMsAt: significant ? (time) => line.slope * (xAt(time) - meanX) : () => 0,
  };
}
