import { gradeTake, grooveTarget, type Report, type Target } from "../../grading/index.ts";
import type { Hit } from "../../kit/index.ts";
import type { Click } from "../../listening/index.ts";
import { beatsPerBar, type Groove, type Level } from "../../score/index.ts";
import { type Bpm, beatSeconds, type Seconds } from "../../units/index.ts";

/**
 * A take laid beside a groove that goes on for as long as the take does.
 *
 * @param hits in order of time, on the session clock.
 * @param tempoBpm of the groove: the click's, or the one that was heard. Without a click the start is free.
 * @param level of the student; steady unless said.
 */
export function besideGroove(
  hits: readonly Hit[],
  groove: Groove,
  {
    tempoBpm,
    click,
    level = "steady",
  }: { readonly tempoBpm: Bpm; readonly click: Click | null; readonly level?: Level },
): Report {
  const from = click?.from ?? hits[0]?.time ?? 0;
  const seconds = (hits.at(-1)?.time ?? from) - from;
  if (!click) {
    // The player came in anywhere in the groove, so that as much as one round of it may lie before the take.
    const bars = barsUntil(seconds, groove, tempoBpm) + groove.bars;
    return gradeTake(hits, grooveTarget(groove, { tempoBpm, bars }), { start: "free", level });
  }
  // The target's clock begins with the first beat that counts.
  const onClick = hits.map((hit) => ({ ...hit, time: hit.time - click.from }));
  return gradeTake(onClick, targetUntil(seconds, groove, tempoBpm), { start: "shared", level });
}

/** Whole bars of the groove for a take of this length; a take that ends on the one closes with that stroke. */
function targetUntil(seconds: Seconds, groove: Groove, tempoBpm: Bpm): Target {
  const bars = barsUntil(seconds, groove, tempoBpm);
  const target = grooveTarget(groove, { tempoBpm, bars });
  const lastOne = (bars - 1) * barSeconds(groove, tempoBpm);
  const halfASixteenth = beatSeconds(tempoBpm) / 8;
  if (bars === 1 || seconds > lastOne + halfASixteenth) return target;
  return { ...target, notes: target.notes.filter(({ time }) => time <= lastOne + halfASixteenth) };
}

/**
 * Whole bars that hold this much music. A stroke just before a bar line is an early one of the next bar when it is
 * nearer to that than to the last stroke written before it; one written there may be late.
 */
function barsUntil(seconds: Seconds, groove: Groove, tempoBpm: Bpm): number {
  const bars = Math.max(1, Math.ceil(seconds / barSeconds(groove, tempoBpm)));
  const end = bars * barSeconds(groove, tempoBpm);
  const lastWritten = grooveTarget(groove, { tempoBpm, bars }).notes.at(-1)?.time ?? 0;
  const aSixteenth = beatSeconds(tempoBpm) / 4;
  return seconds > Math.max((lastWritten + end) / 2, end - aSixteenth) ? bars + 1 : bars;
}

/** Seconds in a bar of the groove. */
export function barSeconds(groove: Groove, tempoBpm: Bpm): Seconds {
  return beatsPerBar(groove.metre) * beatSeconds(tempoBpm);
}
