/**
 * Question: where is the beat at each moment, when nobody plays like a clock?
 * Method: from a steady stretch the places of the strokes are learnt, a rate for each part at each moment of what comes
 * round. From there courses are followed forward and backward in parallel: on each of them a stroke near a place of its
 * part nudges phase and period (linear phase and period correction, Vorberg & Wing 1996), and where strokes
 * begin to fall beside all places new courses branch off the last beat at other tempos, at a price. What the strokes say is a likelihood: how often this part plays here, less
 * what should have been played and was not. The likeliest course is the beat map (a beam search; the states are those
 * of the bar-pointer model of Whiteley, Cemgil & Godsill, ISMIR 2006).
 */
import type { Seconds } from "../units/index.ts";
import type { BeatMap } from "./beatMap.ts";
import { PART_COUNT, ROLE_WEIGHTS, SOUND_PARTS, type Stroke } from "./roles.ts";

/** A stretch of strokes with its even pulse. */
export interface Stretch {
  /** Index of its first stroke, and one past that of its last. */
  readonly from: number;
  readonly to: number;
  /** Seconds a beat. Beat 0 is at its first stroke. */
  readonly period: Seconds;
  /** Beats after which the strokes come round. */
  readonly beatsRound: number;
}

const BINS_PER_BEAT = 24;
/** Strokes further than this from every place of their part do not nudge. In beats. */
const NEAR_BEATS = 0.12;
/** A stroke counts for its bin and for this many on either side, by a bell of this standard deviation. Our choice. */
const SMEAR_BINS = 3;
const SMEAR_SD_BINS = 0.9;
/** A place counts when it holds at least this share of the part's fullest place. */
const PLACE_SHARE = 0.25;
/** Strokes of any part at any moment, per beat: what no learnt place holds. Our choice. */
const FLOOR_PER_BEAT = 0.12;
const LOG_FLOOR = Math.log(FLOOR_PER_BEAT);

/**
 * How firmly a course holds its tempo: the share of an error by which one stroke moves phase and period. The steady one
 * is tuned on the development data, which were played to a click; the free one follows a tempo that breathes by a tenth
 * over eight bars. Freedom has a price, in natural-log units: most players mean to be steady. Our choice.
 */
const HOLDS = [
  { phase: 0.09, period: 0.012, price: 0 },
  { phase: 0.3, period: 0.12, price: 4 },
] as const;
type Hold = (typeof HOLDS)[number];

/** New tempos tried at each beat, as ratios of the old, and what a sudden change costs. Our choice. */
const SUDDEN_RATIOS = Array.from({ length: 23 }, (_, index) => 1.035 ** (index - 11)).filter(
  (ratio) => ratio !== 1,
);
const SUDDEN_PRICE = 11;
/** On the beat: strokes this near to one, in beats. Changes of tempo begin there. Our choice. */
const ON_BEAT = 0.1;
/**
 * How far strokes fall beside their places, in natural-log units of how often they are played there, the older ones counting
 * less and less: from so much on the tempo may have changed. Our choice.
 */
const LOST = 5;
/** What a stroke near no place counts. */
const BESIDE_ALL = 3;
const LOST_KEPT = 0.85;
/** A change of tempo is noticed at most so many beats after it began. Our choice. */
const BEATS_REMEMBERED = 3;
/** Courses are compared after so many strokes, while there are more than the holds. */
const PRUNED_EVERY = 4;
/** A course this much less likely than the best is given up; more than so many are not followed. Our choice. */
const GIVEN_UP = 20;
const MOST_COURSES = 40;
/** Courses this near one another, in beats and in log period, are one. */
const SAME_BEATS = 0.04;
const SAME_PERIOD_LOG = 0.012;
/** The period stays within this ratio of the stretch's: much further off is another pulse. Our choice. */
const FARTHEST_RATIO = 1.6;

/** Follows the pulse of a stretch over all strokes, which are in order of time. */
export function followPulse(strokes: readonly Stroke[], stretch: Stretch): BeatMap {
  const { from, to, period, beatsRound } = stretch;
  const within = strokes.slice(from, to);
  const time = strokes[from]?.time ?? 0;
  const even = within.map((stroke) => (stroke.time - time) / period);
  const first = fromMiddle(strokes, from, period, learnPlaces(within, even, beatsRound));
  // Who did not hold the tempo has blurred what was learnt: it is learnt again along the course, and followed again.
  const followed = first.steady
    ? first
    : fromMiddle(strokes, from, period, learnPlaces(strokes, first.beats, beatsRound));
  const beats = Float64Array.from(followed.beats);
  // Nudges between the strokes of a unison may step back by a thousandth of a beat; time does not.
  for (let index = 1; index < beats.length; index += 1) {
    beats[index] = Math.max(beats[index] ?? 0, beats[index - 1] ?? 0);
  }
  return { times: Float64Array.from(strokes, (stroke) => stroke.time), beats };
}

/** Beats by stroke, and whether the tempo was held. */
interface Followed {
  readonly beats: readonly number[];
  readonly steady: boolean;
}

