/**
 * One measured figure with its 95 % interval and the target beside it; the table has one row a line.
 */

import type { Chance } from "../../../engine/units/index.ts";
import { type Interval, wilson } from "../../../engine/units/index.ts";
import { auroc } from "../../measures/auroc.ts";
import { balancedAccuracy } from "../../measures/balancedAccuracy.ts";
import { calibrationInterval, expectedCalibrationError, type Told } from "../../measures/calibrationError.ts";
import { meanInterval } from "../../measures/meanInterval.ts";

export interface Target {
  readonly atLeast?: number;
  readonly atMost?: number;
}

export interface Row extends Interval {
  /** What is measured, as told; also what it is recorded under. */
  readonly what: string;
  readonly figure: number;
  readonly cases: number;
  readonly target?: Target;
}

/** A share of cases, with Wilson's interval. */
export function shareRow(what: string, right: readonly boolean[], target?: Target): Row {
  const hits = right.filter(Boolean).length;
  return row(what, hits / right.length, wilson(hits, right.length), right.length, target);
}

/** A mean of figures that are not just right or wrong. */
export function meanRow(what: string, values: readonly number[], target?: Target): Row {
  const { mean, ...interval } = meanInterval(values);
  return row(what, mean, interval, values.length, target);
}

export function aurocRow(
  what: string,
  known: readonly number[],
  unknown: readonly number[],
  target?: Target,
): Row {
  const { area, ...interval } = auroc(known, unknown);
  return row(what, area, interval, known.length + unknown.length, target);
}

export function balancedRow(
  what: string,
  known: readonly boolean[],
  unknown: readonly boolean[],
  target?: Target,
): Row {
  const { accuracy, ...interval } = balancedAccuracy(known, unknown);
  return row(what, accuracy, interval, known.length + unknown.length, target);
}

export function calibrationRow(what: string, told: readonly Told[], chance: Chance, target?: Target): Row {
  return row(what, expectedCalibrationError(told), calibrationInterval(told, chance), told.length, target);
}

function row(what: string, figure: number, interval: Interval, cases: number, target?: Target): Row {
  return { what, figure, low: interval.low, high: interval.high, cases, ...(target ? { target } : {}) };
}

/** Whether the target is met by the figure itself; `undefined` where there is none. */
export function meets({ figure, target }: Row): boolean | undefined {
  if (target?.atLeast !== undefined) return figure >= target.atLeast;
  if (target?.atMost !== undefined) return figure <= target.atMost;
  return undefined;
}

/** The table, one row a line. */
export function tableText(rows: readonly Row[]): string {
  const width = Math.max(...rows.map(({ what }) => what.length));
  return rows
    .map((one) => {
      const { atLeast, atMost } = one.target ?? {};
      const target = atLeast !== undefined ? `≥ ${atLeast}` : atMost !== undefined ? `≤ ${atMost}` : "";
      const met = meets(one);
      const said = met === undefined ? "" : met ? "met" : "not met";
      return [
        one.what.padEnd(width),
        one.figure.toFixed(3),
        `[${one.low.toFixed(3)}, ${one.high.toFixed(3)}]`,
        `of ${one.cases}`.padStart(8),
        target.padEnd(8),
        said,
      ].join("  ");
    })
    .join("\n");
}

/** The figures as `recorded.ts` keeps them. */
export function recordText(rows: readonly Row[]): string {
  return rows.map(({ what, figure }) => `  ${JSON.stringify(what)}: ${figure.toFixed(4)},`).join("\n");
}
