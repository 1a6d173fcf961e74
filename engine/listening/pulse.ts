/**
 * Question: what is the pulse, its metre and its downbeat, when nobody has said?
 * Method: hypotheses × evidence. Periods at which the strokes repeat propose pulses; each is followed over the
 * whole take; grooves in general (see background.ts) say how likely the strokes are under each pulse, metre and
 * turn of the bar.
 */
import type { Bpm, Seconds } from "../units/index.ts";
import { type Background, scoreBackground } from "./background.ts";
import { type Folded, fold, PLACES_PER_BEAT } from "./barModel.ts";
import { logSum } from "./logSum.ts";
import { repeatingPeriods } from "./periods.ts";
import type { Stroke } from "./roles.ts";
import { type BeatMap, followPulse } from "./tracking.ts";

/** One pulse that could be, followed over the take, with its strokes by beat. */
export interface PulseHypothesis {
  /** Beat 0 is a place of the bar near the first stroke, not yet a downbeat. */
  readonly map: BeatMap;
  /** Mean length of a beat. */
  readonly beatSeconds: Seconds;
  readonly spanBeats: number;
  readonly strokes: {
    readonly beats: Float64Array;
    readonly roles: Uint8Array;
    readonly weights: Float64Array;
  };
}

/** A pulse, a length of bar and a turn, with the log of its chance (up to a constant of the take). */
export interface BarHypothesis {
  readonly pulse: PulseHypothesis;
  readonly beatsInBar: number;
  /** Downbeats stand at beats `turn / PLACES_PER_BEAT + n · beatsInBar` of the pulse's map. */
  readonly turn: number;
  readonly logChance: number;
}

/** Beats of the pulse are looked for between these tempos. Our choice. */
const SLOWEST_BPM = 42;
const FASTEST_BPM = 230;
/** With fewer strokes there is no pulse. */
const FEWEST_STROKES = 4;
/** The steady stretch from which the pulse is first read: short enough not to drift by a beat. Our choice. */
const STRETCH: Seconds = 11;
/** Our choice, tuned on the development data. */
const PERIODS_TRIED = 9;
/** A repeating period may be this many beats long. */
const BEATS_IN_PERIOD = [1, 2, 3, 4, 6, 8];
/** Pulses that are not relatives of one another, each followed with all its relatives. Our choice. */
const FAMILIES_FOLLOWED = 3;
/** Periods nearer than this are one: in natural log, six parts in a thousand. */
const SAME_PERIOD_LOG = 0.006;
/** Ratios nearer than this to a simple one make relatives. */
const RELATED_LOG = 0.02;
/** Pulses related to one that is followed: half, double, and the triplet relations. */
const RELATIVES = [1, 2, 1 / 2, 3, 1 / 3, 3 / 2, 2 / 3, 4 / 3, 3 / 4];

/** The pulses that could be, each followed over the whole take. Empty for fewer than four strokes. */
export function pulseHypotheses(strokes: readonly Stroke[], general: Background): readonly PulseHypothesis[] {
  if (strokes.length < FEWEST_STROKES) return [];
  const { from, to } = steadyStretch(strokes);
  const stretch = strokes.slice(from, to);
  const roots = rootPeriods(stretch, general);
  const hypotheses = roots.flatMap((period) => {
    const map = followPulse(strokes, from, to, period);
    return RELATIVES.flatMap((ratio) => {
      const hypothesis = underRatio(strokes, map, ratio);
      return inRange(hypothesis.beatSeconds) ? [hypothesis] : [];
    });
  });
  return withoutTwins(hypotheses);
}

/** A click that sounds while a take is played. */
export interface Click {
  readonly tempoBpm: Bpm;
  /** The first of its beats that counts, on the clock of the hits. */
  readonly from: Seconds;
}

/** The one pulse of a click: nothing is left to be found but the bar. */
export function clickPulse(strokes: readonly Stroke[], { tempoBpm, from }: Click): PulseHypothesis {
  return onBeats(strokes, (stroke) => ((stroke.time - from) * tempoBpm) / 60, 0);
}

function inRange(beatSeconds: number): boolean {
  return beatSeconds >= 60 / FASTEST_BPM && beatSeconds <= 60 / SLOWEST_BPM;
}

/** The middle of the take: its ends may be a count-in or a last crash. */
function steadyStretch(strokes: readonly Stroke[]): { readonly from: number; readonly to: number } {
  const first = strokes[0]?.time ?? 0;
  const last = strokes.at(-1)?.time ?? 0;
  if (last - first <= STRETCH) return { from: 0, to: strokes.length };
  const start = (first + last - STRETCH) / 2;
  const from = strokes.findIndex(({ time }) => time >= start);
  const end = strokes.findIndex(({ time }) => time > start + STRETCH);
  return { from, to: end === -1 ? strokes.length : end };
}

/** The best beat periods of the stretch that are not simple relatives of one another. */
function rootPeriods(stretch: readonly Stroke[], general: Background): readonly number[] {
  const proposed = repeatingPeriods(stretch, PERIODS_TRIED)
    .flatMap((period) => BEATS_IN_PERIOD.map((beats) => period / beats))
    .filter(inRange);
  const distinct: number[] = [];
  for (const period of proposed) {
    if (distinct.every((other) => logApart(other, period) > SAME_PERIOD_LOG)) distinct.push(period);
  }
  const scored = distinct.map((period) => ({ period, score: bestBar(evenPulse(stretch, period), general) }));
  scored.sort((a, b) => b.score - a.score);
  const roots: number[] = [];
  for (const { period } of scored) {
    if (roots.length === FAMILIES_FOLLOWED) break;
    const related = roots.some((root) =>
      RELATIVES.some((ratio) => logApart(root * ratio, period) < RELATED_LOG),
    );
    if (!related) roots.push(period);
  }
  return roots;
}

