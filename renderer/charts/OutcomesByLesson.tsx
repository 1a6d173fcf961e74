/**
 * What held, what was missed and what was new, lesson after lesson: a column a lesson at its place in the calendar. Above
 * the line what held (filled) and what was new (open), below it what was missed. Small, to stand beside others of one scale.
 */
import type { ReactNode } from "react";
import { Bar, BarChart, type BarShapeProps, ReferenceLine, XAxis, YAxis } from "recharts";
import { dayNumber, dayOf, type LessonFigures, monthOf } from "../../engine/memory/index.ts";
import styles from "./charts.module.css";
import { FigureTable } from "./FigureTable.tsx";
import type { LessonSpan } from "./lessonSpan.ts";
import { dayName, monthShort } from "./monthName.ts";

/** How far columns may reach: the scale that charts beside one another share. */
export interface CountScale {
  /** Most that held or was new in one lesson. */
  readonly above: number;
  /** Most that was missed in one lesson. */
  readonly below: number;
}

/**
 * The scale on which the lessons of all charts fit.
 *
 * @example
 * countScale([{ day: "2026-03-02", known: 4, new: 1, slipped: 2 }]) // => { above: 5, below: 2 }
 */
export function countScale(lessons: readonly LessonFigures[]): CountScale {
  // One either way at least: the line lies within the chart, and its two sides are named.
  return {
    above: lessons.reduce((most, { known, new: met }) => Math.max(most, known + met), 1),
    below: lessons.reduce((most, { slipped }) => Math.max(most, slipped), 1),
  };
}

export interface OutcomesByLessonProps {
  /** What the figures are of: "playing grooves". */
  readonly name: string;
  /** In order of days. */
  readonly lessons: readonly LessonFigures[];
  readonly span: LessonSpan;
  readonly scale: CountScale;
  /** CSS pixels. */
  readonly width?: number;
}

const HEIGHT = 116;
const SIDES = 80;
const DAYS_OF_A_WEEK = 7;

export function OutcomesByLesson({ name, lessons, span, scale, width = 330 }: OutcomesByLessonProps) {
  const drawn = lessons
    .map(({ day, known, slipped, new: met }) => ({ day: dayNumber(day), known, met, missed: -slipped }))
    .filter(({ day }) => day >= span.from);
  // Two thirds of a week, so that weekly lessons stand apart.
  const wide = ((width - SIDES) / (span.to - span.from)) * DAYS_OF_A_WEEK * 0.66;
  const size = Math.max(2, Math.min(9, Math.floor(wide)));
  return (
    <figure className={styles.chart} aria-label={`${name}, lesson after lesson`}>
      <figcaption className={styles.rowCaption}>{name}</figcaption>
      <div aria-hidden="true">
        <BarChart
          width={width}
          height={HEIGHT}
          data={drawn}
          stackOffset="sign"
          barSize={size}
          margin={{ top: 8, right: 4, bottom: 0, left: 0 }}
          accessibilityLayer={false}
        >
          <XAxis
            type="number"
            dataKey="day"
            domain={[span.from, span.to]}
            ticks={[...span.ticks]}
            interval={0}
            height={40}
            axisLine={false}
            tickLine={{ stroke: "var(--rule)" }}
            tick={({ x, y, payload, index }) => (
              <MonthTick x={x} y={y} day={Number(payload.value)} isFirst={index === 0} />
            )}
          />
          <YAxis
            type="number"
            domain={[-scale.below, scale.above]}
            ticks={[-scale.below, 0, scale.above]}
            interval={0}
            width={SIDES}
            axisLine={false}
            tickLine={{ stroke: "var(--rule)" }}
            tickFormatter={(count: number) => sideWords(count)}
          />
          <Bar dataKey="known" stackId="lesson" fill="var(--teal)" isAnimationActive={false} />
          <Bar dataKey="met" stackId="lesson" shape={OpenColumn} isAnimationActive={false} />
          <Bar dataKey="missed" stackId="lesson" fill="var(--rust)" isAnimationActive={false} />
          <ReferenceLine y={0} stroke="var(--ink)" strokeWidth={1.4} />
        </BarChart>
      </div>
      {drawn.length < lessons.length && (
        <p className={styles.note}>Drawn are the latest twelve months; the figures go back further.</p>
      )}
      <FigureTable
        shows={`${name}, lesson after lesson`}
        caption={`Figures of ${name}`}
        columns={["lesson", "held", "missed", "new"]}
        rows={lessons.map(({ day, known, slipped, new: met }) => [
          dayName(day),
          String(known),
          String(slipped),
          String(met),
        ])}
      />
    </figure>
  );
}

/** What each kind of column says, once for all charts beside one another. */
export function OutcomeKey() {
  return (
    <p className={styles.key} aria-hidden="true">
      <KeyMark>
        <rect x="3" y="2" width="8" height="12" fill="var(--teal)" />
      </KeyMark>
      held
      <KeyMark>
        <OpenColumn x={3} y={2} width={8} height={12} />
      </KeyMark>
      new
      <KeyMark>
        <path d="M0 2h14" stroke="var(--ink)" strokeWidth="1.4" />
        <rect x="3" y="2" width="8" height="12" fill="var(--rust)" />
      </KeyMark>
      missed, below the line
    </p>
  );
}

function KeyMark({ children }: { readonly children: ReactNode }) {
  return (
    <svg width="14" height="16" viewBox="0 0 14 16" aria-hidden="true">
      {children}
    </svg>
  );
}

function OpenColumn({ x, y, width, height }: Partial<Pick<BarShapeProps, "x" | "y" | "width" | "height">>) {
  const [across, up] = [Number(width), Math.abs(Number(height))];
  if (!(across > 0 && up > 0)) return null;
  // The line lies within the column, so that it is as wide and high as a filled one.
  return (
    <rect
      x={Number(x) + 0.75}
      y={Number(y) + 0.75}
      width={Math.max(0.5, across - 1.5)}
      height={Math.max(0.5, up - 1.5)}
      fill="var(--sheet)"
      stroke="var(--ink)"
      strokeWidth={1.5}
    />
  );
}

interface MonthTickProps {
  readonly x: number | string;
  readonly y: number | string;
  readonly day: number;
  readonly isFirst: boolean;
}

/** The month; its year under it where it is the first, and where a year begins. */
function MonthTick({ x, y, day, isFirst }: MonthTickProps) {
  const month = monthOf(dayOf(day));
  return (
    <text x={x} y={Number(y) + 8} textAnchor="start">
      <tspan x={x}>{monthShort(month)}</tspan>
      {isFirst || month.endsWith("-01") ? (
        <tspan x={x} dy="1.2em">
          {month.slice(0, 4)}
        </tspan>
      ) : null}
    </text>
  );
}

function sideWords(count: number): string {
  if (count === 0) return "0";
  return count > 0 ? `${count}` : `${-count} missed`;
}
