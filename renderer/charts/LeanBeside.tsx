/**
 * Lean and spread by beat of two takes, one under the other in each row: the earlier take an open circle with a thin
 * bar, the later one a filled circle with a thick bar. Left of the line ahead, right of it behind.
 */
import { ErrorBar, Scatter, ScatterChart, type ScatterShapeProps } from "recharts";
import type { BeatFigures } from "../../engine/grading/index.ts";
import type { Milliseconds } from "../../engine/units/index.ts";
import { BandAndLimit, type BandAndLimitOf, NAMES_ABOVE } from "./BandAndLimit.tsx";
import { AXIS_HEIGHT, BeatAxes } from "./BeatAxes.tsx";
import { axisTicks } from "./beatMarks.ts";
import styles from "./charts.module.css";
import { FigureTable } from "./FigureTable.tsx";
import { bandWords, formatLean, formatSpread } from "./figures.ts";

/** The beats of a take, and its own lean. */
export interface TakeBeats {
  readonly perBeat: readonly BeatFigures[];
  readonly leanMs: Milliseconds | null;
}

export interface LeanBesideProps extends Omit<BandAndLimitOf, "leanMs"> {
  readonly before: TakeBeats;
  readonly now: TakeBeats;
  /** How the take before is called: "take 2". */
  readonly beforeName: string;
  /** How the later one is called. */
  readonly nowName: string;
  /** Whether both takes lean against a click; otherwise each is drawn about its own lean. */
  readonly sameClock: boolean;
  /** CSS pixels; 400 at the desk. */
  readonly width?: number;
}

const ROW_HEIGHT = 46;
/** From the middle of a row to either take, in rows. */
const APART = 0.19;

export function LeanBeside({
  before,
  now,
  beforeName,
  nowName,
  sameClock,
  bandMs,
  limitMs,
  width = 400,
}: LeanBesideProps) {
  const against = { leanMs: sameClock ? now.leanMs : 0, bandMs, limitMs };
  const earlier = drawnBeats(before, -APART, sameClock);
  const latest = drawnBeats(now, APART, sameClock);
  const ticks = axisTicks(
    Math.max(
      ...[...earlier, ...latest].map(({ lean, spread }) => Math.abs(lean) + spread),
      Math.abs(against.leanMs ?? 0) + Math.max(bandMs, limitMs),
    ),
  );
  return (
    <figure className={styles.chart} aria-label={`Lean and spread by beat, ${beforeName} and ${nowName}`}>
      <p className={styles.key} aria-hidden="true">
        <svg width="44" height="16" viewBox="0 0 44 16" aria-hidden="true">
          <path d="M2 8h40" stroke="var(--ink)" strokeWidth="1.6" />
          <OpenMark cx={22} cy={8} />
        </svg>
        {beforeName}
        <svg width="44" height="16" viewBox="0 0 44 16" aria-hidden="true">
          <path d="M2 8h40" stroke="var(--teal)" strokeWidth="3" />
          <FilledMark cx={22} cy={8} />
        </svg>
        {nowName}
      </p>
      <div aria-hidden="true">
        <ScatterChart
          width={width}
          height={NAMES_ABOVE + now.perBeat.length * ROW_HEIGHT + AXIS_HEIGHT}
          margin={{ top: NAMES_ABOVE, right: 24, bottom: 0, left: 0 }}
          accessibilityLayer={false}
        >
          <BandAndLimit namesAt="above" {...against} />
          <BeatAxes
            ticks={ticks}
            beats={now.perBeat.map(({ beat }) => beat)}
            middleName={sameClock ? "the beat" : "own lean"}
          />
          <Scatter data={[...earlier]} shape={OpenMark} isAnimationActive={false}>
            <ErrorBar
              dataKey="spread"
              direction="x"
              width={0}
              strokeWidth={1.6}
              stroke="var(--ink)"
              isAnimationActive={false}
            />
          </Scatter>
          <Scatter data={[...latest]} shape={FilledMark} isAnimationActive={false}>
            <ErrorBar
              dataKey="spread"
              direction="x"
              width={0}
              strokeWidth={3}
              stroke="var(--teal)"
              isAnimationActive={false}
            />
          </Scatter>
        </ScatterChart>
      </div>
      <p className={styles.note}>
        {bandWords(against)}
        {sameClock
          ? ""
          : " Only against a click does a take lean as a whole: here each is drawn about its own lean."}
      </p>
      <FigureTable
        shows={`Lean and spread by beat, ${beforeName} and ${nowName}`}
        caption="Figures of both takes by beat"
        columns={[
          "beat",
          `lean, ${beforeName}`,
          `lean, ${nowName}`,
          `spread, ${beforeName}`,
          `spread, ${nowName}`,
        ]}
        rows={now.perBeat.map((figures) => {
          const earlierFigures = before.perBeat.find(({ beat }) => beat === figures.beat);
          return [
            `beat ${figures.beat}`,
            formatLean(earlierFigures?.leanMs ?? null),
            formatLean(figures.leanMs),
            formatSpread(earlierFigures?.spreadMs ?? null),
            formatSpread(figures.spreadMs),
          ];
        })}
      />
    </figure>
  );
}

function drawnBeats({ perBeat, leanMs: own }: TakeBeats, shift: number, sameClock: boolean) {
  return perBeat.flatMap(({ leanMs, spreadMs }, row) =>
    leanMs === null
      ? []
      : [{ row: row + shift, lean: leanMs - (sameClock ? 0 : (own ?? 0)), spread: spreadMs ?? 0 }],
  );
}

function OpenMark({ cx, cy }: Pick<ScatterShapeProps, "cx" | "cy">) {
  return <circle cx={cx} cy={cy} r={5.5} fill="var(--sheet)" stroke="var(--ink)" strokeWidth={1.8} />;
}

function FilledMark({ cx, cy }: Pick<ScatterShapeProps, "cx" | "cy">) {
  return <circle cx={cx} cy={cy} r={6} fill="var(--teal)" />;
}
