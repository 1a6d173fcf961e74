/**
 * Question: do the strokes of a file stand on the bar lines that the file itself says?
 * Method: a file that was recorded to a click, or written, has its strokes gathered at the halves, thirds and quarters of
 * its beats; one that was recorded freely has a tempo and a metre all the same, and its strokes anywhere. How much they
 * gather is the length of the mean vector of their places on a circle (Mardia & Jupp, Directional Statistics, 2000).
 * Where the one is cannot be seen so: it is the file's word that is taken.
 */
import type { Hit } from "../../kit/index.ts";
import { beatsPerBar, beatsPerQuarter, type Metre } from "../../score/index.ts";
import { type Bpm, median, type Seconds, toNumber } from "../../units/index.ts";
import type { Pulse } from "../hearing.ts";
import type { Heading } from "../quantise.ts";
import { swingHeard } from "../swingHeard.ts";

/** Tempo and metre as a file says them, from time 0: a `SmfFile` has these. */
export interface FileMap {
  /** In quarters a minute. */
  readonly tempos: readonly { readonly time: Seconds; readonly tempoBpm: Bpm }[];
  readonly metres: readonly { readonly time: Seconds; readonly metre: Metre }[];
}

/** Parts of a beat at which strokes may gather. */
const PARTS = [2, 3, 4];
/** From this length of the mean vector on they do; 0 is anywhere, 1 is exactly. Our choice, measured on the human takes. */
const GATHERED = 0.3;
/** Few strokes gather by chance: this many times the usual length of a random mean vector. */
const BY_CHANCE = 2;
/** Tempos at which a felt beat can be. */
const SLOWEST_BPM = 25;
const FASTEST_BPM = 400;
/** A day at the fastest tempo is more than anybody plays. */
const MOST_BEATS = 24 * 60 * FASTEST_BPM;
/** Longer bars are not written. Our choice. */
const MOST_BEATS_IN_BAR = 16;

/**
 * The bars of a file in the metre in which most of it is played; `undefined` where its strokes do not stand on them.
 *
 * @param hits in order of time.
 */
export function headingOfFile(hits: readonly Hit[], file: FileMap): Heading | undefined {
  const pulse = pulseOfFile(hits, file);
  if (!pulse || pulse.tempoBpm < SLOWEST_BPM || pulse.tempoBpm > FASTEST_BPM) return undefined;
  if (beatsPerBar(pulse.metre) > MOST_BEATS_IN_BAR || !isGathered(hits, pulse)) return undefined;
  return { pulse, swing: swingHeard(hits, pulse) };
}

/** The file's own beats and bar lines over the strokes, whether they stand on them or not. */
export function pulseOfFile(hits: readonly Hit[], file: FileMap): Pulse | undefined {
  const [first] = hits;
  const last = hits.at(-1);
  const section = mainSection(hits, file);
  if (!first || !last || !section) return undefined;
  const { metre, from } = section;
  const perQuarter = toNumber(beatsPerQuarter(metre));
  const beatsInBar = beatsPerBar(metre);
  const quarters = quartersAlong(file);
  const start = quarters.quarterOf(from);
  const beatAt = (time: Seconds): number => (quarters.quarterOf(time) - start) * perQuarter;
  const timeAt = (beat: number): Seconds => quarters.timeOf(start + beat / perQuarter);
  const firstBeat = Math.floor(beatAt(first.time) / beatsInBar + 1e-6) * beatsInBar;
  const lastBeat = Math.ceil(beatAt(last.time)) + 1;
  if (!(lastBeat - firstBeat <= MOST_BEATS)) return undefined;
  const beats: Seconds[] = [];
  for (let beat = firstBeat; beat <= lastBeat; beat += 1) beats.push(timeAt(beat));
  const usual = median(beats.slice(1).map((time, index) => time - (beats[index] ?? time)));
  if (!(usual > 0)) return undefined;
  return {
    tempoBpm: 60 / usual,
    metre,
    beats,
    downbeats: beats.filter((_, index) => index % beatsInBar === 0),
    confidence: 1,
  };
}

/** The metre that most of the strokes are in, and where its bars are counted from. */
function mainSection(
  hits: readonly Hit[],
  { metres }: FileMap,
): { readonly metre: Metre; readonly from: Seconds } | undefined {
  const sections = metres.map(({ time, metre }, index) => {
    const until = metres[index + 1]?.time ?? Number.POSITIVE_INFINITY;
    return { metre, from: time, count: hits.filter((hit) => hit.time >= time && hit.time < until).length };
  });
  return sections.reduce<(typeof sections)[number] | undefined>(
    (most, one) => (most && most.count >= one.count ? most : one),
    undefined,
  );
}

/** Quarters against time. */
function quartersAlong({ tempos }: FileMap) {
  let quarter = 0;
  const steps = tempos.map(({ time, tempoBpm }, index) => {
    const before = tempos[index - 1];
    if (before) quarter += ((time - before.time) * before.tempoBpm) / 60;
    return { time, quarter, perSecond: tempoBpm / 60 };
  });
  const first = steps[0] ?? { time: 0, quarter: 0, perSecond: 2 };
  const at = (holds: (step: { readonly time: Seconds; readonly quarter: number }) => boolean) => {
    let low = 0;
    let high = steps.length;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (holds(steps[middle] ?? first)) low = middle;
      else high = middle;
    }
    return steps[low] ?? first;
  };
  return {
    quarterOf: (time: Seconds): number => {
      const step = at((other) => other.time <= time);
      return step.quarter + (time - step.time) * step.perSecond;
    },
    timeOf: (quarter: number): Seconds => {
      const step = at((other) => other.quarter <= quarter);
      return step.time + (quarter - step.quarter) / step.perSecond;
    },
  };
}

function isGathered(hits: readonly Hit[], pulse: Pulse): boolean {
  return gathering(hits, pulse) >= Math.max(GATHERED, BY_CHANCE / Math.sqrt(hits.length));
}

/** The greatest length of the mean vector over the parts of a beat, 0 to 1. */
export function gathering(hits: readonly Hit[], { beats }: Pulse): number {
  const lengths = PARTS.map((parts) => {
    let sine = 0;
    let cosine = 0;
    let count = 0;
    let upper = 1;
    for (const { time } of hits) {
      while (upper < beats.length - 1 && (beats[upper] ?? 0) <= time) upper += 1;
      const from = beats[upper - 1] ?? 0;
      const share = (time - from) / ((beats[upper] ?? 0) - from);
      sine += Math.sin(2 * Math.PI * parts * share);
      cosine += Math.cos(2 * Math.PI * parts * share);
      count += 1;
    }
    return count === 0 ? 0 : Math.hypot(sine, cosine) / count;
  });
  return Math.max(...lengths);
}
