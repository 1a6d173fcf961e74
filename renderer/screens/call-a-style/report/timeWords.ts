/**
 * Lean, said only where there is something to lean against. A take that came in freely is laid on its own pulse,
 * so its lean as a whole is nought by construction: to call that "in the pocket" would be praise for nothing.
 */
import {
  bandMs,
  hearableMs,
  isSteady,
  type Level,
  leanWords,
  type Report,
} from "../../../../engine/grading/index.ts";
import { type Bpm, beatSeconds, toMs } from "../../../../engine/units/index.ts";
import { formatMs } from "../../../charts/index.ts";

/** Only for what a take without any tempo could hear: the engine's words assume the same. */
const TEMPO_UNTOLD_BPM: Bpm = 120;

type Timed = Pick<Report, "leanMs" | "spreadMs" | "tempoBpm" | "start">;

/** Whether the take met what is written: figures of strokes that met by accident would say nothing. */
export function isComparable({ workOn }: Pick<Report, "workOn">): boolean {
  return workOn.kind !== "no-match";
}

/** Whether take and target shared a clock from the beginning. */
function sharesClock({ start }: Timed): boolean {
  return start.time === 0 && start.stretch === 1;
}

/**
 * Lean and spread of the take in one sentence.
 *
 * @example
 * timeWords(freeTake, "steady") // => "Steady against its own pulse."
 */
export function timeWords(report: Timed, level: Level): string {
  if (sharesClock(report) || report.spreadMs === null) return leanWords(report, level);
  // The same line between steady and not as in the words for a shared clock.
  const steady = isSteady(report.spreadMs, bandMs(level, report.tempoBpm ?? TEMPO_UNTOLD_BPM));
  return steady ? "Steady against its own pulse." : "Not yet steady against its own pulse.";
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