/** Forward and backward from one stroke, which is at beat 0. */
function fromMiddle(strokes: readonly Stroke[], from: number, period: Seconds, places: Places): Followed {
  const start = { time: strokes[from]?.time ?? 0, period };
  const after = follow(strokes.slice(from), start, places, 1);
  const before = follow(strokes.slice(0, from).reverse(), start, places, -1);
  return { beats: [...before.beats].reverse().concat(after.beats), steady: after.steady && before.steady };
}

/** What is learnt of a stretch: by part and bin, the log rate per beat, and the way to the nearest place. */
interface Places {
  readonly bins: number;
  readonly logRates: Float64Array;
  /** Signed beats from the nearest place; not a number where none is near. */
  readonly errors: Float64Array;
  /** How much less often the part is played here than at that place, in natural-log units. */
  readonly beside: Float64Array;
  /** Expected weight of strokes per beat, over all parts. */
  readonly perBeat: number;
}

/** @param beats of the strokes, not yet turned to beat one. */
function learnPlaces(strokes: readonly Stroke[], beats: readonly number[], beatsRound: number): Places {
  const bins = beatsRound * BINS_PER_BEAT;
  const counts = new Float64Array(PART_COUNT * bins);
  strokes.forEach(({ sound, weight }, index) => {
    const part = SOUND_PARTS[sound] ?? 0;
    const exact = (beats[index] ?? 0) * BINS_PER_BEAT;
    const bin = Math.round(exact);
    for (let offset = -SMEAR_BINS; offset <= SMEAR_BINS; offset += 1) {
      const slot = part * bins + ((((bin + offset) % bins) + bins) % bins);
      const bell = Math.exp(-0.5 * ((bin + offset - exact) / SMEAR_SD_BINS) ** 2) / (SMEAR_SD_BINS * 2.5066);
      counts[slot] = (counts[slot] ?? 0) + weight * bell;
    }
  });
  const rounds = Math.max(1, ((beats.at(-1) ?? 0) - (beats[0] ?? 0)) / beatsRound);
  const logRates = new Float64Array(counts.length);
  const errors = new Float64Array(counts.length);
  const beside = new Float64Array(counts.length);
  let expected = 0;
  for (let part = 0; part < PART_COUNT; part += 1) {
    const own = counts.subarray(part * bins, (part + 1) * bins);
    if (!own.some((count) => count > 0)) {
      // A part that does not play: what follows would come to the same, more slowly.
      logRates.fill(LOG_FLOOR, part * bins, (part + 1) * bins);
      errors.fill(Number.NaN, part * bins, (part + 1) * bins);
      beside.fill(BESIDE_ALL, part * bins, (part + 1) * bins);
      expected += (ROLE_WEIGHTS[part] ?? 0) * FLOOR_PER_BEAT;
      continue;
    }
    const near = nearestPlaces(own);
    for (let bin = 0; bin < bins; bin += 1) {
      const rate = ((own[bin] ?? 0) * BINS_PER_BEAT) / rounds + FLOOR_PER_BEAT;
      logRates[part * bins + bin] = Math.log(rate);
      errors[part * bins + bin] = near[bin] ?? Number.NaN;
      expected += ((ROLE_WEIGHTS[part] ?? 0) * rate) / bins;
    }
    for (let bin = 0; bin < bins; bin += 1) {
      const error = near[bin] ?? Number.NaN;
      const place = bin - Math.round(error * BINS_PER_BEAT);
      const atPlace = logRates[part * bins + (((place % bins) + bins) % bins)] ?? 0;
      beside[part * bins + bin] = Number.isNaN(error)
        ? BESIDE_ALL
        : Math.max(0, atPlace - (logRates[part * bins + bin] ?? 0));
    }
  }
  return { bins, logRates, errors, beside, perBeat: expected };
}

/** For each bin the signed beats from the nearest place at which the strokes of a part gather. */
function nearestPlaces(counts: Float64Array): Float64Array {
  const bins = counts.length;
  const fullest = counts.reduce((most, count) => Math.max(most, count), 0);
  const reach = Math.floor(NEAR_BEATS * BINS_PER_BEAT);
  const errors = new Float64Array(bins).fill(Number.NaN);
  counts.forEach((count, bin) => {
    const before = counts[(bin + bins - 1) % bins] ?? 0;
    const after = counts[(bin + 1) % bins] ?? 0;
    if (count <= 0 || count < fullest * PLACE_SHARE || count < before || count <= after) return;
    // The top of the bell through the three bins.
    const bend = before - 2 * count + after;
    const top = bend < 0 ? (0.5 * (before - after)) / bend : 0;
    for (let offset = -reach; offset <= reach; offset += 1) {
      const at = (((bin + offset) % bins) + bins) % bins;
      const error = (offset - top) / BINS_PER_BEAT;
      const known = errors[at] ?? Number.NaN;
      if (Number.isNaN(known) || Math.abs(error) < Math.abs(known)) errors[at] = error;
    }
  });
  return errors;
}

