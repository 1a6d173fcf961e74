/**
 * Question: of what is left when lean and drift are out, how much comes from the inner clock and how much from the
 * limbs?
 *
 * Method: the two-level model of Wing & Kristofferson, Perception & Psychophysics 14 (1973) 5–12. An interval is a
 * tick of the clock plus the delay of its second stroke minus the delay of its first, so a late stroke lengthens one
 * interval and shortens the next: the autocovariance of neighbouring intervals is minus the variance of the limbs,
 * γ(1) = −σ²_limb, and γ(0) = σ²_clock + 2σ²_limb. Their ratio lies in −0.5 (limbs alone) to 0 (clock alone). An
 * estimate outside means that the model does not hold for the take; it is said, and nothing is forced.
 *
 * The row weighed is the one even row of strokes with the most neighbours on one limb. What is usual at a place of
 * the bar (swing, a snare that always leans) is no wander: each interval is taken against the mean of its own place.
 *
 * With a click players correct each offset by a share α (Vorberg & Wing 1996, in Heuer & Keele (eds.), *Handbook of
 * Perception and Action* 2: A′ = (1 − α)A + T + M′ − M). The offsets then are a process of the kind ARMA(1,1), whose
 * autocovariances fall by 1 − α from lag 1 to lag 2 whatever the limbs add: α = 1 − γ(2)/γ(1).
 */
import type { Milliseconds } from "../units/index.ts";
import { grouped } from "./grouped.ts";
import { limbOf } from "./limb.ts";
import type { Stroke } from "./matching.ts";
import type { Limb, Wander } from "./report.ts";
import { placeInBar, type Target } from "./target.ts";

/** Fewer pairs of neighbouring intervals leave the correlation open by more than a quarter (its standard error is 1/√n). Our choice. */
const FEWEST_INTERVALS = 24;
/** A place of the bar met less often has no usual length yet. Our choice. */
const FEWEST_AT_PLACE = 3;
/** A share of correction is told when its standard error is no more than this. Our choice. */
const LARGEST_CORRECTION_ERROR = 0.25;
/** Written intervals are sums of fractions; this much of a beat is rounding. */
const SAME_BEAT = 0.005;

/** Stretches of successive values: correlations never reach across a gap between two. */
type Runs = readonly (readonly number[])[];

/** A limb's strokes at one even distance, without a gap. */
interface Row {
  readonly limb: Limb;
  /** Written distance, in beats. */
  readonly beats: number;
  readonly runs: readonly (readonly Stroke[])[];
}

/**
 * @param strokes offsets with any significant trend taken out, in order of the target.
 * @param how `secondsPerBeat` as played; `clicked` when the take shared a clock with the target.
 */
export function wanderOf(
  strokes: readonly Stroke[],
  target: Target,
  how: { readonly secondsPerBeat: number; readonly clicked: boolean },
): Wander {
  const row = longestRow(strokes);
  const errors = row ? intervalErrors(row, target) : [];
  const intervals = errors.reduce((sum, run) => sum + run.length, 0);
  if (!row || pairsApart(errors, 1) < FEWEST_INTERVALS) return { kind: "too-few", intervals };
  const variance = autocovariance(errors, 0);
  const neighbours = autocovariance(errors, 1);
  if (!(variance > 0)) return { kind: "too-few", intervals };
  const lag1 = neighbours / variance;
  const told = {
    limb: row.limb,
    intervals,
    intervalMs: row.beats * how.secondsPerBeat * 1000,
    intervalSpreadMs: Math.sqrt(variance),
    lag1,
    lag1Error: 1 / Math.sqrt(intervals),
    correction: how.clicked ? correctionOf(offsetRuns(row, target)) : null,
  };
  const parts = clockAndLimbs(variance, neighbours);
  return parts ? { kind: "clock-and-limbs", ...parts, ...told } : { kind: "model-does-not-hold", ...told };
}

/**
 * The two parts from the variance of intervals and the autocovariance of neighbours, both in ms²; nothing where the
 * model does not hold.
 *
 * @example
 * clockAndLimbs(600, -100) // => { clockMs: 20, limbMs: 10 }
 */
export function clockAndLimbs(
  variance: number,
  neighbours: number,
): { readonly clockMs: Milliseconds; readonly limbMs: Milliseconds } | null {
  const clock = variance + 2 * neighbours;
  return clock < 0 || neighbours > 0
    ? null
    : { clockMs: Math.sqrt(clock), limbMs: Math.sqrt(Math.abs(neighbours)) };
}

