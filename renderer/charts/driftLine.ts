/**
 * The fitted drift as a line through the bars of a take. A report carries how much tempo was gained; how that bends
 * the leans is known from how it was fitted (`engine/grading/trend.ts`): straight against a shared clock, else a
 * parabola from which the straight part is taken out, since that is the tempo itself.
 */
import { type BarFigures, type Report, sharesClock } from "../../engine/grading/index.ts";
import type { Milliseconds, Seconds } from "../../engine/units/index.ts";

export interface Drifting extends Pick<Report, "driftPercent" | "start"> {
  readonly perBar: readonly BarFigures[];
  readonly barSeconds: Seconds;
}

/**
 * What the drift alone moves a bar by: on the whole of the take nought, since the constant part is the lean.
 *
 * @returns a function of a bar's number (its middle; parts of bars are allowed), `undefined` where no drift is told.
 */
export function driftLine({
  perBar,
  driftPercent,
  start,
  barSeconds,
}: Drifting): ((bar: number) => Milliseconds) | undefined {
  const told = perBar.filter(({ leanMs }) => leanMs !== null);
  const first = told[0]?.bar;
  const last = told.at(-1)?.bar;
  if (driftPercent === null || first === undefined || last === undefined || first === last) return undefined;
  const weight = told.reduce((sum, { count }) => sum + count, 0);
  const mean = (of: (bar: BarFigures) => number): number =>
    told.reduce((sum, bar) => sum + bar.count * of(bar), 0) / weight;
  const middle = mean(({ bar }) => bar);
  // One percent is 10 ms in each second.
  const msPerSecond = -10 * driftPercent;
  if (sharesClock({ start })) return (bar) => msPerSecond * barSeconds * (bar - middle);

  const length = (last - first + 1) * barSeconds;
  const square = (bar: number): number => (bar - middle) ** 2;
  const meanSquare = mean(({ bar }) => square(bar));
  const straight = mean(({ bar }) => square(bar) * (bar - middle)) / mean(({ bar }) => (bar - middle) ** 2);
  const bend = (bar: number): number => square(bar) - meanSquare - straight * (bar - middle);
  return (bar) => ((msPerSecond * barSeconds ** 2) / (2 * length)) * bend(bar);
}
