/**
 * How well beats agree with reference beats.
 * Definitions: Davies, Degara & Plumbley, "Evaluation Methods for Musical Audio Beat Tracking Algorithms", QMUL
 * C4DM-TR-09-06 (2009); details as in mir_eval (Raffel et al., ISMIR 2014), module `beat`. The beat F-measure is in
 * eventMatching.ts, continuity in beatContinuity.ts.
 * Conventions: seconds, in rising order; every measure is from 0 to 1, and 0 where either side has too few beats.
 */
import { median, type Seconds } from "../../engine/units/index.ts";

type Beats = readonly Seconds[];

/** Beats in the first five seconds are not judged: a listener is given that long to find them. */
export function trimBeats(beats: Beats, from: Seconds = 5): Beats {
  return beats.filter((time) => time >= from);
}

const CEMGIL_SIGMA: Seconds = 0.04;

/** Cemgil, Kappen, Desain & Honing, J. New Music Research 29 (2000): a bell of 40 ms about each reference beat. */
export function cemgil(reference: Beats, estimated: Beats): number {
  if (reference.length === 0 || estimated.length === 0) return 0;
  const sum = reference.reduce((all, due) => {
    const apart = nearest(estimated, due).apart;
    return all + Math.exp(-(apart ** 2) / (2 * CEMGIL_SIGMA ** 2));
  }, 0);
  return sum / ((reference.length + estimated.length) / 2);
}

const TRAIN_RATE = 100;
const P_SCORE_WINDOW = 0.2;

/** McKinney, Moelants, Davies & Klapuri, J. New Music Research 36 (2007): impulse trains at 10 ms, correlated. */
export function pScore(reference: Beats, estimated: Beats): number {
  if (reference.length < 2 || estimated.length < 2) return 0;
  const from = Math.min(reference[0] ?? 0, estimated[0] ?? 0);
  const places = (beats: Beats): readonly number[] => [
    ...new Set(beats.map((time) => Math.ceil((time - from) * TRAIN_RATE))),
  ];
  const own = places(reference);
  const other = places(estimated);
  const reach = Math.round(P_SCORE_WINDOW * median(intervals(own)));
  const pairs = own.reduce((sum, due) => sum + other.filter((at) => Math.abs(at - due) <= reach).length, 0);
  return pairs / Math.max(reference.length, estimated.length);
}

const ERROR_BINS = 41;

/**
 * Davies, Degara & Plumbley 2011: how far the errors, as shares of the interval, are from being spread evenly. Of both
 * directions the worse counts.
 */
export function informationGain(reference: Beats, estimated: Beats): number {
  if (reference.length < 2 || estimated.length < 2) return 0;
  const most = Math.log2(ERROR_BINS);
  const entropy = Math.max(errorEntropy(reference, estimated), errorEntropy(estimated, reference));
  return (most - entropy) / most;
}

function errorEntropy(reference: Beats, estimated: Beats): number {
  const counts = new Array<number>(ERROR_BINS).fill(0);
  for (const time of estimated) {
    const { index, signed } = nearest(reference, time);
    const last = reference.length - 1;
    // The interval the error lies in; at the ends, the only one there is.
    const to = index === 0 ? 1 : index === last || signed < 0 ? index : index + 1;
    const interval = (reference[to] ?? 0) - (reference[to - 1] ?? 0);
    const share = signed / interval;
    const wrapped = share - Math.ceil(share - 0.5);
    const bin = Math.min(ERROR_BINS - 1, Math.floor((wrapped + 0.5) * ERROR_BINS));
    counts[bin] = (counts[bin] ?? 0) + 1;
  }
  return counts.reduce((sum, count) => {
    const share = count / estimated.length;
    return share > 0 ? sum - share * Math.log2(share) : sum;
  }, 0);
}

const GOTO = { threshold: 0.35, mean: 0.2, deviation: 0.2, share: 0.25 };

/**
 * Goto & Muraoka, "Issues in evaluating beat tracking systems", IJCAI workshop 1997: 1 when a quarter of the beats on end
 * are right, with small errors that vary little; else 0.
 */
export function goto(reference: Beats, estimated: Beats): number {
  if (reference.length < 3 || estimated.length < 2) return 0;
  const errors = reference.map((due, index) => {
    const before = reference[index - 1];
    const after = reference[index + 1];
    return before === undefined || after === undefined ? 1 : gotoError(estimated, before, due, after);
  });
  const wrong = errors.flatMap((error, index) => (Math.abs(error) > GOTO.threshold ? [index] : []));
  const track = gotoTrack(errors, wrong);
  if (track.length < 2) return 0;
  const mean = track.reduce((sum, error) => sum + error, 0) / track.length;
  const absolute = track.reduce((sum, error) => sum + Math.abs(error), 0) / track.length;
  const variance = track.reduce((sum, error) => sum + (error - mean) ** 2, 0) / (track.length - 1);
  return absolute < GOTO.mean && Math.sqrt(variance) < GOTO.deviation ? 1 : 0;
}

/** A share of the half interval; 1 where there is not exactly one beat half-way to either neighbour. */
function gotoError(estimated: Beats, before: Seconds, due: Seconds, after: Seconds): number {
  const early = (due - before) / 2;
  const late = (after - due) / 2;
  const [only, ...more] = estimated.filter((time) => time >= due - early && time < due + late);
  if (only === undefined || more.length > 0) return 1;
  const apart = only - due;
  return apart / (apart < 0 ? early : late);
}

/** The first and last reference beats always count as wrong; with no other, all between are the track. */
function gotoTrack(errors: readonly number[], wrong: readonly number[]): readonly number[] {
  const first = wrong[0] ?? 0;
  if (wrong.length < 3) return errors.slice(first + 1, (wrong.at(-1) ?? 0) - 1);
  const gaps = intervals(wrong);
  const longest = Math.max(...gaps);
  if (longest - 1 <= GOTO.share * (errors.length - 2)) return [];
  const from = wrong[gaps.indexOf(longest)] ?? 0;
  return errors.slice(from, from + longest + 1);
}

function intervals(times: readonly number[]): readonly number[] {
  return times.slice(1).map((time, index) => time - (times[index] ?? 0));
}

function nearest(
  beats: Beats,
  time: Seconds,
): { readonly index: number; readonly apart: number; readonly signed: number } {
  let index = 0;
  beats.forEach((beat, at) => {
    if (Math.abs(time - beat) < Math.abs(time - (beats[index] ?? 0))) index = at;
  });
  const signed = time - (beats[index] ?? 0);
  return { index, apart: Math.abs(signed), signed };
}
