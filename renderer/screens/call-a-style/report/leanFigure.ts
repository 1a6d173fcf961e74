/** Lean as a figure, told only where there is something to lean against. */
import { hearableMs, type Report, sharesClock } from "../../../../engine/grading/index.ts";
import { type Bpm, beatSeconds, toMs } from "../../../../engine/units/index.ts";
import { formatMs } from "../../../charts/index.ts";

/** Only for what a take without any tempo could hear: the engine's words assume the same. */
const TEMPO_UNTOLD_BPM: Bpm = 120;

type Timed = Pick<Report, "leanMs" | "tempoBpm" | "start">;

/** Whether the take met what is written: figures of strokes that met by accident would say nothing. */
export function isComparable({ workOn }: Pick<Report, "workOn">): boolean {
  return workOn.kind !== "no-match";
}

/** The lean as a figure: "9 ms ahead, in the pocket", "24 ms behind", or that there was nothing to lean against. */
export function leanFigure(report: Timed): string {
  const { leanMs } = report;
  if (!sharesClock(report) && leanMs !== null) return "not told without a click";
  const figure = formatMs(leanMs, 0);
  const heardFromMs = hearableMs(toMs(beatSeconds(report.tempoBpm ?? TEMPO_UNTOLD_BPM)));
  return leanMs !== null && leanMs !== 0 && Math.abs(leanMs) <= heardFromMs
    ? `${figure}, in the pocket`
    : figure;
}
