/**
 * Lean and spread by beat of the bar: a row a beat, left of the line ahead, right of it behind. A beat inside
 * the band round the take's own lean is a circle; one outside it, or one that wanders, a rust square.
 */
import {
  CartesianGrid,
  ErrorBar,
  ReferenceArea,
  ReferenceLine,
  Scatter,
  ScatterChart,
  type ScatterShapeProps,
  XAxis,
  YAxis,
} from "recharts";
import type { BeatFigures, WorkOn } from "../../engine/grading/index.ts";
import type { Milliseconds } from "../../engine/units/index.ts";
import { axisTicks, type BeatMark, beatMarks, stateWords } from "./beatMarks.ts";
import styles from "./charts.module.css";
import { FigureTable } from "./FigureTable.tsx";
import { formatLean, formatSpread, formatWholeMs } from "./figures.ts";

export interface LeanByBeatProps {
  readonly perBeat: readonly BeatFigures[];
  /** The take's own lean: the middle of the band. `null`: the band lies round the beat. */
  readonly leanMs: Milliseconds | null;
  /** Half the width of the band. */
  readonly bandMs: Milliseconds;
  /** The one thing to work on: a beat it names is marked, even where the beat as a whole hides it. */
  readonly workOn?: WorkOn;
  /** CSS pixels; 400 at the desk. */
  readonly width?: number;
}

const ROW_HEIGHT = 33;
const AXIS_HEIGHT = 44;
const ROW_NAME_WIDTH = 64;

export function LeanByBeat({ perBeat, leanMs, bandMs, workOn, width = 400 }: LeanByBeatProps) {
  const marks = beatMarks(perBeat, { leanMs, bandMs, workOn });
  const drawn = marks.flatMap(drawnMark);
  const centre = leanMs ?? 0;
  const ticks = axisTicks(
    Math.max(
      ...drawn.map(({ lean, spread }) => Math.abs(lean) + spread),
      Math.abs(centre - bandMs),
      Math.abs(centre + bandMs),
    ),
  );
  const edge = ticks.at(-1) ?? 0;
  return (
    <figure className={styles.chart} aria-label="Lean and spread by beat of the bar">
      <div aria-hidden="true">
        <ScatterChart
          width={width}
          height={marks.length * ROW_HEIGHT + AXIS_HEIGHT}
          margin={{ top: 4, right: 16, bottom: 0, left: 0 }}
          accessibilityLayer={false}
        >
          <CartesianGrid horizontal={false} stroke="var(--rule)" strokeDasharray="1 4" />
          <ReferenceArea
            x1={centre - bandMs}
            x2={centre + bandMs}
            fill="var(--teal-soft)"
            fillOpacity={1}
            zIndex={-50}
          />
          <XAxis
            type="number"
            dataKey="lean"
            domain={[-edge, edge]}
            ticks={[...ticks]}
            interval={0}
            height={AXIS_HEIGHT}
            axisLine={false}
            tickLine={false}
            tick={(tick) => <MsTick x={tick.x} y={tick.y} ms={Number(tick.payload.value)} edgeMs={edge} />}
          />
          <YAxis
            type="number"
            dataKey="row"
            domain={[-0.5, marks.length - 0.5]}
            reversed
            ticks={marks.map((_, row) => row)}
            interval={0}
            width={ROW_NAME_WIDTH}
            axisLine={false}
            tickLine={false}
            tick={(tick) => (
              <text x={0} y={Number(tick.y) + 5} className={styles.rowName}>
                beat {marks[Number(tick.payload.value)]?.beat}
              </text>
            )}
          />
          <ReferenceLine x={0} stroke="var(--ink)" strokeWidth={1.4} />
          <Scatter data={drawn.filter((mark) => !mark.differs)} shape={InsideMark} isAnimationActive={false}>
            <ErrorBar
              dataKey="spread"
              direction="x"
              width={0}
              strokeWidth={3}
              stroke="var(--teal)"
              isAnimationActive={false}
            />
          </Scatter>
          <Scatter
            data={drawn.filter((mark) => mark.differs)}
            shape={DifferingMark}
            isAnimationActive={false}
          >
            <ErrorBar
              dataKey="spread"
              direction="x"
              width={0}
              strokeWidth={3}
              stroke="var(--rust)"
              isAnimationActive={false}
            />
          </Scatter>
        </ScatterChart>
      </div>
      <p className={styles.note}>
        Shaded: {formatWholeMs(bandMs)} either side of {leanMs === null ? "the beat" : "the take’s own lean"}.
        Square: outside it, or a stroke on it wanders.
      </p>
      <FigureTable
        caption="Figures by beat"
        columns={["beat", "lean", "spread", "strokes", "place"]}
        rows={marks.map((mark) => [
          `beat ${mark.beat}`,
          formatLean(mark.leanMs),
          formatSpread(mark.spreadMs),
          String(mark.count),
          stateWords(mark.state),
        ])}
      />
    </figure>
  );
}

interface DrawnMark {
  readonly row: number;
  readonly lean: Milliseconds;
  readonly spread: Milliseconds;
  readonly differs: boolean;
}

function drawnMark(mark: BeatMark, row: number): readonly DrawnMark[] {
  if (mark.leanMs === null) return [];
  return [{ row, lean: mark.leanMs, spread: mark.spreadMs ?? 0, differs: mark.state !== "inside" }];
}

function InsideMark({ cx, cy }: ScatterShapeProps) {
  return <circle cx={cx} cy={cy} r={6} fill="var(--teal)" />;
}

function DifferingMark({ cx, cy }: ScatterShapeProps) {
  return <rect x={Number(cx) - 6} y={Number(cy) - 6} width={12} height={12} fill="var(--rust)" />;
}

interface MsTickProps {
  readonly x: number | string;
  readonly y: number | string;
  readonly ms: Milliseconds;
  readonly edgeMs: Milliseconds;
}

/** Milliseconds without a sign, since the side says it; the sides are named at both ends and in the middle. */
function MsTick({ x, y, ms, edgeMs }: MsTickProps) {
  const side = ms === 0 ? "the beat" : ms === -edgeMs ? "ahead" : ms === edgeMs ? "behind" : undefined;
  return (
    <text x={x} y={Number(y) + 8} textAnchor="middle">
      <tspan x={x}>{ms === 0 ? "0" : `${Math.abs(ms)}${Math.abs(ms) === edgeMs ? " ms" : ""}`}</tspan>
      {side === undefined ? null : (
        <tspan x={x} dy="1.25em">
          {side}
        </tspan>
      )}
    </text>
  );
}
