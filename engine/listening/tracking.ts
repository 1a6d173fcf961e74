/**
 * Question: where is the beat at each moment, when nobody plays like a clock?
 * Method: from a steady stretch the strokes' own places in the bar are learnt; going forward and backward from
 * there each stroke that falls near a place of its own role nudges phase and period (a phase-locked loop; the
 * linear phase and period correction of Vorberg & Wing 1996 with small gains).
 */
import type { Seconds } from "../units/index.ts";
import { ROLE_COUNT, type Stroke } from "./roles.ts";

/** Beat against time at a series of moments; between them, a straight line. Both rise. */
export interface BeatMap {
  readonly times: Float64Array;
  readonly beats: Float64Array;
}

/** The places are learnt within so many beats, whatever the metre: enough for what a hand repeats. Our choice. */
const BEATS_IN_FOLD = 4;
const BINS_PER_BEAT = 48;
const BINS = BEATS_IN_FOLD * BINS_PER_BEAT;
/** Strokes further than this from every place of their role do not nudge. In beats. */
const NEAR = 0.12;
/** Share of an error by which one stroke moves phase and period. Our choice, tuned on the development data. */
const PHASE_GAIN = 0.09;
const PERIOD_GAIN = 0.012;
/** The period stays within these ratios of the steady stretch's: much further off is another pulse. Our choice. */
const SHORTEST_RATIO = 0.8;
const LONGEST_RATIO = 1.25;
/** A stroke counts for its bin and for this many on either side, by a bell of this standard deviation. Our choice. */
const SMEAR_BINS = 3;
const SMEAR_SD_BINS = 1.4;
/** A place counts when it holds at least this share of the role's fullest place. */
const PLACE_SHARE = 0.25;

/**
 * Follows the pulse over all strokes.
 *
 * @param strokes in order of time.
 * @param from index of the first stroke of the steady stretch, `to` one past its last.
 * @param period seconds a beat in that stretch. Beat 0 is at its first stroke.
 */
export function followPulse(strokes: readonly Stroke[], from: number, to: number, period: Seconds): BeatMap {
  const start = strokes[from]?.time ?? 0;
  const places = learnPlaces(strokes.slice(from, to), start, period);
  const times = new Float64Array(strokes.length);
  const beats = new Float64Array(strokes.length);
  follow(strokes, { first: from, step: 1, start, period, places }, times, beats);
  follow(strokes, { first: from, step: -1, start, period, places }, times, beats);
  // Nudges between the strokes of a unison may step back by a thousandth of a beat; time does not.
  for (let index = 1; index < beats.length; index += 1) {
    beats[index] = Math.max(beats[index] ?? 0, beats[index - 1] ?? 0);
  }
  return { times, beats };
}

interface Course {
  readonly first: number;
  readonly step: 1 | -1;
  readonly start: Seconds;
  readonly period: Seconds;
  readonly places: readonly (readonly number[])[];
}

function follow(strokes: readonly Stroke[], course: Course, times: Float64Array, beats: Float64Array): void {
  let anchorTime = course.start;
  let anchorBeat = 0;
  let period = course.period;
  for (let index = course.first; index >= 0 && index < strokes.length; index += course.step) {
    const stroke = strokes[index];
    if (!stroke) break;
    const predicted = anchorBeat + (stroke.time - anchorTime) / period;
    const error = distanceToPlace(course.places[stroke.role] ?? [], predicted);
    if (error !== undefined) {
      anchorBeat = predicted - PHASE_GAIN * stroke.weight * error;
      period *= 1 + course.step * PERIOD_GAIN * stroke.weight * error;
      period = Math.min(course.period * LONGEST_RATIO, Math.max(course.period * SHORTEST_RATIO, period));
    } else anchorBeat = predicted;
    anchorTime = stroke.time;
    times[index] = stroke.time;
    beats[index] = anchorBeat;
  }
}

/** Signed distance, in beats, from the nearest place; `undefined` when none is near. */
function distanceToPlace(places: readonly number[], beat: number): number | undefined {
  let nearest: number | undefined;
  for (const place of places) {
    let distance = (beat - place) % BEATS_IN_FOLD;
    if (distance > BEATS_IN_FOLD / 2) distance -= BEATS_IN_FOLD;
    if (distance < -BEATS_IN_FOLD / 2) distance += BEATS_IN_FOLD;
    if (Math.abs(distance) <= NEAR && (nearest === undefined || Math.abs(distance) < Math.abs(nearest))) {
      nearest = distance;
    }
  }
  return nearest;
}

/** For each role the beats, within four, at which its strokes gather. */
function learnPlaces(
  strokes: readonly Stroke[],
  start: Seconds,
  period: Seconds,
): readonly (readonly number[])[] {
  const counts = new Float64Array(ROLE_COUNT * BINS);
  for (const { time, role, weight } of strokes) {
    const bin = Math.round((((time - start) / period) % BEATS_IN_FOLD) * BINS_PER_BEAT);
    for (let offset = -SMEAR_BINS; offset <= SMEAR_BINS; offset += 1) {
      const slot = role * BINS + ((((bin + offset) % BINS) + BINS) % BINS);
      counts[slot] = (counts[slot] ?? 0) + weight * Math.exp(-0.5 * (offset / SMEAR_SD_BINS) ** 2);
    }
  }
  return Array.from({ length: ROLE_COUNT }, (_, role) => {
    const own = counts.subarray(role * BINS, (role + 1) * BINS);
    const fullest = own.reduce((most, count) => Math.max(most, count), 0);
    const places: number[] = [];
    own.forEach((count, bin) => {
      const before = own[(bin + BINS - 1) % BINS] ?? 0;
      const after = own[(bin + 1) % BINS] ?? 0;
      if (count > 0 && count >= fullest * PLACE_SHARE && count >= before && count > after) {
        places.push(bin / BINS_PER_BEAT);
      }
    });
    return places;
  });
}

/**
 * The moment of a beat, extrapolated in a straight line beyond the ends.
 *
 * @example
 * const steady = { times: Float64Array.of(10, 11, 11.5), beats: Float64Array.of(0, 2, 3) };
 * timeOfBeat(steady, 1) // => 10.5
 * timeOfBeat(steady, 5) // => 12.5
 */
export function timeOfBeat(map: BeatMap, beat: number): Seconds {
  return along(map.beats, map.times, beat);
}

/** How far from an end the slope for extrapolating is taken: a few strokes, so that one unison does not set it. */
const END_STRETCH = 24;

function along(x: Float64Array, y: Float64Array, value: number): number {
  const last = x.length - 1;
  if (last < 1) return (y[0] ?? 0) + (value - (x[0] ?? 0));
  if (value <= (x[0] ?? 0)) return extrapolated(x, y, 0, Math.min(last, END_STRETCH), value);
  if (value >= (x[last] ?? 0)) return extrapolated(x, y, last, Math.max(0, last - END_STRETCH), value);
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((x[middle] ?? 0) <= value) low = middle;
    else high = middle;
  }
  const run = (x[high] ?? 0) - (x[low] ?? 0);
  return run <= 0
    ? (y[low] ?? 0)
    : (y[low] ?? 0) + (((y[high] ?? 0) - (y[low] ?? 0)) * (value - (x[low] ?? 0))) / run;
}

function extrapolated(x: Float64Array, y: Float64Array, end: number, inner: number, value: number): number {
  const run = (x[inner] ?? 0) - (x[end] ?? 0);
  const slope = run === 0 ? 0 : ((y[inner] ?? 0) - (y[end] ?? 0)) / run;
  return (y[end] ?? 0) + slope * (value - (x[end] ?? 0));
}
