/** Question: how far had the player moved from the click each time it came back? */
import { type GapDrift, gapDrifts, type Report, sharesClock } from "../../grading/index.ts";
import { clickSilences, isPlayedClick } from "../../score/index.ts";
import { beatSeconds } from "../../units/index.ts";
import type { TakeClick } from "./judgement.ts";

const NONE: readonly GapDrift[] = [];

/**
 * What happened over each silence of the click; none where it never fell silent, had not come back before the player
 * stopped, or where it is not known how it went.
 *
 * @param report of the take, laid beside the click.
 */
export function driftsInSilences(report: Report, click: TakeClick | null): readonly GapDrift[] {
  if (click === null || !isPlayedClick(click) || !sharesClock(report)) return NONE;
  const last = report.hits.reduce(
    (latest, judged) => (judged.state === "matched" ? Math.max(latest, judged.targetTime) : latest),
    0,
  );
  return gapDrifts(report.hits, clickSilences(click, last), beatSeconds(click.tempoBpm));
}
