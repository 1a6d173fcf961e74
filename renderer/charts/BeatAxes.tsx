/** The axes of a chart with a row a beat: milliseconds across, ahead on the left, behind on the right. */
import { CartesianGrid, ReferenceLine, XAxis, YAxis } from "recharts";
import type { Milliseconds } from "../../engine/units/index.ts";
import styles from "./charts.module.css";

export const AXIS_HEIGHT = 44;
const ROW_NAME_WIDTH = 64;

export interface BeatAxesProps {
  /** As `axisTicks` gives them. */
  readonly ticks: readonly Milliseconds[];
  /** Beats of the bar, from the top row down. */
  readonly beats: readonly number[];
  /** What the line in the middle is. */
  readonly middleName?: string;
}

export function BeatAxes({ ticks, beats, middleName = "the beat" }: BeatAxesProps) {
  const edge = ticks.at(-1) ?? 0;
  return (
    <>
      <CartesianGrid horizontal={false} stroke="var(--rule)" strokeDasharray="1 4" />
      <XAxis
        type="number"
        dataKey="lean"
        domain={[-edge, edge]}
        ticks={[...ticks]}
        interval={0}
        height={AXIS_HEIGHT}
        axisLine={false}
        tickLine={false}
        tick={({ x, y, payload }) => (
          <MsTick {...{ x, y, middleName }} ms={Number(payload.value)} edgeMs={edge} />
        )}
      />
      <YAxis
        type="number"
        dataKey="row"
        domain={[-0.5, beats.length - 0.5]}
        reversed
        ticks={beats.map((_, row) => row)}
        interval={0}
        width={ROW_NAME_WIDTH}
        axisLine={false}
        tickLine={false}
        tick={(tick) => (
          <text x={0} y={Number(tick.y) + 5} className={styles.rowName}>
            beat {beats[Number(tick.payload.value)]}
          </text>
        )}
      />
      <ReferenceLine x={0} stroke="var(--ink)" strokeWidth={1.4} />
    </>
  );
}

interface MsTickProps {
  readonly x: number | string;
  readonly y: number | string;
  readonly ms: Milliseconds;
  readonly edgeMs: Milliseconds;
  readonly middleName: string;
}

/** Milliseconds without a sign, since the side says it; the sides are named at both ends and in the middle. */
function MsTick({ x, y, ms, edgeMs, middleName }: MsTickProps) {
  const side = ms === 0 ? middleName : ms === -edgeMs ? "ahead" : ms === edgeMs ? "behind" : undefined;
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
