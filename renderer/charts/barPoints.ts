/** What the chart of lean along the take draws: a point a bar, or a point for several bars of a long take. */
import type { BarFigures } from "../../engine/grading/index.ts";
import type { Milliseconds } from "../../engine/units/index.ts";

/** More points than this are a smear at the width of the sheet. Our choice. */
export const MOST_POINTS = 120;

export interface BarPoint {
  /** Bars of the take, from 1, both included. */
  readonly fromBar: number;
  readonly toBar: number;
  readonly count: number;
  readonly leanMs: Milliseconds | null;
  readonly spreadMs: Milliseconds | null;
}

/** Bars that are joined into one point: 1 up to {@link MOST_POINTS} bars. */
export function barsPerPoint(bars: number): number {
  return Math.max(1, Math.ceil(bars / MOST_POINTS));
}

/** The points of a take: neighbouring bars joined evenly when there are many. */
export function barPoints(perBar: readonly BarFigures[]): readonly BarPoint[] {
  const size = barsPerPoint(perBar.length);
  return Array.from({ length: Math.ceil(perBar.length / size) }, (_, point) =>
    joined(perBar.slice(point * size, (point + 1) * size)),
  );
}

/**
 * The mean and standard deviation of all strokes of the bars together, from those of each bar (the variances
 * within add to the one between): common practice.
 */
function joined(bars: readonly BarFigures[]): BarPoint {
  const fromBar = bars[0]?.bar ?? 0;
  const toBar = bars.at(-1)?.bar ?? fromBar;
  const told = bars.flatMap(({ count, leanMs, spreadMs }) =>
    leanMs === null || count === 0 ? [] : [{ count, leanMs, spreadMs: spreadMs ?? 0 }],
  );
  const [only] = told;
  if (only === undefined) return { fromBar, toBar, count: 0, leanMs: null, spreadMs: null };
  if (bars.length === 1)
    return { fromBar, toBar, count: only.count, leanMs: only.leanMs, spreadMs: bars[0]?.spreadMs ?? null };
  const count = told.reduce((sum, bar) => sum + bar.count, 0);
  const leanMs = told.reduce((sum, bar) => sum + bar.count * bar.leanMs, 0) / count;
  const squares = told.reduce(
    (sum, bar) => sum + (bar.count - 1) * bar.spreadMs ** 2 + bar.count * (bar.leanMs - leanMs) ** 2,
    0,
  );
  return { fromBar, toBar, count, leanMs, spreadMs: count < 2 ? null : Math.sqrt(squares / (count - 1)) };
}

/** "bar 4", "bars 4 to 6". */
export function pointName({ fromBar, toBar }: Pick<BarPoint, "fromBar" | "toBar">): string {
  return fromBar === toBar ? `bar ${fromBar}` : `bars ${fromBar} to ${toBar}`;
}

/** Music comes in phrases of so many bars; the axis is marked where phrases begin. */
const PHRASES = [1, 2, 4, 8, 16, 32, 64, 128, 256] as const;
const MOST_TICKS = 14;

/**
 * Bars to mark on the axis: the first, and every so many after it.
 *
 * @example
 * barTicks(1, 32) // => [1, 5, 9, 13, 17, 21, 25, 29]
 */
export function barTicks(fromBar: number, toBar: number): readonly number[] {
  const bars = toBar - fromBar + 1;
  const step = PHRASES.find((phrase) => bars / phrase <= MOST_TICKS) ?? Math.ceil(bars / MOST_TICKS);
  return Array.from({ length: Math.ceil(bars / step) }, (_, tick) => fromBar + tick * step);
}
