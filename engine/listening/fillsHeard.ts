/**
 * Question: where in a take is a fill played instead of the groove, and which one?
 * Method: a semi-Markov chain over the beats (Ferguson 1980; from memory): the take is in the groove, or in a fill of one
 * beat to two bars that mostly ends at a bar line, most often of a fourth bar. Each beat has its likelihood under the groove
 * (`usualBar.ts`); each span of beats under every written fill and under fills in general (`fillLikelihood.ts`). The
 * likeliest course says where the fills are, all courses together how sure that is.
 */

import { MOST_BARS_IN_A_FILL } from "../score/index.ts";
import type { Background } from "./background.ts";
import { type BarModel, PLACES_PER_BEAT } from "./barModel.ts";
import { timeOfBeat } from "./beatMap.ts";
import { FILL_LENGTH_SHARES, FILLS_A_BAR, KNOWN_SHARE } from "./fillHabits.ts";
import { FILL_RATES, fillLog, isOfFills, KNOWN_FILLS, type KnownFill } from "./fillLikelihood.ts";
import type { FillCandidate, HeardFill } from "./hearing.ts";
import { laidStrokes, nearPlaces } from "./laidStrokes.ts";
import { logSum } from "./logSum.ts";
import type { PulseHypothesis } from "./pulse.ts";
import { numberOf, SOUND_PARTS } from "./roles.ts";
import { type Bars, beatOf, EARLY_PLACES, type LaidStroke, ratesLogs, usualLogs } from "./usualBar.ts";

/** A take on its bars. */
export interface OnBars {
  readonly pulse: PulseHypothesis;
  /** Downbeats stand so many places after beat 0 of the pulse, and every bar from there. */
  readonly turn: number;
  /** Felt beats. */
  readonly beatsInBar: number;
  /** Felt beats in a beat of the pulse. */
  readonly feltPerPulse: number;
  /** The groove that is played, laid on the same turn, where it is known. */
  readonly model?: BarModel;
}

/** Fills lead from every fourth bar to the next more often than from any other (common practice, no source). */
const AT_FOURTH_BAR = Math.log(1.6);
const AT_OTHER_BAR = Math.log(0.8);
/** A fill that does not end with a bar. Our choice. */
const WITHIN_BAR = Math.log(0.003);
/** A crash on the one after it, against one there without a fill; and no crash. Our choice. */
const THEN_CRASH = 2.5;
const NO_CRASH = -0.3;
/** A beat of a fill that nobody wrote, without a drum or a crash. Our choice. */
const EMPTY_BEAT = -4;
/** Spans this much less likely than the groove going on are not followed. */
const HOPELESS = -14;
/** Which fill it was is said from this chance on. */
const SURE_OF_NAME = 0.6;
/** A span of beats that may be a fill. */
interface Span {
  readonly from: number;
  readonly end: number;
  readonly log: number;
  readonly known?: KnownFill;
}

/** The fills of a take. */
export interface FillsOfTake {
  /** In order of time. */
  readonly heard: readonly HeardFill[];
  /** Known fills that may be in it, likeliest first. */
  readonly candidates: readonly FillCandidate[];
}

/**
 * Hears the fills of a take.
 *
 * @param known the written fills it may hold.
 */
export function fillsHeard(
  take: OnBars,
  general: Background,
  known: readonly KnownFill[] = KNOWN_FILLS,
): FillsOfTake {
  const bars = barsOf(take);
  const strokes = strokesOnBars(take, bars);
  const usual = usualLogs(strokes, bars, general, take.model);
  const spans = likelySpans(beatsOf(strokes, bars, take.beatsInBar, usual), known);
  if (spans.length === 0) return { heard: [], candidates: [] };
  const course = likeliestCourse(spans, bars.beats);
  const chances = beatChances(spans, bars.beats);
  return {
    heard: course.map((span) => told(span, spans, chances, take, bars)),
    candidates: fillCandidates(spans),
  };
}

