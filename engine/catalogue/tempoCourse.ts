/**
 * How the tempo of a demonstration goes its way: steadily, to and fro, or all at once.
 */
import type { Bpm, Seconds } from "../units/index.ts";

/** The tempo at a felt beat from the first downbeat, as a ratio of the demonstration's tempo: above 1 is quicker. */
export type TempoCourse = (beat: number) => number;

/**
 * Quicker and slower by turns, as a sine: at `share` 0.1 up to ten in a hundred above the tempo a quarter of the way,
 * as much below it at three quarters, back at the tempo after `beats`.
 *
 * @param share from 0 (steady) up to, not including, 1.
 * @param beats felt beats of one coming and going: 32 are eight bars of four.
 * @throws RangeError when the tempo would stand still, or the length is not above 0.
 * @example
 * rubato(0.1, 32)(8) // => 1.1
 */
export function rubato(share: number, beats: number): TempoCourse {
  if (!(share >= 0 && share < 1))
    throw new RangeError(`rubato of ${share}: the share must be from 0 to below 1.`);
  if (!(beats > 0)) throw new RangeError(`rubato over ${beats} beats: the length must be above 0.`);
  return (beat) => 1 + share * Math.sin((2 * Math.PI * beat) / beats);
}

/**
 * The tempo until `atBeat`, and `ratio` times the tempo from there on.
 *
 * @param atBeat felt beats from the first downbeat; best on a whole beat, and exact on the grid of 48 a beat.
 * @throws RangeError when the ratio is not above 0.
 * @example
 * suddenChange(16, 1.2)(16) // => 1.2
 */
export function suddenChange(atBeat: number, ratio: number): TempoCourse {
  if (!(ratio > 0))
    throw new RangeError(`sudden change to ${ratio} of the tempo: the ratio must be above 0.`);
  return (beat) => (beat < atBeat ? 1 : ratio);
}

/** Steps a beat in which a course is summed up: sixteenths, triplets and their halves fall on steps. Our choice. */
const STEPS = 48;

/**
 * The time of every beat, with beat 0 at time 0: beat lengths along the course summed up by the midpoint rule, whose
 * error for a rubato of a tenth over eight bars stays below a microsecond. Before beat 0 the tempo is that of beat 0.
 */
export function timeAlong(tempoBpm: Bpm, course: TempoCourse | undefined): (beat: number) => Seconds {
  if (course === undefined) return (beat) => (beat * 60) / tempoBpm;
  const secondsABeat = (beat: number): Seconds => {
    const ratio = course(beat);
    if (!(ratio > 0 && ratio < Number.POSITIVE_INFINITY)) {
      throw new RangeError(`The tempo course gives ${ratio} at beat ${beat}: it must be a ratio above 0.`);
    }
    return 60 / (tempoBpm * ratio);
  };
  const starts: Seconds[] = [0];
  return (beat) => {
    if (beat <= 0) return beat * secondsABeat(0);
    const step = Math.floor(beat * STEPS + 1e-9);
    for (let next = starts.length; next <= step; next += 1) {
      starts.push((starts[next - 1] ?? 0) + secondsABeat((next - 0.5) / STEPS) / STEPS);
    }
    const rest = Math.max(0, beat - step / STEPS);
    return (starts[step] ?? 0) + rest * secondsABeat(step / STEPS + rest / 2);
  };
}
