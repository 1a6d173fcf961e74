/**
 * Question: after how many seconds does this music come round again?
 * Method: strokes are folded at each period of a fine grid; where they repeat, strokes of one part fall on one
 * another more often than chance would have it. No template and no metre is assumed.
 */
import type { Seconds } from "../units/index.ts";
import { PART_COUNT, ROLE_WEIGHTS, SOUND_PARTS, type Stroke } from "./roles.ts";

/** From two or three beats of a fast groove to a bar of a slow one. Our choice. */
const SHORTEST: Seconds = 0.7;
const LONGEST: Seconds = 5.2;
/** Of the stretch: what comes round must have begun its second round for a quarter of the stretch. Our choice. */
const LONGEST_SHARE = 0.75;
/** Ratio between neighbouring periods: over eight repeats the fold then blurs by less than a place. */
const STEP = 1.0016;
/** Places of a fold. At the longest period one is a tenth of a second wide, and a stroke falls on two. */
const BINS = 48;
/** Peaks nearer than this are one: in natural log, a part in a hundred. */
const SAME_PEAK_LOG = 0.01;

/**
 * The periods at which the strokes repeat best, best first.
 *
 * @param strokes a stretch of some 8 to 12 seconds.
 */
export function repeatingPeriods(strokes: readonly Stroke[], count: number): readonly Seconds[] {
  const first = strokes[0];
  const last = strokes.at(-1);
  if (!first || !last) return [];
  const longest = Math.min(LONGEST, (last.time - first.time) * LONGEST_SHARE);
  const parts = partsOf(strokes);
  const byChance = coincidencesByChance(parts);
  const bins = new Float64Array(BINS + 1);
  const periods: number[] = [];
  const scores: number[] = [];
  for (let period = SHORTEST; period <= longest; period *= STEP) {
    periods.push(period);
    // In standard deviations of chance.
    scores.push((coincidences(parts, period, bins) - byChance) / Math.sqrt(byChance));
  }
  const peaks: { period: number; score: number }[] = [];
  scores.forEach((score, index) => {
    if (score >= (scores[index - 1] ?? -1) && score > (scores[index + 1] ?? -1)) {
      peaks.push({ period: periods[index] ?? 0, score });
    }
  });
  peaks.sort((a, b) => b.score - a.score);
  const kept: number[] = [];
  for (const { period } of peaks) {
    if (kept.length === count) break;
    if (kept.every((other) => Math.abs(Math.log(other / period)) > SAME_PEAK_LOG)) kept.push(period);
  }
  return kept;
}

/** The strokes of one part, from the first stroke of all. */
interface Part {
  readonly times: Float64Array;
  readonly weights: Float64Array;
  readonly partWeight: number;
}

function partsOf(strokes: readonly Stroke[]): readonly Part[] {
  const start = strokes[0]?.time ?? 0;
  return Array.from({ length: PART_COUNT }, (_, part) => part).flatMap((part) => {
    const own = strokes.filter(({ sound }) => SOUND_PARTS[sound] === part);
    if (own.length === 0) return [];
    return [
      {
        times: Float64Array.from(own.map(({ time }) => time - start)),
        weights: Float64Array.from(own.map(({ weight }) => weight)),
        partWeight: ROLE_WEIGHTS[part] ?? 0,
      },
    ];
  });
}

/** Pairs of strokes of one part that would fall on the same or the next bin by chance, whatever the period. */
function coincidencesByChance(parts: readonly Part[]): number {
  return parts.reduce((all, { weights, partWeight }) => {
    const sum = weights.reduce((a, b) => a + b, 0);
    return all + (partWeight * 2 * sum * sum) / BINS;
  }, 0);
}

/** Pairs of strokes of one part that fall on the same or the next bin when folded at this period. */
function coincidences(parts: readonly Part[], period: Seconds, bins: Float64Array): number {
  return parts.reduce((all, part) => all + part.partWeight * ofPart(part, period, bins), 0);
}

/** @param bins room to count in, one bin more than a fold has; what is in it does not matter. */
function ofPart({ times, weights }: Part, period: Seconds, bins: Float64Array): number {
  bins.fill(0);
  // Each stroke falls on two bins, and so also on itself: that is no coincidence.
  let withItself = 0;
  for (let index = 0; index < times.length; index += 1) {
    const repeat = (times[index] ?? 0) / period;
    // No time is below 0, so that the whole part is the next integer toward 0: quicker than rounding down.
    const place = (repeat - (repeat | 0)) * BINS;
    const weight = weights[index] ?? 0;
    const low = place | 0;
    const share = place - low;
    bins[low] = (bins[low] ?? 0) + weight * (1 - share);
    bins[low + 1] = (bins[low + 1] ?? 0) + weight * share;
    withItself += weight * weight * (1 - share * (1 - share));
  }
  // The bin after the last is the first.
  const wrapped = (bins[0] ?? 0) + (bins[BINS] ?? 0);
  bins[0] = wrapped;
  bins[BINS] = wrapped;
  let together = 0;
  for (let bin = 0; bin < BINS; bin += 1) {
    const here = bins[bin] ?? 0;
    together += here * (here + (bins[bin + 1] ?? 0));
  }
  return together - withItself;
}
