/**
 * Question: which syllables were said, and when?
 *
 * Method: connected words by dynamic programming over frames (Ney, IEEE Trans. ASSP 32 (1984) 263, the one-stage algorithm):
 * the cheapest way to explain the whole recording as examples of the enrolment, one after another, with the noise of the room
 * between. So a second burst within a syllable (the k of "tak") is explained by the syllable and is no onset of its own.
 * Examples are laid into the recording's own noise first (Gales & Young 1993: powers add), so that one enrolled in
 * quiet is known in noise. Each beginning is then set by sliding the example rigidly over the first tenth of a second.
 *
 * `time` is where the sound of the syllable begins. `centre` is where its beat is felt, the perceptual centre: taken to be
 * the burst of a stop and the beginning of the vowel after a longer hiss or hum, an approximation (Morton, Marcus & Frankish 1976,
 * from memory: it lies near the vowel's beginning). How long that is after the beginning is taken from the examples.
 */
import { median, type Seconds } from "../../units/index.ts";
import { BANDS, cepstrumOf, type Frame, framesOf, HOP_SECONDS, meanFrame, powerOf } from "./bands.ts";
import type { Enrolment, Example } from "./enrolment.ts";
import { SoundRefusal, trouble } from "./refusal.ts";
import { atHearingRate } from "./resample.ts";
import type { Sound } from "./sound.ts";

export interface HeardSyllable {
  readonly time: Seconds;
  readonly centre: Seconds;
  readonly syllable: string;
  /** How likely it is this one of those enrolled, 0 to 1. */
  readonly confidence: number;
}

/** To begin a syllable costs as much as this distance. */
const BEGIN_COST = 40;
/** To dwell on a frame, or to leave one out. */
const BEND_COST = 1.2;
/** A syllable is left at the earliest after this share of its example: the next one cuts it off. */
const LEAST_SHARE = 0.55;
/** Nothing is further from everything than this, so that one strange frame does not decide. */
const MOST_DISTANCE = 12;
/** No band is quieter than this beside the loudest of what is said: −45 dB. */
const QUIETEST = 10 ** -4.5;

/**
 * The syllables in a sound, in order of time.
 *
 * @throws SoundRefusal where it cannot be told, with the reason.
 */
export function hearSyllables(sound: Sound, enrolment: Enrolment): readonly HeardSyllable[] {
  const refusal = trouble(sound);
  if (refusal) throw new SoundRefusal(refusal);
  const heard = framesOf(atHearingRate(sound));
  const noise = noiseFrame(heard);
  const gain = loudOf(heard) / loudOf(enrolment.flatMap(({ frames }) => frames));
  const patterns = enrolment.map((example) => patternOf(example, gain, noise));
  const features = heard.map((frame) => cepstrumOf(withNoise(frame, 1, noise)));
  const quiet = cepstrumOf(withNoise(noise, 1, noise));
  const words = cheapestWords(features, patterns, quiet);
  if (words.length === 0) throw new SoundRefusal({ kind: "nothing-said" });
  return words.map((word) => told(word, features, patterns));
}

/** An example as it would sound in the noise of this recording. */
interface Pattern {
  readonly example: Example;
  readonly features: readonly Float64Array[];
}

function patternOf(example: Example, gain: number, noise: Frame): Pattern {
  return {
    example,
    features: example.frames.map((frame) => cepstrumOf(withNoise(frame, gain, noise, 2))),
  };
}

/** The loudness of what is said: the level that one frame of twenty of the louder ones passes. */
function loudOf(frames: readonly Frame[]): number {
  const sorted = frames.map(powerOf).sort((a, b) => b - a);
  const most = sorted[0] ?? 0;
  const loud = sorted.filter((power) => power > most / 100);
  return loud[Math.floor(loud.length / 4)] ?? 1;
}

/** The noise once more on both sides: what is softer than it then differs little. */
function withNoise(frame: Frame, gain: number, noise: Frame, times = 1): Frame {
  return frame.map((power, band) => power * gain + times * (noise[band] ?? 0));
}

function noiseFrame(frames: readonly Frame[]): Frame {
  const sorted = [...frames].sort((a, b) => powerOf(a) - powerOf(b));
  const mean = meanFrame(sorted.slice(0, Math.max(1, Math.ceil(sorted.length / 8))));
  const floor = (loudOf(frames) * QUIETEST) / BANDS;
  return mean.map((power) => Math.max(power, floor));
}

function distance(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let at = 0; at < a.length; at += 1) {
    const apart = (a[at] ?? 0) - (b[at] ?? 0);
    sum += apart * apart;
  }
  return Math.min(Math.sqrt(sum), MOST_DISTANCE);
}

interface Word {
  readonly pattern: number;
  readonly from: number;
  /** The frame after its last. */
  readonly to: number;
  readonly before: Word | null;
}

/** What it cost to be at each frame of one pattern, and when that word began. */
interface Lane {
  readonly cost: Float64Array;
  readonly began: Int32Array;
}

