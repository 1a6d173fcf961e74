/**
 * Lean along the take, bar after bar: above the line behind, below it ahead. A bar inside the band is a circle, one
 * outside it a rust square, the spread a stroke through it; the fitted drift runs through them as a dashed line.
 */
import {
  CartesianGrid,
  ComposedChart,
  ErrorBar,
  Line,
  ReferenceLine,
  Scatter,
  type ScatterShapeProps,
  XAxis,
  YAxis,
} from "recharts";
import { type BarFigures, driftWords, numberWord } from "../../engine/grading/index.ts";
import type { Milliseconds } from "../../engine/units/index.ts";
import { BandAndLimit, type BandAndLimitOf, NAMES_BESIDE } from "./BandAndLimit.tsx";
import { type BarPoint, barPoints, barsPerPoint, barTicks, pointName } from "./barPoints.ts";
import { axisTicks } from "./beatMarks.ts";
import styles from "./charts.module.css";
import { type Drifting, driftLine } from "./driftLine.ts";
import { FigureTable } from "./FigureTable.tsx";
import { bandWords, formatLean, formatSpread } from "./figures.ts";

export interface LeanAlongProps extends BandAndLimitOf {
  /** In order of bars. */
  readonly perBar: readonly BarFigures[];
  /** How the tempo moved. */
  readonly drift: Omit<Drifting, "perBar">;
  /** CSS pixels; 720 fills the sheet at the desk. */
  readonly width?: number;
  readonly height?: number;
}

/** From so many points on the marks are drawn small. */
const SMALL_FROM = 40;

export function LeanAlong({ perBar, drift, width = 720, height = 230, ...against }: LeanAlongProps) {
  const { leanMs, bandMs, limitMs } = against;
  const points = barPoints(perBar);
  const joined = barsPerPoint(perBar.length);
  const driftAt = driftLine({ perBar, ...drift });
  const drawn = points.map((point) => drawnPoint(point, against, driftAt));
  const ticks = axisTicks(
    Math.max(
      ...drawn.map(({ lean, spread, drift: fitted }) =>
        Math.max(Math.abs(lean ?? 0) + spread, Math.abs(fitted ?? 0)),
      ),
      Math.abs(leanMs ?? 0) + Math.max(bandMs, limitMs),
    ),
  );
  const edge = ticks.at(-1) ?? 0;
  const firstBar = points[0]?.fromBar ?? 1;
  const lastBar = points.at(-1)?.toBar ?? firstBar;
  const bars = [...barTicks(firstBar, lastBar)];
  const size = points.length < SMALL_FROM ? 4.5 : 2.5;
  return (
    <figure className={styles.chart} aria-label="Lean along the take">
      <div aria-hidden="true">
        <ComposedChart
          width={width}
          height={height}
          data={drawn}
          margin={{ top: 12, right: NAMES_BESIDE, bottom: 4, left: 0 }}
          accessibilityLayer={false}
        >
          <BandAndLimit namesAt="beside" {...against} />
          <CartesianGrid horizontal={false} stroke="var(--rule)" verticalValues={bars} syncWithTicks />
          <XAxis
            type="number"
            dataKey="bar"
            domain={[firstBar - 0.5, lastBar + 0.5]}
            ticks={bars}
            interval={0}
            axisLine={false}
            tickLine={{ stroke: "var(--rule)" }}
            tickFormatter={(bar: number) => (bar === firstBar ? `bar ${bar}` : String(bar))}
          />
          <YAxis
            type="number"
            domain={[-edge, edge]}
            ticks={[...ticks]}
            interval={0}
            width={124}
            axisLine={false}
            tickLine={{ stroke: "var(--rule)" }}
            tickFormatter={(ms: number) => msWithSide(ms, edge)}
          />
          <ReferenceLine y={0} stroke="var(--ink)" strokeWidth={1.4} />
          <Line
            dataKey="drift"
            stroke="var(--ink)"
            strokeWidth={1.6}
            strokeDasharray="6 5"
            dot={false}
            isAnimationActive={false}
            activeDot={false}
          />
          {[false, true].map((differs) => (
            <BarMarks
              key={String(differs)}
              data={drawn.filter((point) => point.lean !== null && point.differs === differs)}
              differs={differs}
              size={size}
            />
          ))}
        </ComposedChart>
      </div>
      <p className={styles.note}>
        {bandWords(against)} {driftAt ? "Dashed: the fitted drift. " : ""}
        {driftWords(drift)}
        {joined === 1 ? "" : ` Each point is ${numberWord(joined)} bars taken together.`}
      </p>
      <FigureTable
        shows="Lean along the take"
        caption="Figures along the take"
        columns={["bars", "lean", "spread", "drift", "strokes"]}
        rows={points.map((point, at) => [
          pointName(point),
          formatLean(point.leanMs),
          formatSpread(point.spreadMs),
          drawn[at]?.drift === null ? "not told" : formatLean(drawn[at]?.drift ?? null),
          String(point.count),
        ])}
      />
    </figure>
  );
}

interface DrawnPoint {
  readonly bar: number;
  readonly lean: Milliseconds | null;
  readonly spread: Milliseconds;
  readonly drift: Milliseconds | null;
  readonly differs: boolean;
}

function drawnPoint(
  { fromBar, toBar, leanMs, spreadMs }: BarPoint,
  { leanMs: ownLean, bandMs }: BandAndLimitOf,
  driftAt: ((bar: number) => Milliseconds) | undefined,
): DrawnPoint {
  const bar = (fromBar + toBar) / 2;
  return {
    bar,
    lean: leanMs,
    spread: spreadMs ?? 0,
    drift: driftAt ? (ownLean ?? 0) + driftAt(bar) : null,
    differs: leanMs !== null && Math.abs(leanMs - (ownLean ?? 0)) > bandMs,
  };
}

interface BarMarksProps {
  readonly data: readonly DrawnPoint[];
  readonly differs: boolean;
  /** Half the width of a mark. */
  readonly size: number;
}

function BarMarks({ data, differs, size }: BarMarksProps) {
  // Marks without points of their own would be drawn from all points of the chart.
  if (data.length === 0) return null;
  const colour = differs ? "var(--rust)" : "var(--teal)";
  const shape = ({ cx, cy }: ScatterShapeProps) =>
    differs ? (
      <rect x={Number(cx) - size} y={Number(cy) - size} width={2 * size} height={2 * size} fill={colour} />
    ) : (
      <circle cx={cx} cy={cy} r={size} fill={colour} />
    );
  return (
    <Scatter data={data} dataKey="lean" shape={shape} isAnimationActive={false}>
      <ErrorBar
        dataKey="spread"
        direction="y"
        width={0}
        strokeWidth={size < 4 ? 1.2 : 2}
        stroke={colour}
        isAnimationActive={false}
      />
    </Scatter>
  );
}

function msWithSide(ms: number, edgeMs: number): string {
  if (ms === 0) return "the beat";
  const side = ms === edgeMs ? " behind" : ms === -edgeMs ? " ahead" : "";
  return `${Math.abs(ms)} ms${side}`;
}