/** A course of the pulse up to the stroke that was heard last. */
interface Course {
  readonly time: Seconds;
  readonly beat: number;
  readonly period: Seconds;
  readonly logChance: number;
  readonly hold: Hold;
  /** Whether the tempo has changed of a sudden. */
  readonly changed: boolean;
  /** How far beside its place the last stroke fell, in natural-log units. */
  readonly beside: number;
  readonly before: Course | undefined;
}

/**
 * The beats of strokes met one after the other, along the likeliest course.
 *
 * @param strokes the first is at beat 0; going backward (`step` −1), the latest comes first.
 */
function follow(
  strokes: readonly Stroke[],
  start: { readonly time: Seconds; readonly period: Seconds },
  places: Places,
  step: 1 | -1,
): Followed {
  let courses: Course[] = HOLDS.map((hold) => ({
    ...start,
    beat: 0,
    logChance: -hold.price,
    hold,
    changed: false,
    beside: 0,
    before: undefined,
  }));
  // The last beats of the likeliest course: from there other tempos are tried once strokes fall beside their places.
  let onBeats: readonly { readonly course: Course; readonly next: number }[] = [];
  let lost = 0;
  strokes.forEach((stroke, index) => {
    courses = courses.map((course) => met(course, stroke, places, step));
    const best = likeliest(courses);
    if (!best) return;
    lost = LOST_KEPT * lost + stroke.weight * best.beside;
    if (lost > LOST && onBeats.length > 0) {
      const branched = onBeats.flatMap(({ course, next }) =>
        strokes
          .slice(next, index + 1)
          .reduce(
            (tried, since) => tried.map((one) => met(one, since, places, step)),
            branches(course, start.period),
          ),
      );
      courses = [...stillFollowed([...courses, ...branched])];
      onBeats = [];
      lost = 0;
    } else if (courses.length > HOLDS.length && index % PRUNED_EVERY === 0) {
      courses = [...stillFollowed(courses)];
    }
    const beat = Math.round(best.beat);
    const newBeat = onBeats.every(({ course }) => Math.round(course.beat) !== beat);
    if (newBeat && Math.abs(best.beat - beat) < ON_BEAT)
      onBeats = [...onBeats, { course: best, next: index + 1 }].slice(-BEATS_REMEMBERED);
  });
  const last = likeliest(courses);
  const beats: number[] = [];
  for (let course = last; course?.before; course = course.before) beats.push(course.beat);
  const held = last === undefined || (last.hold.price === 0 && !last.changed);
  return { beats: beats.reverse(), steady: held };
}

function likeliest(courses: readonly Course[]): Course | undefined {
  return courses.reduce<Course | undefined>(
    (best, course) => (best && best.logChance >= course.logChance ? best : course),
    undefined,
  );
}

function met(course: Course, stroke: Stroke, places: Places, step: 1 | -1): Course {
  const passed = Math.abs(stroke.time - course.time) / course.period;
  const predicted = course.beat + step * passed;
  const part = SOUND_PARTS[stroke.sound] ?? 0;
  const exact = Math.round(predicted * BINS_PER_BEAT);
  const slot = part * places.bins + (((exact % places.bins) + places.bins) % places.bins);
  const weight = (ROLE_WEIGHTS[part] ?? 0) * stroke.weight;
  const logChance =
    course.logChance +
    weight * ((places.logRates[slot] ?? 0) - Math.log(course.period)) -
    places.perBeat * passed;
  const nearest = (places.errors[slot] ?? Number.NaN) + (predicted - exact / BINS_PER_BEAT);
  const error = Number.isNaN(nearest) ? 0 : nearest;
  const { hold } = course;
  return {
    time: stroke.time,
    beat: predicted - hold.phase * stroke.weight * error,
    period: course.period * (1 + step * hold.period * stroke.weight * error),
    logChance,
    hold,
    changed: course.changed,
    beside: places.beside[slot] ?? 0,
    before: course,
  };
}

/** The course gone on with at other tempos, and more freely at its own. */
function branches(course: Course, firstPeriod: Seconds): readonly Course[] {
  const sudden = SUDDEN_RATIOS.map((ratio) => ({
    ...course,
    period: course.period * ratio,
    logChance: course.logChance - SUDDEN_PRICE,
    changed: true,
  }));
  const freer = HOLDS.filter((hold) => hold.price > course.hold.price).map((hold) => ({
    ...course,
    hold,
    logChance: course.logChance - hold.price,
  }));
  return [...sudden, ...freer].filter(
    ({ period }) => period < firstPeriod * FARTHEST_RATIO && period > firstPeriod / FARTHEST_RATIO,
  );
}

function stillFollowed(courses: readonly Course[]): readonly Course[] {
  const sorted = [...courses].sort((a, b) => b.logChance - a.logChance);
  const least = (sorted[0]?.logChance ?? 0) - GIVEN_UP;
  const kept: Course[] = [];
  for (const course of sorted) {
    if (kept.length === MOST_COURSES || course.logChance < least) break;
    const known = kept.some(
      (other) =>
        other.hold === course.hold &&
        Math.abs(other.beat - course.beat) < SAME_BEATS &&
        Math.abs(Math.log(other.period / course.period)) < SAME_PERIOD_LOG,
    );
    if (!known) kept.push(course);
  }
  return kept;
}
