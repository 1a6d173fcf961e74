/**
 * Question: was the rhythm on the card struck as it is written?
 *
 * Method: which surface is struck does not matter, only when. With a click, tempo and beginning are its own. Without one
 * they are the player's: they are found by laying the first and the last strike on the first and the last stroke as written
 * (or on their neighbours, should one be left out or added, or on the next bar's first), and the take is graded from there
 * in each way; the one that leaves least unexplained is what was played. The stroke on the next one may be struck or not.
 */
import type { Rhythm } from "../../catalogue/index.ts";
import {
  bandMs,
  gradeTake,
  type JudgedHit,
  type Report,
  type Target,
  type TargetNote,
} from "../../grading/index.ts";
import type { Hit } from "../../kit/index.ts";
import { beatsPerBar, type Groove, type Level } from "../../score/index.ts";
import { type Bpm, beatSeconds, type Seconds, toNumber } from "../../units/index.ts";

export interface StruckRhythm {
  readonly held: boolean;
  /** What differed, in a clause; what was heard where nothing did. */
  readonly words: string;
  /** Felt beats a minute: the click's, or as it was played; `null` where nothing could be laid beside it. */
  readonly tempoBpm: Bpm | null;
}

export interface RhythmClick {
  readonly tempoBpm: Bpm;
  /** The bar's first beat, on the clock of the strikes. */
  readonly from: Seconds;
}

/** Nobody reads a bar slower or faster than this. Our choice. */
const SLOWEST_BPM = 30;
const FASTEST_BPM = 260;
/**
 * However wide the student's band: a stroke further off than this share of the shortest written gap is on its way to being
 * another rhythm (of two sixteenths and an eighth, a triplet). Our choice.
 */
const NEIGHBOUR_SHARE = 0.3;
/** Of the ways to lay it, so many are graded: those that look likeliest. */
const MOST_GRADED = 2;
/** Fewer strikes fix no tempo. */
const FEWEST_STRIKES = 2;

/**
 * Grades one bar.
 *
 * @param hits in order of time.
 * @param click where there was one: beginning and tempo are then its own.
 */
export function judgeRhythm(
  hits: readonly Hit[],
  { groove }: Pick<Rhythm, "groove">,
  level: Level,
  click: RhythmClick | null = null,
): StruckRhythm {
  const strikes = hits.map((hit): Hit => ({ ...hit, voice: "snare" }));
  if (click) return judged(graded(strikes, groove, click).report, groove, level, click.tempoBpm);
  const places = writtenPlaces(groove);
  if (strikes.length < FEWEST_STRIKES) return { held: false, words: tooFew(strikes.length), tempoBpm: null };
  let best: { readonly report: Report; readonly tempoBpm: Bpm; readonly cost: number } | undefined;
  const clocks = ownClocks(strikes, places)
    .map((clock) => ({ clock, far: roughDistance(strikes, places, clock) }))
    .sort((a, b) => a.far - b.far)
    .slice(0, MOST_GRADED);
  for (const { clock } of clocks) {
    const refined = refinedClock(graded(strikes, groove, clock).report, clock);
    const { report, written } = graded(strikes, groove, refined);
    const cost = costOf(report, written);
    if (!best || cost < best.cost) best = { report, tempoBpm: refined.tempoBpm, cost };
  }
  if (!best) return { held: false, words: "No tempo fits what was struck.", tempoBpm: null };
  return judged(best.report, groove, level, best.tempoBpm);
}

function tooFew(count: number): string {
  return count === 0 ? "Nothing was struck." : "Only one stroke was struck.";
}

/** Felt beats at which strokes are written, the next bar's first among them. */
function writtenPlaces(groove: Groove): readonly number[] {
  return [...groove.notes.map(({ position }) => toNumber(position)), beatsPerBar(groove.metre)];
}

/** Tempos and beginnings at which the first and the last strike fall on strokes that are written. */
function ownClocks(strikes: readonly Hit[], places: readonly number[]): readonly RhythmClick[] {
  const first = strikes[0]?.time ?? 0;
  const last = strikes.at(-1)?.time ?? 0;
  return places.slice(0, 2).flatMap((from) =>
    places.slice(-3).flatMap((to) => {
      if (to <= from || last <= first) return [];
      const tempoBpm = (60 * (to - from)) / (last - first);
      if (tempoBpm < SLOWEST_BPM || tempoBpm > FASTEST_BPM) return [];
      return [{ tempoBpm, from: first - from * beatSeconds(tempoBpm) }];
    }),
  );
}

/** In felt beats: how far each strike is from the nearest stroke as written, and each of those from the nearest strike. */
function roughDistance(
  strikes: readonly Hit[],
  places: readonly number[],
  { tempoBpm, from }: RhythmClick,
): number {
  const struck = strikes.map(({ time }) => (time - from) / beatSeconds(tempoBpm));
  const far = (from: readonly number[], to: readonly number[]): number =>
    from.reduce((sum, a) => sum + Math.min(...to.map((b) => Math.abs(a - b))), 0);
  // The next bar's first need not be struck.
  return far(struck, places) + far(places.slice(0, -1), struck);
}

