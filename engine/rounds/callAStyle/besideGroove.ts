import { gradeTake, grooveTarget, type Report } from "../../grading/index.ts";
import type { Hit } from "../../kit/index.ts";
import type { Click } from "../../listening/index.ts";
import { beatsPerBar, type Groove } from "../../score/index.ts";
import { type Bpm, beatSeconds, type Seconds } from "../../units/index.ts";

/**
 * A take laid beside a groove that goes on for as long as the take does.
 *
 * @param hits in order of time, on the session clock.
 * @param tempoBpm of the groove: the click's, or the one that was heard. Without a click the start is free.
 */
export function besideGroove(
  hits: readonly Hit[],
  groove: Groove,
  { tempoBpm, click }: { readonly tempoBpm: Bpm; readonly click: Click | null },
): Report {
  const from = click?.from ?? hits[0]?.time ?? 0;
  const bars = barsUntil((hits.at(-1)?.time ?? from) - from, groove, tempoBpm);
  const target = grooveTarget(groove, { tempoBpm, bars });
  if (!click) return gradeTake(hits, target, { start: "free" });
  // The target's clock begins with the first beat that counts.
  const onClick = hits.map((hit) => ({ ...hit, time: hit.time - click.from }));
  return gradeTake(onClick, target, { start: "shared" });
}

/** Whole bars that hold this much music, the stroke at its very end included. */
function barsUntil(seconds: Seconds, groove: Groove, tempoBpm: Bpm): number {
  const aSixteenth = beatSeconds(tempoBpm) / 4;
  return Math.max(1, Math.ceil((seconds + aSixteenth) / barSeconds(groove, tempoBpm)));
}

/** Seconds in a bar of the groove. */
export function barSeconds(groove: Groove, tempoBpm: Bpm): Seconds {
  return beatsPerBar(groove.metre) * beatSeconds(tempoBpm);
}