function cheapestWords(
  features: readonly Float64Array[],
  patterns: readonly Pattern[],
  quiet: Float64Array,
): readonly Word[] {
  let lanes: Lane[] = patterns.map(({ features: all }) => ({
    cost: new Float64Array(all.length).fill(Number.POSITIVE_INFINITY),
    began: new Int32Array(all.length),
  }));
  /** By frame: the words before one that begins there. */
  const wordsBefore: (Word | null)[] = [];
  let restCost = 0;
  let restWords: Word | null = null;
  features.forEach((feature, now) => {
    // What may begin now comes after a rest or after a word that may end.
    const ended = cheapestEnd(lanes, wordsBefore, now);
    const isAfterRest = restCost <= ended.cost;
    const before = isAfterRest ? restWords : ended.word;
    const beforeCost = isAfterRest ? restCost : ended.cost;
    wordsBefore[now] = before;
    const next = patterns.map(({ features: all }, which) => {
      const lane = lanes[which];
      const cost = new Float64Array(all.length);
      const began = new Int32Array(all.length);
      for (let at = 0; at < all.length; at += 1) {
        const stay = (lane?.cost[at] ?? Number.POSITIVE_INFINITY) + BEND_COST;
        const step = at > 0 ? (lane?.cost[at - 1] ?? Number.POSITIVE_INFINITY) : beforeCost + BEGIN_COST;
        const skip =
          at > 1 ? (lane?.cost[at - 2] ?? Number.POSITIVE_INFINITY) + BEND_COST : Number.POSITIVE_INFINITY;
        const least = Math.min(stay, step, skip);
        const from = least === step ? at - 1 : least === skip ? at - 2 : at;
        cost[at] = least + distance(feature, all[at] ?? feature);
        began[at] = from < 0 ? now : (lane?.began[from] ?? now);
      }
      return { cost, began };
    });
    restCost = beforeCost + distance(feature, quiet);
    restWords = before;
    lanes = next;
  });
  const ended = cheapestEnd(lanes, wordsBefore, features.length);
  let word: Word | null = restCost <= ended.cost ? restWords : ended.word;
  const words: Word[] = [];
  for (; word; word = word.before) words.unshift(word);
  return words;
}

function cheapestEnd(
  lanes: readonly Lane[],
  wordsBefore: readonly (Word | null)[],
  now: number,
): { readonly cost: number; readonly word: Word | null } {
  let cost = Number.POSITIVE_INFINITY;
  let pattern = -1;
  let from = 0;
  lanes.forEach((lane, which) => {
    for (let at = Math.floor(lane.cost.length * LEAST_SHARE); at < lane.cost.length; at += 1) {
      const here = lane.cost[at] ?? Number.POSITIVE_INFINITY;
      if (here >= cost) continue;
      cost = here;
      pattern = which;
      from = lane.began[at] ?? 0;
    }
  });
  return { cost, word: pattern < 0 ? null : { pattern, from, to: now, before: wordsBefore[from] ?? null } };
}

/** Of two beginnings the likelier: this much of distance a frame makes one e times as likely. */
const SURENESS = 0.35;
/** How far a beginning may be slid, in frames. */
const MOST_SLIDE = 8;
const SLID_FRAMES = 22;

function told(
  { pattern, from, to }: Word,
  features: readonly Float64Array[],
  patterns: readonly Pattern[],
): HeardSyllable {
  const syllable = patterns[pattern]?.example.syllable ?? "";
  const span = features.slice(from, to);
  const costs = new Map<string, number>();
  for (const each of patterns) {
    const cost = alignedCost(span, each.features) / Math.max(1, span.length);
    const { syllable: name } = each.example;
    costs.set(name, Math.min(cost, costs.get(name) ?? Number.POSITIVE_INFINITY));
  }
  const own = costs.get(syllable) ?? 0;
  const sum = [...costs.values()].reduce((all, cost) => all + Math.exp((own - cost) / SURENESS), 0);
  const time = beginning(from, features, patterns, syllable);
  return { time, centre: time + centreOf(syllable, patterns), syllable, confidence: 1 / sum };
}

/** The cost of a span as one pattern, which may end early. */
function alignedCost(span: readonly Float64Array[], pattern: readonly Float64Array[]): number {
  let cost = new Float64Array(pattern.length).fill(Number.POSITIVE_INFINITY);
  span.forEach((feature, now) => {
    cost = Float64Array.from(pattern, (expected, at) => {
      const begins = now === 0 && at <= 2 ? 0 : Number.POSITIVE_INFINITY;
      const least = Math.min(
        begins,
        (cost[at] ?? Number.POSITIVE_INFINITY) + BEND_COST,
        at > 0 ? (cost[at - 1] ?? Number.POSITIVE_INFINITY) : Number.POSITIVE_INFINITY,
        at > 1 ? (cost[at - 2] ?? Number.POSITIVE_INFINITY) + BEND_COST : Number.POSITIVE_INFINITY,
      );
      return least + distance(feature, expected);
    });
  });
  return cost.reduce((least, each) => Math.min(least, each), Number.POSITIVE_INFINITY);
}

/** Slides the examples of the syllable over where it begins; the cheapest place of the best fitting one holds. */
function beginning(
  from: number,
  features: readonly Float64Array[],
  patterns: readonly Pattern[],
  syllable: string,
): Seconds {
  let best = Number.POSITIVE_INFINITY;
  let time: Seconds = from * HOP_SECONDS;
  for (const { example, features: expected } of patterns) {
    if (example.syllable !== syllable) continue;
    for (let slide = -MOST_SLIDE; slide <= MOST_SLIDE; slide += 1) {
      let cost = 0;
      const frames = Math.min(SLID_FRAMES, expected.length);
      for (let at = 0; at < frames; at += 1) {
        const feature = features[from + slide + at];
        const there = expected[at];
        cost += feature && there ? distance(feature, there) : MOST_DISTANCE;
      }
      if (cost / frames >= best) continue;
      best = cost / frames;
      time = (from + slide) * HOP_SECONDS + example.beginsAt;
    }
  }
  return Math.max(0, time);
}

/** From the beginning of a syllable to its centre, as this person says it. */
function centreOf(syllable: string, patterns: readonly Pattern[]): Seconds {
  const all = patterns.flatMap(({ example }) =>
    example.syllable === syllable ? [example.centreAfterSeconds] : [],
  );
  return all.length > 0 ? median(all) : 0;
}
