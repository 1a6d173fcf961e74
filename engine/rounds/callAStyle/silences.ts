/** Question: how far had the player moved from the click each time it came back? */
import { type GapDrift, gapDrifts, type Report, sharesClock } from "../../grading/index.ts";
import { beatsPerBar, clickSilences, isPlayedClick } from "../../score/index.ts";
import { beatSeconds } from "../../units/index.ts";
import type { TakeClick } from "./judgement.ts";

const NONE: readonly GapDrift[] = [];

/**
 * What happened over each silence of the click that began after the player had; none where it never fell silent, had not come
 * back before the player stopped, or where it is not known how it went.
 *
 * @param report of the take, laid beside the click.
 * @param click as it was played.
 * @param counted from the first beat the report counts from, which may lie whole bars later.
 */
export function driftsInSilences(
  report: Report,
  click: TakeClick | null,
  counted: TakeClick | null = click,
): readonly GapDrift[] {
  if (click === null || !isPlayedClick(click) || !sharesClock(report)) return NONE;
  const beat = beatSeconds(click.tempoBpm);
  const before = (counted?.from ?? click.from) - click.from;
  const barsBefore = Math.round(before / (beatsPerBar(click.way.metre) * beat));
  const last = report.hits.reduce(
    (latest, judged) => (judged.state === "matched" ? Math.max(latest, judged.targetTime) : latest),
    0,
  );
  const silences = clickSilences(click, before + last).flatMap(({ bar, bars, from, to }) =>
    // At least a bar of the player's own lies before it, from which to have moved.
    barsBefore > 0 && bar <= barsBefore + 1
      ? []
      : [{ bar: bar - barsBefore, bars, from: from - before, to: to - before }],
  );
  return gapDrifts(report.hits, silences, beat);
}
