/**
 * Question: was the take counted in, and where does the groove then begin?
 * Method: two to eight even strokes of one sound before anything else, and the groove one beat after the last of them; the
 * first ones may be half as many ("one, two, one two three four"). What goes on after them as it began is no
 * count-in but the groove itself, begun by one hand.
 */
import type { Hit, Voice } from "../kit/index.ts";
import type { Seconds } from "../units/index.ts";
import { PLACES_PER_BEAT } from "./barModel.ts";
import type { CountIn } from "./hearing.ts";
import type { BarHypothesis, PulseHypothesis } from "./pulse.ts";

/** What is counted in on (common practice, no source). */
const COUNTED_ON: readonly Voice[] = [
  "sticks",
  "cross-stick",
  "hi-hat-closed",
  "hi-hat-pedal",
  "snare",
  "wood-block",
  "cowbell",
];
const FEWEST = 2;
const MOST = 8;
/** Seconds of a counted beat: 40 to 285 a minute. Our choice. */
const SHORTEST: Seconds = 0.21;
const LONGEST: Seconds = 1.5;
/** Intervals this near a beat, in shares of it or in seconds, are one: three times the spread of a fair player. Our choice. */
const EVEN = 0.2;
const EVEN_AT_LEAST: Seconds = 0.06;
/** The groove begins at most so many beats after the last counted one. Two beats counted must lead to it exactly. */
const LATEST_BEGIN = 2.3;
/** Sticks struck on one another are no part of a groove: after them it may begin anywhere in its first bar. Our choice. */
const LATEST_AFTER_STICKS = 4.3;
/** Strokes struck as one lie within this. */
const UNISON: Seconds = 0.05;
/** From so many on, a count-in is good evidence for where the one is. Our choice: two may also be half a bar's pick-up. */
const SURE_FROM = 3;
/** So many strokes of the sound after the count-in say whether it went on alike. Our choice. */
const LOOKED_AHEAD = 6;
/** Two strokes nearer than this, except of the sticks, are eighths of a groove, not two beats. Our choice. */
const SLOW_ENOUGH_FOR_TWO: Seconds = 0.4;
/**
 * Strokes that go on alike are counted only when they are slower than eighths are at 55 a minute: then it was a bar of
 * quarters, quicker ones are eighths of the groove. Our choice.
 */
const SLOW_ENOUGH_TO_GO_ON: Seconds = 0.55;

/** A take that was counted in. */
export interface Counted {
  readonly countIn: CountIn;
  /** What was played after it. */
  readonly groove: readonly Hit[];
  /** The first downbeat, as counted. */
  readonly one: Seconds;
  /** Whether the one should be believed against what the groove itself seems to say. */
  readonly sure: boolean;
}

/**
 * The count-in of a take, and what came after it; `undefined` when it was not counted in.
 *
 * @param hits in order of time, from the beginning of the take.
 */
export function countedIn(hits: readonly Hit[]): Counted | undefined {
  const sound = hits[0]?.voice;
  if (sound === undefined || !COUNTED_ON.includes(sound)) return undefined;
  const other = hits.findIndex(({ voice }) => voice !== sound);
  if (other === -1) return undefined;
  const begins = hits[other]?.time ?? 0;
  const alone = hits.slice(0, other).flatMap(({ time }) => (time < begins - UNISON ? [time] : []));
  const even = evenBeginning(alone);
  if (even === undefined) return undefined;
  const { beatSeconds } = even;
  const strokes = countedStrokes(even, alone, begins);
  const to = alone[strokes - 1];
  if (to === undefined || strokes < FEWEST || strokes > MOST) return undefined;
  const begin = ((alone[strokes] ?? begins) - to) / beatSeconds;
  const exact = [1, 2, 4].some((halves) => Math.abs(2 * begin - halves) < 2 * EVEN);
  if (begin > (sound === "sticks" ? LATEST_AFTER_STICKS : LATEST_BEGIN)) return undefined;
  const slowEnough = sound === "sticks" || beatSeconds >= SLOW_ENOUGH_FOR_TWO;
  if (strokes < SURE_FROM && !(exact && slowEnough)) return undefined;
  const groove = hits.slice(strokes);
  if (goesOnAlike(sound, to, beatSeconds, groove)) {
    if (beatSeconds < SLOW_ENOUGH_TO_GO_ON || strokes < SURE_FROM) return undefined;
  }
  // "One, two, three" and a silent four; otherwise the one is where the next count would have been.
  const silent = strokes % 2 === 1 && Math.abs(begin - 2) < EVEN ? 1 : 0;
  return {
    countIn: { strokes, from: alone[0] ?? to, to, beatSeconds },
    groove,
    one: to + (1 + silent) * beatSeconds,
    sure: strokes >= SURE_FROM,
  };
}

interface Even {
  readonly strokes: number;
  readonly beatSeconds: Seconds;
}

/** The strokes that are even from the first on; a bar in halves may come before: "one, two, one two three four". */
function evenBeginning(times: readonly Seconds[]): Even | undefined {
  const gaps = times.slice(1).map((time, index) => time - (times[index] ?? 0));
  const [one = 0, two = 0, three = 0, four = 0] = gaps;
  const halves = isEven(one, two) && isEven(2 * three, two) && isEven(four, three) ? 2 : 0;
  let sum = 0;
  let count = 0;
  for (const gap of gaps.slice(halves)) {
    // What one gap is compared with is itself a guess from few.
    if (count > 0 && !isEven(gap, sum / count, 1 + 0.5 / count)) break;
    sum += gap;
    count += 1;
  }
  const beatSeconds = sum / count;
  if (!(beatSeconds >= SHORTEST && beatSeconds <= LONGEST)) return undefined;
  return { strokes: halves + count + 1, beatSeconds };
}

