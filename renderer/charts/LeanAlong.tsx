/** Lean along the take, bar after bar, with the spread as a band about it. Above the line behind, below it ahead. */
import { Area, ComposedChart, Line, ReferenceLine, XAxis, YAxis } from "recharts";
import { type BarFigures, numberWord } from "../../engine/grading/index.ts";
import { type BarPoint, barPoints, barsPerPoint, barTicks, pointName } from "./barPoints.ts";
import { axisTicks } from "./beatMarks.ts";
import styles from "./charts.module.css";
import { FigureTable } from "./FigureTable.tsx";
import { formatLean, formatSpread } from "./figures.ts";

export interface LeanAlongProps {
  /** In order of bars. */
  readonly perBar: readonly BarFigures[];
  /** CSS pixels; 720 fills the sheet at the desk. */
  readonly width?: number;
  readonly height?: number;
}

export function LeanAlong({ perBar, width = 720, height = 190 }: LeanAlongProps) {
  const points = barPoints(perBar);
  const joined = barsPerPoint(perBar.length);
  const drawn = points.map(drawnPoint);
  const ticks = axisTicks(Math.max(...drawn.flatMap(({ band }) => band.map(Math.abs)), 1));
  const edge = ticks.at(-1) ?? 0;
  const firstBar = points[0]?.fromBar ?? 1;
  const lastBar = points.at(-1)?.toBar ?? firstBar;
  return (
    <figure className={styles.chart} aria-label="Lean along the take">
      <div aria-hidden="true">
        <ComposedChart
          width={width}
          height={height}
          data={drawn}
          margin={{ top: 8, right: 8, bottom: 4, left: 0 }}
          accessibilityLayer={false}
        >
          <XAxis
            type="number"
            dataKey="bar"
            domain={[firstBar, lastBar]}
            ticks={[...barTicks(firstBar, lastBar)]}
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
            width={128}
            axisLine={false}
            tickLine={{ stroke: "var(--rule)" }}
            tickFormatter={(ms: number) => msWithSide(ms, edge)}
          />
          <ReferenceLine y={0} stroke="var(--ink)" strokeWidth={1.4} />
          <Area
            dataKey="band"
            stroke="none"
            fill="var(--teal-soft)"
            fillOpacity={1}
            connectNulls={false}
            isAnimationActive={false}
            activeDot={false}
            zIndex={-50}
          />
          <Line
            dataKey="lean"
            stroke="var(--teal)"
            strokeWidth={2.4}
            dot={points.length <= 40 ? { r: 3, fill: "var(--teal)", stroke: "none" } : false}
            connectNulls={false}
            isAnimationActive={false}
            activeDot={false}
          />
        </ComposedChart>
      </div>
      {joined === 1 ? null : (
        <p className={styles.note}>Each point is {numberWord(joined)} bars taken together.</p>
      )}
      <FigureTable
        caption="Figures along the take"
        columns={["bars", "lean", "spread", "strokes"]}
        rows={points.map((point) => [
          pointName(point),
          formatLean(point.leanMs),
          formatSpread(point.spreadMs),
          String(point.count),
        ])}
      />
    </figure>
  );
}

function drawnPoint({ fromBar, toBar, leanMs, spreadMs }: BarPoint) {
  const spread = spreadMs ?? 0;
  return {
    bar: (fromBar + toBar) / 2,
    lean: leanMs,
    band: leanMs === null ? [] : [leanMs - spread, leanMs + spread],
  };
}

function msWithSide(ms: number, edgeMs: number): string {
  if (ms === 0) return "the beat";
  const side = ms === edgeMs ? " behind" : ms === -edgeMs ? " ahead" : "";
  return `${Math.abs(ms)} ms${side}`;
}