/** More are no candidates but all there are. */
const MOST_CANDIDATES = 5;

/** Each written fill with the chance that it is the one, over all places where it may be. */
function fillCandidates(spans: readonly Span[]): readonly FillCandidate[] {
  const logs = new Map<KnownFill, readonly number[]>();
  for (const { known, log } of spans) if (known) logs.set(known, [...(logs.get(known) ?? []), log]);
  const each = [...logs].map(([{ fill }, ofFill]) => ({ fill, log: logSum(ofFill) }));
  const all = logSum(each.map(({ log }) => log));
  return each
    .sort((a, b) => b.log - a.log)
    .slice(0, MOST_CANDIDATES)
    .map(({ fill: { id, name }, log }) => ({ id, name, confidence: Math.min(1, Math.exp(log - all)) }));
}

function barsOf({ pulse, turn, beatsInBar, feltPerPulse, model }: OnBars): Bars {
  const { strokes } = pulse;
  const beat = PLACES_PER_BEAT / feltPerPulse;
  const bar = beat * beatsInBar;
  const firstPlace = (strokes.beats[0] ?? 0) * PLACES_PER_BEAT - turn;
  const lastPlace = (strokes.beats.at(-1) ?? 0) * PLACES_PER_BEAT - turn;
  const before = Math.floor((firstPlace + EARLY_PLACES) / bar) * bar;
  const repeat = Math.round(model?.places ?? (Number.isInteger(bar) ? bar : 2 * bar));
  const near = nearPlaces(pulse);
  const first = firstPlace - before;
  const last = lastPlace - before;
  const wholeBars = Math.floor((last + EARLY_PLACES) / bar) + 1;
  const repeatsFrom = -(((before % repeat) + repeat) % repeat);
  return { beat, bar, repeat, repeatsFrom, first, last, near, beats: wholeBars * beatsInBar };
}

/** The strokes on the bars of the take. */
function strokesOnBars({ pulse, turn }: OnBars, { first }: Bars): readonly LaidStroke[] {
  const laid = laidStrokes(pulse, turn);
  const shift = first - ((pulse.strokes.beats[0] ?? 0) * PLACES_PER_BEAT - turn);
  return laid.map((stroke) => ({ ...stroke, place: stroke.place + shift }));
}

/** What is known of the beats of a take when spans of them are tried as fills. */
interface Beats {
  readonly bars: Bars;
  readonly beatsInBar: number;
  readonly strokes: readonly LaidStroke[];
  /** Index of the first stroke of each beat or, where it has none, of the next; one more than there are beats. */
  readonly firstStroke: Int32Array;
  /** 1 where a drum or a crash is struck. */
  readonly ofFills: Uint8Array;
  /** Log likelihoods of each beat: of the groove going on, and of fills in general. */
  readonly usual: Float64Array;
  readonly general: Float64Array;
}

function beatsOf(strokes: readonly LaidStroke[], bars: Bars, beatsInBar: number, usual: Float64Array): Beats {
  const ofFills = new Uint8Array(bars.beats);
  const firstStroke = new Int32Array(bars.beats + 1).fill(strokes.length);
  for (let index = strokes.length - 1; index >= 0; index -= 1) {
    const { place = 0, sound = 0 } = strokes[index] ?? {};
    const beat = beatOf(place, bars);
    if (isOfFills(sound)) ofFills[beat] = 1;
    firstStroke[beat] = index;
  }
  for (let beat = bars.beats - 1; beat >= 0; beat -= 1) {
    firstStroke[beat] = Math.min(firstStroke[beat] ?? 0, firstStroke[beat + 1] ?? 0);
  }
  const general = ratesLogs(strokes, bars, FILL_RATES);
  return { bars, beatsInBar, strokes, firstStroke, ofFills, usual, general };
}

