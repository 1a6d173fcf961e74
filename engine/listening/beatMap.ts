/**
 * Question: when is a beat? Convention: a map rises; between its moments and beyond its ends it goes in straight lines.
 */
import type { Seconds } from "../units/index.ts";

/** Beat against time at a series of moments; between them, a straight line. Both rise. */
export interface BeatMap {
  readonly times: Float64Array;
  readonly beats: Float64Array;
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

/**
 * The beat at a moment, extrapolated likewise: {@link timeOfBeat} the other way round.
 *
 * @example
 * const steady = { times: Float64Array.of(10, 11, 11.5), beats: Float64Array.of(0, 2, 3) };
 * beatAtTime(steady, 10.5) // => 1
 */
export function beatAtTime(map: BeatMap, time: Seconds): number {
  return along(map.times, map.beats, time);
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
