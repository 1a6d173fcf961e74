/**
 * Lean and spread by beat of the bar: a row a beat, left of the line ahead, right of it behind. A beat inside
 * the band round the take's own lean is a circle; one outside it, or one that wanders, a rust square.
 */
import { ErrorBar, Scatter, ScatterChart, type ScatterShapeProps } from "recharts";
import type { BeatFigures, WorkOn } from "../../engine/grading/index.ts";
import type { Milliseconds } from "../../engine/units/index.ts";
import { BandAndLimit, type BandAndLimitOf, NAMES_ABOVE } from "./BandAndLimit.tsx";
import { AXIS_HEIGHT, BeatAxes } from "./BeatAxes.tsx";
import { axisTicks, type BeatMark, beatMarks, stateWords } from "./beatMarks.ts";
import styles from "./charts.module.css";
import { FigureTable } from "./FigureTable.tsx";
import { bandWords, formatLean, formatSpread } from "./figures.ts";

export interface LeanByBeatProps extends BandAndLimitOf {
  readonly perBeat: readonly BeatFigures[];
  /** The one thing to work on: a beat it names is marked, even where the beat as a whole hides it. */
  readonly workOn?: WorkOn;
  /** CSS pixels; 400 at the desk. */
  readonly width?: number;
}

const ROW_HEIGHT = 33;

export function LeanByBeat({ perBeat, workOn, width = 400, ...against }: LeanByBeatProps) {
  const { leanMs, bandMs, limitMs } = against;
  const marks = beatMarks(perBeat, { leanMs, bandMs, workOn });
  const drawn = marks.flatMap(drawnMark);
  const ticks = axisTicks(
    Math.max(
      ...drawn.map(({ lean, spread }) => Math.abs(lean) + spread),
      Math.abs(leanMs ?? 0) + Math.max(bandMs, limitMs),
    ),
  );
  return (
    <figure className={styles.chart} aria-label="Lean and spread by beat of the bar">
      <div aria-hidden="true">
        <ScatterChart
          width={width}
          height={NAMES_ABOVE + marks.length * ROW_HEIGHT + AXIS_HEIGHT}
          margin={{ top: NAMES_ABOVE, right: 24, bottom: 0, left: 0 }}
          accessibilityLayer={false}
        >
          <BandAndLimit namesAt="above" {...against} />
          <BeatAxes ticks={ticks} beats={marks.map(({ beat }) => beat)} />
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
        {bandWords(against)} The bar through a mark is one spread either way. Square: outside the band, or a
        stroke on it wanders.
      </p>
      <FigureTable
        shows="Lean and spread by beat"
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