/** Every span that is not hopeless, as fills in general and as each written fill of its length. */
function likelySpans(beats: Beats, known: readonly KnownFill[]): readonly Span[] {
  const ofMetre = known.filter(({ beatsInBar }) => beatsInBar === beats.beatsInBar);
  const { bars, beatsInBar, ofFills, usual, general } = beats;
  const [firstBeat, lastBeat] = [beatOf(bars.first, bars), beatOf(bars.last, bars)];
  const spans: Span[] = [];
  for (let end = firstBeat + 1; end <= bars.beats; end += 1) {
    const ending = endPrior(end, beatsInBar) + crashPrior(beats, end);
    const longest = Math.min(MOST_BARS_IN_A_FILL * beatsInBar, end - firstBeat);
    let fill = 0;
    let groove = 0;
    for (let length = 1; length <= longest; length += 1) {
      const from = end - length;
      fill += (general[from] ?? 0) + (from <= lastBeat && ofFills[from] === 0 ? EMPTY_BEAT : 0);
      groove += usual[from] ?? 0;
      // It begins with a stroke of its own.
      if (ofFills[from] === 0) continue;
      const prior = ending + lengthPrior(length) - groove;
      spans.push({ from, end, log: prior + Math.log(1 - KNOWN_SHARE) + fill });
      if (end % beatsInBar === 0) spans.push(...asWritten(beats, ofMetre, { from, end, prior }));
    }
  }
  return spans.filter(({ log }) => log > HOPELESS);
}

function asWritten(
  { bars, strokes, firstStroke }: Beats,
  known: readonly KnownFill[],
  { from, end, prior }: { readonly from: number; readonly end: number; readonly prior: number },
): readonly Span[] {
  const written = known.filter(({ fill }) => fill.beats === end - from);
  const played = strokes.slice(firstStroke[from], firstStroke[end]);
  const at = { from: from * bars.beat, beat: bars.beat, near: bars.near };
  return written.map((one) => {
    const log = prior + Math.log(KNOWN_SHARE / written.length) + fillLog(one, played, at);
    return { from, end, log, known: one };
  });
}

function lengthPrior(beats: number): number {
  return Math.log(FILL_LENGTH_SHARES[beats - 1] ?? 0.01);
}

function endPrior(end: number, beatsInBar: number): number {
  const odds = Math.log(FILLS_A_BAR);
  if (end % beatsInBar !== 0) return odds + WITHIN_BAR;
  return odds + ((end / beatsInBar) % 4 === 0 ? AT_FOURTH_BAR : AT_OTHER_BAR);
}

const CRASH = numberOf("crash");

/** What a crash on the one after the fill says, or that there is none; nothing where the take ends before. */
function crashPrior({ bars, strokes, firstStroke }: Beats, end: number): number {
  const one = end * bars.beat;
  for (let index = firstStroke[end] ?? strokes.length; index < strokes.length; index += 1) {
    const stroke = strokes[index];
    if (!stroke || stroke.place > one + bars.near) break;
    if (SOUND_PARTS[stroke.sound] === CRASH) return THEN_CRASH;
  }
  return one > bars.last + EARLY_PLACES ? 0 : NO_CRASH;
}

function grouped(spans: readonly Span[], key: (span: Span) => number): ReadonlyMap<number, readonly Span[]> {
  const groups = new Map<number, Span[]>();
  for (const span of spans) groups.set(key(span), [...(groups.get(key(span)) ?? []), span]);
  return groups;
}