/** Of every limb and every written distance between its strokes, the row with the most neighbouring intervals. */
function longestRow(strokes: readonly Stroke[]): Row | undefined {
  let longest: Row | undefined;
  let most = 0;
  for (const [limb, its] of grouped(strokes, ({ note }) => limbOf(note.voice))) {
    const apart = its.slice(1).map(({ note }, at) => note.beat - (its[at]?.note.beat ?? 0));
    for (const [key, [beats = 0]] of grouped(apart, (distance) => Math.round(distance / SAME_BEAT))) {
      if (key <= 0) continue;
      const runs = runsAt(its, beats);
      const neighbours = runs.reduce((sum, run) => sum + Math.max(0, run.length - 2), 0);
      if (neighbours <= most) continue;
      most = neighbours;
      longest = { limb, beats, runs };
    }
  }
  return longest;
}

function runsAt(strokes: readonly Stroke[], beats: number): readonly (readonly Stroke[])[] {
  const runs: Stroke[][] = [];
  for (const stroke of strokes) {
    const run = runs[runs.length - 1];
    const last = run?.[run.length - 1];
    if (run && last && Math.abs(stroke.note.beat - last.note.beat - beats) < SAME_BEAT) run.push(stroke);
    else runs.push([stroke]);
  }
  return runs;
}

/** Errors of successive intervals, each against what is usual where it begins. */
function intervalErrors({ runs }: Row, target: Target): Runs {
  return againstUsual(
    runs.map((run) =>
      run.slice(1).map((stroke, at) => ({
        place: placeInBar(target, run[at]?.note.beat ?? 0),
        value: stroke.offsetMs - (run[at]?.offsetMs ?? 0),
      })),
    ),
  );
}

function offsetRuns({ runs }: Row, target: Target): Runs {
  return againstUsual(
    runs.map((run) =>
      run.map(({ note, offsetMs }) => ({ place: placeInBar(target, note.beat), value: offsetMs })),
    ),
  );
}

/** Each value less the mean of its place; places met too seldom end a run. The mean's own share of chance is given back. */
function againstUsual(
  runs: readonly (readonly { readonly place: number; readonly value: number }[])[],
): Runs {
  const usual = new Map<number, { readonly mean: number; readonly share: number }>();
  for (const [place, those] of grouped(runs.flat(), ({ place }) => place)) {
    if (those.length < FEWEST_AT_PLACE) continue;
    const mean = those.reduce((sum, { value }) => sum + value, 0) / those.length;
    usual.set(place, { mean, share: Math.sqrt(those.length / (those.length - 1)) });
  }
  return runs.flatMap((run) => {
    const parts: number[][] = [[]];
    for (const { place, value } of run) {
      const known = usual.get(place);
      if (known) parts[parts.length - 1]?.push((value - known.mean) * known.share);
      else parts.push([]);
    }
    return parts.filter(({ length }) => length > 0);
  });
}

/** Mean product of values `lag` apart within the runs; the values already have a mean of nought. */
function autocovariance(runs: Runs, lag: number): number {
  let sum = 0;
  for (const run of runs) {
    for (let at = lag; at < run.length; at += 1) sum += (run[at] ?? 0) * (run[at - lag] ?? 0);
  }
  return sum / pairsApart(runs, lag);
}

/** How many pairs of values stand `lag` apart within a run. */
function pairsApart(runs: Runs, lag: number): number {
  return runs.reduce((sum, run) => sum + Math.max(0, run.length - lag), 0);
}

const BLOCKS = 8;

/** α, with a jackknife over blocks (Quenouille, Biometrika 43 (1956) 353–360) for its standard error. */
function correctionOf(offsets: Runs): number | null {
  const alpha = (runs: Runs) => 1 - autocovariance(runs, 2) / autocovariance(runs, 1);
  const whole = alpha(offsets);
  const count = pairsApart(offsets, 0);
  if (!Number.isFinite(whole) || pairsApart(offsets, 2) < FEWEST_INTERVALS) return null;
  const without = Array.from({ length: BLOCKS }, (_, block) => alpha(withoutBlock(offsets, block, count)));
  const mean = without.reduce((sum, value) => sum + value, 0) / BLOCKS;
  const squares = without.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const error = Math.sqrt(((BLOCKS - 1) / BLOCKS) * squares);
  // Not a number where a block was all there is of neighbours: then the share is not told.
  // Outside 0 to 2 the process would run away: nobody plays so (Vorberg & Wing 1996).
  return error <= LARGEST_CORRECTION_ERROR && whole > 0 && whole < 2 ? whole : null;
}

function withoutBlock(runs: Runs, block: number, count: number): Runs {
  const from = Math.floor((block * count) / BLOCKS);
  const to = Math.floor(((block + 1) * count) / BLOCKS);
  let at = 0;
  return runs.flatMap((run) => {
    const begin = at;
    at += run.length;
    return [run.slice(0, Math.max(0, from - begin)), run.slice(Math.max(0, to - begin))].filter(
      ({ length }) => length > 0,
    );
  });
}
