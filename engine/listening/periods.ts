/**
 * Question: after how many seconds does this music come round again?
 * Method: strokes are folded at each period of a fine grid; where they repeat, strokes of one role fall on one
 * another more often than chance would have it. No template and no metre is assumed.
 */
import type { Seconds } from "../units/index.ts";
import { ROLE_COUNT, ROLE_WEIGHTS, type Stroke } from "./roles.ts";

const SHORTEST: Seconds = 0.7;
const LONGEST: Seconds = 5.2;
/** Ratio between neighbouring periods: over eight repeats the fold then blurs by less than a place. */
const STEP = 1.0016;
const BINS = 48;

/**
 * The periods at which the strokes repeat best, best first.
 *
 * @param strokes a stretch of some 8 to 12 seconds.
 */
export function repeatingPeriods(strokes: readonly Stroke[], count: number): readonly Seconds[] {
  const first = strokes[0];
  const last = strokes.at(-1);
  if (!first || !last) return [];
  const longest = Math.min(LONGEST, (last.time - first.time) * 0.75);
  const periods: number[] = [];
  const scores: number[] = [];
  for (let period = SHORTEST; period <= longest; period *= STEP) {
    periods.push(period);
    scores.push(repetition(strokes, first.time, period));
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
    if (kept.every((other) => Math.abs(Math.log(other / period)) > 0.01)) kept.push(period);
  }
  return kept;
}

/** Coincidences beyond chance, in standard deviations of chance. */
function repetition(strokes: readonly Stroke[], start: Seconds, period: Seconds): number {
  const counts = new Float64Array(ROLE_COUNT * BINS);
  const own = new Float64Array(ROLE_COUNT);
  const sums = new Float64Array(ROLE_COUNT);
  for (const { time, role, weight } of strokes) {
    const place = (((time - start) / period) % 1) * BINS;
    const low = Math.floor(place);
    const share = place - low;
    const first = role * BINS + (low % BINS);
    const second = role * BINS + ((low + 1) % BINS);
    counts[first] = (counts[first] ?? 0) + weight * (1 - share);
    counts[second] = (counts[second] ?? 0) + weight * share;
    sums[role] = (sums[role] ?? 0) + weight;
    own[role] = (own[role] ?? 0) + weight * weight * (1 - share * (1 - share));
  }
  let found = 0;
  let byChance = 0;
  for (let role = 0; role < ROLE_COUNT; role += 1) {
    const sum = sums[role] ?? 0;
    if (sum === 0) continue;
    const weight = ROLE_WEIGHTS[role] ?? 1;
    let together = 0;
    for (let bin = 0; bin < BINS; bin += 1) {
      const here = counts[role * BINS + bin] ?? 0;
      const next = counts[role * BINS + ((bin + 1) % BINS)] ?? 0;
      together += here * (here + next);
    }
    found += weight * (together - (own[role] ?? 0));
    byChance += (weight * 2 * sum * sum) / BINS;
  }
  return byChance === 0 ? 0 : (found - byChance) / Math.sqrt(byChance);
}