function isEven(gap: Seconds, beatSeconds: Seconds, loosely = 1): boolean {
  return Math.abs(gap - beatSeconds) < loosely * Math.max(EVEN * beatSeconds, EVEN_AT_LEAST);
}

/** How many of the even strokes were counted: the last may be the groove's own first, where it begins on that sound alone. */
function countedStrokes({ strokes, beatSeconds }: Even, alone: readonly Seconds[], begins: Seconds): number {
  const last = alone[strokes - 1] ?? 0;
  const quicker = ((alone[strokes] ?? begins) - last) / beatSeconds < 1 - EVEN;
  if (!quicker) return strokes;
  // The same sound goes on at twice the rate or more; or another comes soon, and nobody counts five, seven or nine.
  const goesOn = alone.length > strokes;
  const unusual = strokes > 4 && strokes % 2 === 1;
  return goesOn || unusual ? strokes - 1 : strokes;
}

/** Whether the sound is struck on and on, beat for beat from the last counted one: then it was the groove's from the start. */
function goesOnAlike(sound: Voice, to: Seconds, beatSeconds: Seconds, groove: readonly Hit[]): boolean {
  let met = 0;
  let alike = 0;
  let before = to;
  for (const { voice, time } of groove) {
    if (voice !== sound) continue;
    const gap = (time - before) / beatSeconds;
    // Off the counted beats it is another row of strokes.
    if (met === 0 && Math.abs(gap - Math.round(gap)) > 1.5 * EVEN) return false;
    if (isEven(gap * beatSeconds, beatSeconds, 1.5)) alike += 1;
    before = time;
    met += 1;
    if (met === LOOKED_AHEAD) break;
  }
  return met >= LOOKED_AHEAD / 2 && alike >= met / 2;
}

/** A one this near a beat of the pulse, in felt beats, is on it. */
const ON_BEAT = 0.25;
/** The pulse is the counted one when a beat of it is as long, to this share. Our choice. */
const AS_COUNTED = 0.15;

/** Whether a beat of this length is the counted one. */
function isCounted(beatSeconds: Seconds, { countIn }: Counted): boolean {
  return Math.abs(beatSeconds / countIn.beatSeconds - 1) < AS_COUNTED;
}

/** How many beats from the first counted one to the one. */
function beatsCounted({ countIn, one }: Counted): number {
  return Math.round((one - countIn.from) / countIn.beatSeconds);
}

/** Of bars that could be, those in the tempo and the metre that were counted; all of them where none is, or it is not sure. */
export function barsAsCounted<Bar extends BarHypothesis>(
  bars: readonly Bar[],
  counted: Counted,
): readonly Bar[] {
  if (!counted.sure) return bars;
  const own = bars.filter(
    ({ pulse, beatsInBar }) =>
      isCounted(pulse.beatSeconds, counted) && beatsCounted(counted) % beatsInBar === 0,
  );
  return own.length > 0 ? own : bars;
}

/**
 * The turn of the bar that has a downbeat on the counted one, and whether the count-in settles it. The count-in wins against
 * what the strokes of the groove seem to say: a player who counts four knows where the one is, and half a bar of a groove
 * often looks like the other half; without cymbals the beats between look like the beats. The turn stays as it is where it
 * has a downbeat there already, where the pulse that was heard is not the counted one and has no beat there, and where it
 * was not whole bars that were counted.
 */
export function turnedToOne(
  counted: Counted,
  { pulse, turn }: { readonly pulse: PulseHypothesis; readonly turn: number },
  feltPerPulse: number,
  beatsInBar: number,
): { readonly turn: number; readonly settled: boolean } {
  if (!counted.sure || beatsCounted(counted) % beatsInBar !== 0) return { turn, settled: false };
  const { times, beats } = pulse.map;
  const pulseBeat = (beats[0] ?? 0) + (counted.one - (times[0] ?? 0)) / pulse.beatSeconds;
  const settled = isCounted(pulse.beatSeconds / feltPerPulse, counted);
  if (settled && feltPerPulse === 1) {
    // The beat as it was found, or another place of it where strokes gather; where nothing is struck on the beat, a
    // sixteenth or two beside such a place.
    const gathered = nearestPlace([turn, ...pulse.phases], pulseBeat);
    if (apart(gathered, pulseBeat) <= NEAR_PLACE) return { turn: gathered, settled };
    const beside = pulse.phases.flatMap((place) => SIXTEENTHS.map((step) => place + step));
    return { turn: nearestPlace([turn, ...beside], pulseBeat), settled };
  }
  const felt = (pulseBeat - turn / PLACES_PER_BEAT) * feltPerPulse;
  const beat = Math.round(felt);
  if (Math.abs(felt - beat) > ON_BEAT) return { turn, settled: false };
  return { turn: beat % beatsInBar === 0 ? turn : turn + (beat * PLACES_PER_BEAT) / feltPerPulse, settled };
}

/** In felt beats: a count of three and more foretells the one as exactly as this. Our choice. */
const NEAR_PLACE = 0.07;
const SIXTEENTHS = [1, 2, 3].map((step) => (step * PLACES_PER_BEAT) / 4);

/** Of places of the beat, the one nearest to a moment, with whole beats counted in. */
function nearestPlace(places: readonly number[], pulseBeat: number): number {
  return places
    .map((place) => place + PLACES_PER_BEAT * Math.round(pulseBeat - place / PLACES_PER_BEAT))
    .reduce((best, at) => (apart(at, pulseBeat) < apart(best, pulseBeat) ? at : best));
}

function apart(place: number, pulseBeat: number): number {
  return Math.abs(place / PLACES_PER_BEAT - pulseBeat);
}