/** The likeliest course of groove and fills; between two fills at least a beat of groove. */
function likeliestCourse(spans: readonly Span[], beats: number): readonly Span[] {
  const byEnd = grouped(spans, ({ end }) => end);
  const groove = new Float64Array(beats + 1);
  const ended: (Span | undefined)[] = new Array(beats + 1);
  const filled = new Float64Array(beats + 1).fill(Number.NEGATIVE_INFINITY);
  const afterFill = new Uint8Array(beats + 1);
  for (let end = 1; end <= beats; end += 1) {
    const before = groove[end - 1] ?? 0;
    const beforeFilled = filled[end - 1] ?? Number.NEGATIVE_INFINITY;
    groove[end] = Math.max(before, beforeFilled);
    afterFill[end] = beforeFilled > before ? 1 : 0;
    for (const span of byEnd.get(end) ?? []) {
      const log = (groove[span.from] ?? 0) + span.log;
      if (log <= (filled[end] ?? 0)) continue;
      filled[end] = log;
      ended[end] = span;
    }
  }
  const course: Span[] = [];
  let inFill = (filled[beats] ?? 0) > (groove[beats] ?? 0);
  for (let end = beats; end > 0; ) {
    const span = inFill ? ended[end] : undefined;
    if (span) {
      course.unshift(span);
      end = span.from;
      inFill = false;
    } else {
      inFill = afterFill[end] === 1;
      end -= 1;
    }
  }
  return course;
}

/** The chance of each beat that it belongs to a fill, over all courses. */
function beatChances(spans: readonly Span[], beats: number): Float64Array {
  const byEnd = grouped(spans, ({ end }) => end);
  const byStart = grouped(spans, ({ from }) => from);
  const impossible = Number.NEGATIVE_INFINITY;
  const groove = new Float64Array(beats + 1);
  const filled = new Float64Array(beats + 1).fill(impossible);
  for (let end = 1; end <= beats; end += 1) {
    groove[end] = logSum([groove[end - 1] ?? 0, filled[end - 1] ?? impossible]);
    filled[end] = logSum((byEnd.get(end) ?? []).map(({ from, log }) => (groove[from] ?? 0) + log));
  }
  const fromGroove = new Float64Array(beats + 1);
  const fromFill = new Float64Array(beats + 1);
  for (let start = beats - 1; start >= 0; start -= 1) {
    fromFill[start] = fromGroove[start + 1] ?? 0;
    const on = (byStart.get(start) ?? []).map(({ end, log }) => log + (fromFill[end] ?? 0));
    fromGroove[start] = logSum([fromGroove[start + 1] ?? 0, ...on]);
  }
  const all = logSum([groove[beats] ?? 0, filled[beats] ?? impossible]);
  const chances = new Float64Array(beats);
  for (const { from, end, log } of spans) {
    const chance = Math.exp((groove[from] ?? 0) + log + (fromFill[end] ?? 0) - all);
    for (let beat = from; beat < end; beat += 1) chances[beat] = (chances[beat] ?? 0) + chance;
  }
  return chances;
}

function told(
  { from, end }: Span,
  spans: readonly Span[],
  chances: Float64Array,
  { pulse, turn, beatsInBar }: OnBars,
  bars: Bars,
): HeardFill {
  const shift = bars.first - ((pulse.strokes.beats[0] ?? 0) * PLACES_PER_BEAT - turn);
  const timeOf = (beat: number): number =>
    timeOfBeat(pulse.map, (beat * bars.beat - shift + turn) / PLACES_PER_BEAT);
  const { times } = pulse.map;
  const named = nameOf(spans.filter((span) => span.from === from && span.end === end));
  return {
    from: Math.max(timeOf(from), times[0] ?? 0),
    to: Math.min(timeOf(end), times.at(-1) ?? 0),
    bar: Math.floor(from / beatsInBar) + 1,
    beats: end - from,
    ...(named ? { id: named.fill.id, name: named.fill.name } : {}),
    confidence: Math.min(1, chances[end - 1] ?? 0),
  };
}

/** Which written fill a span is, when one of them is likelier than all else it could be as a fill. */
function nameOf(readings: readonly Span[]): KnownFill | undefined {
  const all = logSum(readings.map(({ log }) => log));
  return readings.find(({ known, log }) => known && log - all > Math.log(SURE_OF_NAME))?.known;
}