/** The bar, and the stroke on the next one where it was struck. */
function barTarget(groove: Groove, tempoBpm: Bpm, closes: boolean): Target {
  const beat = beatSeconds(tempoBpm);
  const notes = groove.notes.map(({ position, dynamic }, index): TargetNote => {
    const at = toNumber(position);
    return { index, time: at * beat, beat: at, voice: "snare", dynamic };
  });
  const next = beatsPerBar(groove.metre);
  const closing: TargetNote = {
    index: notes.length,
    time: next * beat,
    beat: next,
    voice: "snare",
    dynamic: "plain",
  };
  return {
    name: groove.name,
    metre: groove.metre,
    feel: groove.feel,
    tempoBpm,
    notes: closes ? [...notes, closing] : notes,
  };
}

function graded(
  strikes: readonly Hit[],
  groove: Groove,
  { tempoBpm, from }: RhythmClick,
): { readonly report: Report; readonly written: number } {
  const beat = beatSeconds(tempoBpm);
  const onClock = strikes.map((hit) => ({ ...hit, time: hit.time - from }));
  const end = beatsPerBar(groove.metre) * beat;
  const lastWritten = toNumber(groove.notes.at(-1)?.position ?? { num: 0, den: 1 }) * beat;
  const closes = (onClock.at(-1)?.time ?? 0) > (lastWritten + end) / 2;
  const target = barTarget(groove, tempoBpm, closes);
  return { report: gradeTake(onClock, target, { start: "shared" }), written: target.notes.length };
}

/** The straight line through what was paired: the player's own tempo and beginning (least squares). */
function refinedClock({ hits }: Report, clock: RhythmClick): RhythmClick {
  const pairs = hits.filter((each): each is Matched => each.state === "matched");
  const count = pairs.length;
  if (count < 3) return clock;
  const meanX = pairs.reduce((sum, { targetTime }) => sum + targetTime, 0) / count;
  const meanY = pairs.reduce((sum, { hit }) => sum + hit.time, 0) / count;
  const across = pairs.reduce((sum, { targetTime }) => sum + (targetTime - meanX) ** 2, 0);
  if (across === 0) return clock;
  const slope =
    pairs.reduce((sum, { targetTime, hit }) => sum + (targetTime - meanX) * (hit.time - meanY), 0) / across;
  if (slope <= 0) return clock;
  return { tempoBpm: clock.tempoBpm / slope, from: clock.from + meanY - slope * meanX };
}

type Matched = Extract<JudgedHit, { readonly state: "matched" }>;

function offsetsOf({ hits }: Report): readonly number[] {
  return hits.flatMap((each) => (each.state === "matched" ? [each.offsetMs] : []));
}

/** Strokes left over count most, then how far the others are off. */
function costOf(report: Report, written: number): number {
  const offsets = offsetsOf(report);
  const leftOver = written + report.hits.length - 2 * offsets.length;
  return leftOver * 1000 + Math.max(0, ...offsets.map(Math.abs));
}

function smallestGapMs(groove: Groove, tempoBpm: Bpm): number {
  const places = writtenPlaces(groove);
  const gaps = places.slice(1).map((place, at) => place - (places[at] ?? 0));
  return Math.min(...gaps) * beatSeconds(tempoBpm) * 1000;
}

function judged(report: Report, groove: Groove, level: Level, tempoBpm: Bpm): StruckRhythm {
  const written = groove.notes.length;
  const matched = report.hits.filter((each): each is Matched => each.state === "matched");
  const missed = written - matched.filter(({ targetIndex }) => targetIndex < written).length;
  const added = report.hits.filter(({ state }) => state === "extra").length;
  if (matched.length === 0) return { held: false, words: "Another rhythm was struck.", tempoBpm: null };
  const parts = [
    ...(missed > 0 ? [`${strokes(missed)} left out`] : []),
    ...(added > 0 ? [`${strokes(added)} added`] : []),
  ];
  if (parts.length > 0) return { held: false, words: `${sentence(parts.join(", "))}.`, tempoBpm };
  const band = Math.min(bandMs(level, tempoBpm), NEIGHBOUR_SHARE * smallestGapMs(groove, tempoBpm));
  const lean = report.leanMs ?? 0;
  const off = matched.find(({ offsetMs }) => Math.abs(offsetMs - lean) > band);
  if (off) {
    const beat = Math.floor(off.targetTime / beatSeconds(tempoBpm) + 1e-6) + 1;
    const place = beat > beatsPerBar(groove.metre) ? "the next one" : `beat ${beat}`;
    const side = off.offsetMs - lean < 0 ? "early" : "late";
    return { held: false, words: `The stroke at ${place} came ${side}.`, tempoBpm };
  }
  return { held: true, words: "As written.", tempoBpm };
}

function strokes(count: number): string {
  return count === 1 ? "one stroke" : `${count} strokes`;
}

function sentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