function logApart(a: Seconds, b: Seconds): number {
  return Math.abs(Math.log(a / b));
}

function evenPulse(strokes: readonly Stroke[], period: number): PulseHypothesis {
  const start = strokes[0]?.time ?? 0;
  return underBeats(strokes, (stroke) => (stroke.time - start) / period);
}

function underRatio(strokes: readonly Stroke[], map: BeatMap, ratio: number): PulseHypothesis {
  return underBeats(strokes, (_, index) => (map.beats[index] ?? 0) * ratio);
}

function underBeats(
  strokes: readonly Stroke[],
  beatOf: (stroke: Stroke, index: number) => number,
): PulseHypothesis {
  return onBeats(strokes, beatOf, placeOrigin(Float64Array.from(strokes, beatOf), strokes));
}

function onBeats(
  strokes: readonly Stroke[],
  beatOf: (stroke: Stroke, index: number) => number,
  origin: number,
): PulseHypothesis {
  const beats = Float64Array.from(strokes, (stroke, index) => beatOf(stroke, index) - origin);
  const spanBeats = Math.max(1, (beats.at(-1) ?? 0) - (beats[0] ?? 0));
  const spanSeconds = (strokes.at(-1)?.time ?? 0) - (strokes[0]?.time ?? 0);
  return {
    map: { times: Float64Array.from(strokes, ({ time }) => time), beats },
    beatSeconds: spanSeconds / spanBeats,
    spanBeats,
    strokes: {
      beats,
      roles: Uint8Array.from(strokes, ({ role }) => role),
      weights: Float64Array.from(strokes, ({ weight }) => weight),
    },
  };
}

/** Where, within a place, the strokes gather: their circular mean over the width of a place, in beats. */
function placeOrigin(beats: Float64Array, strokes: readonly Stroke[]): number {
  let sine = 0;
  let cosine = 0;
  beats.forEach((beat, index) => {
    const angle = 2 * Math.PI * beat * PLACES_PER_BEAT;
    const weight = strokes[index]?.weight ?? 0;
    sine += weight * Math.sin(angle);
    cosine += weight * Math.cos(angle);
  });
  return Math.atan2(sine, cosine) / (2 * Math.PI * PLACES_PER_BEAT);
}

function bestBar(pulse: PulseHypothesis, general: Background): number {
  return Math.max(...barHypotheses(pulse, general).map(({ logChance }) => logChance));
}

function withoutTwins(hypotheses: readonly PulseHypothesis[]): readonly PulseHypothesis[] {
  const kept: PulseHypothesis[] = [];
  for (const hypothesis of hypotheses) {
    if (kept.every((other) => logApart(other.beatSeconds, hypothesis.beatSeconds) > SAME_PERIOD_LOG))
      kept.push(hypothesis);
  }
  return kept;
}

/**
 * Players begin on the one more often than anywhere else (common practice, no source): the log of how much more.
 * Small, so that it only decides between turns that the strokes themselves leave open.
 */
const BEGINS_ON_ONE = 0.8;
/** A first stroke this near the one, in places, begins on it. */
const ON_ONE_PLACES = 1.5;

/** What the place of the first stroke says for a turn of a repeat of `places` places. */
export function beginningPrior(pulse: PulseHypothesis, turn: number, places: number): number {
  const first = (pulse.strokes.beats[0] ?? 0) * PLACES_PER_BEAT - turn;
  const apart = ((first % places) + places) % places;
  return Math.min(apart, places - apart) <= ON_ONE_PLACES ? BEGINS_ON_ONE : 0;
}

/** Folds a pulse's strokes onto a bar (or a longer repeat) of `beats` beats. */
export function foldPulse(pulse: PulseHypothesis, beats: number): Folded {
  return fold(pulse.strokes, beats, pulse.spanBeats);
}

/** Every bar under this pulse: each length the background knows, each turn. */
export function barHypotheses(pulse: PulseHypothesis, general: Background): readonly BarHypothesis[] {
  return general.beats.flatMap((beatsInBar) => {
    const turns = scoreBackground(general, foldPulse(pulse, beatsInBar), pulse.beatSeconds);
    return Array.from(turns, (score, turn) => ({
      pulse,
      beatsInBar,
      turn,
      logChance: score + beginningPrior(pulse, turn, turns.length),
    }));
  });
}

/** Turns this near, in places, are the same bar told a little earlier or later. */
const SAME_TURN_PLACES = 2;

/** The likeliest bar with its share of all chances, turns beside it counted with it; `undefined` for no bar. */
export function likeliestBar(
  hypotheses: readonly BarHypothesis[],
): { readonly bar: BarHypothesis; readonly chance: number } | undefined {
  const bar = hypotheses.reduce<BarHypothesis | undefined>(
    (best, one) => (best && best.logChance >= one.logChance ? best : one),
    undefined,
  );
  if (!bar) return undefined;
  const near = hypotheses.filter(
    (one) =>
      one.pulse === bar.pulse &&
      one.beatsInBar === bar.beatsInBar &&
      turnsApart(one, bar) <= SAME_TURN_PLACES,
  );
  return {
    bar,
    chance: Math.exp(
      logSum(near.map((one) => one.logChance)) - logSum(hypotheses.map((one) => one.logChance)),
    ),
  };
}

function turnsApart(a: BarHypothesis, b: BarHypothesis): number {
  const places = a.beatsInBar * PLACES_PER_BEAT;
  const apart = Math.abs(a.turn - b.turn) % places;
  return Math.min(apart, places - apart);
}
