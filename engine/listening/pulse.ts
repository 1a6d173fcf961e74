/**
 * Question: what is the pulse, its metre and its downbeat, when nobody has said?
 * Method: hypotheses × evidence. Periods at which the strokes repeat propose pulses; each is followed over the
 * whole take; grooves in general (see background.ts) say how likely the strokes are under each pulse, metre and
 * turn of the bar.
 */
import type { Bpm, Seconds } from "../units/index.ts";
import { type Background, type Bars, scoreBackground } from "./background.ts";
import { type Folded, fold, PLACES_PER_BEAT, type PulseStrokes, type Turns, turnAt } from "./barModel.ts";
import type { BeatMap } from "./beatMap.ts";
import { repeatingPeriods } from "./periods.ts";
import { phasesOf, placeOrigin } from "./phases.ts";
import type { Stroke } from "./roles.ts";
import { followPulse } from "./tracking.ts";

/** One pulse that could be, followed over the take, with its strokes by beat. */
export interface PulseHypothesis {
  /** Beat 0 is a place of the bar near the first stroke, not yet a downbeat. */
  readonly map: BeatMap;
  /** Mean length of a beat. */
  readonly beatSeconds: Seconds;
  readonly spanBeats: number;
  readonly strokes: PulseStrokes & { readonly velocities: Float64Array };
  /** The strokes folded onto a bar, or a longer repeat, of so many beats. */
  readonly folded: (beats: number) => Folded;
  /** Places of the beat at which it may begin: where strokes gather. */
  readonly phases: readonly number[];
}

/** A pulse, a length of bar and a turn, with the log of its chance (up to a constant of the take). */
export interface BarHypothesis {
  readonly pulse: PulseHypothesis;
  readonly beatsInBar: number;
  /** Downbeats stand at beats `turn / PLACES_PER_BEAT + n · beatsInBar` of the pulse's map. */
  readonly turn: number;
  /** Under grooves in general, what the first stroke says included. */
  readonly logChance: number;
  /** What the place of the first stroke says. */
  readonly begins: number;
}

/** Beats of the pulse are looked for between these tempos. Our choice. */
const SLOWEST_BPM = 37;
const FASTEST_BPM = 240;
/** With fewer strokes there is no pulse. */
const FEWEST_STROKES = 4;
/** The steady stretch from which the pulse is first read: short enough not to drift by a beat. Our choice. */
const STRETCH: Seconds = 11;
/** Some two bars: as long as a tempo that breathes stands still, as short as shows what comes round. Our choice. */
const SHORT_STRETCH: Seconds = 4.5;
/** Our choice, tuned on the development data. */
const PERIODS_TRIED = 6;
/** A repeating period may be this many beats long. */
const BEATS_IN_PERIOD = [1, 2, 3, 4, 6, 8];
/** Pulses that are not relatives of one another, each followed with all its relatives. Our choice. */
const FAMILIES_FOLLOWED = 2;
/** Periods nearer than this are one: in natural log, six parts in a thousand. */
const SAME_PERIOD_LOG = 0.006;
/** Ratios nearer than this to a simple one make relatives. */
const RELATED_LOG = 0.02;
/** Pulses related to one that is followed: half, double, and the triplet relations. */
const RELATIVES = [1, 2, 1 / 2, 3, 1 / 3, 3 / 2, 2 / 3, 4 / 3, 3 / 4];

/** Where a pulse is followed from: a period, and the stretch of the take that shows it. */
export interface Root {
  /** Seconds a beat. */
  readonly period: Seconds;
  /** Beats after which the strokes come round. */
  readonly beatsRound: number;
  /** Middle of the stretch, as a share of the take, and its length. */
  readonly around: number;
  readonly seconds: Seconds;
}

/**
 * The pulses that could be, each followed over the whole take. Empty for fewer than four strokes.
 *
 * @param roots where they are followed from; left out, they are looked for.
 */
export function pulseHypotheses(
  strokes: readonly Stroke[],
  general: Background,
  roots: readonly Root[] = rootPulses(strokes, general),
): readonly PulseHypothesis[] {
  if (strokes.length < FEWEST_STROKES) return [];
  return withoutTwins(
    roots.flatMap((root) => {
      const map = followPulse(strokes, { ...stretchAround(strokes, root.around, root.seconds), ...root });
      return RELATIVES.map((ratio) => underRatio(strokes, map, ratio)).filter(({ beatSeconds }) =>
        inRange(beatSeconds),
      );
    }),
  );
}

/**
 * Where pulses are to be followed from: the middle of the take, since its ends may be a count-in or a last crash. Where
 * two bars before or after come round in another time, these too, and first (of two pulses with one mean tempo the first is
 * kept): a tempo that breathes stands still now and then.
 */
export function rootPulses(strokes: readonly Stroke[], general: Background): readonly Root[] {
  const middle = rootsAround(strokes, 1 / 2, STRETCH, general, FAMILIES_FOLLOWED);
  const seconds = (strokes.at(-1)?.time ?? 0) - (strokes[0]?.time ?? 0);
  const [best] = middle;
  if (!best || seconds < 2 * SHORT_STRETCH) return middle;
  const elsewhere = [1 / 4, 3 / 4];
  if (elsewhere.every((share) => comesRound(strokes, share, best.period))) return middle;
  return [...elsewhere.flatMap((share) => rootsAround(strokes, share, SHORT_STRETCH, general, 1)), ...middle];
}

/** A period this near to whole beats is one of them, as a share of a beat. Our choice. */
const WHOLE_BEATS = 0.06;
const PERIODS_ASKED = 3;

/** Whether what is played around this share of the take comes round after whole beats of this period. */
function comesRound(strokes: readonly Stroke[], share: number, period: Seconds): boolean {
  const { from, to } = stretchAround(strokes, share, SHORT_STRETCH);
  const periods = repeatingPeriods(strokes.slice(from, to), PERIODS_ASKED);
  return (
    periods.length === 0 ||
    periods.some((own) => Math.abs(own / period - Math.round(own / period)) < WHOLE_BEATS)
  );
}

/** Part of the strokes: from one index to one past another. */
interface StretchOfStrokes {
  readonly from: number;
  readonly to: number;
}

/** So many seconds around this share of the take. */
function stretchAround(strokes: readonly Stroke[], share: number, seconds: Seconds): StretchOfStrokes {
  const first = strokes[0]?.time ?? 0;
  const last = strokes.at(-1)?.time ?? 0;
  const length = Math.min(seconds, last - first);
  const start = first + share * (last - first) - length / 2;
  const from = strokes.findIndex(({ time }) => time >= start);
  const after = strokes.findIndex(({ time }) => time > start + length);
  return { from, to: after === -1 ? strokes.length : after };
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

function isRelated(period: Seconds, roots: readonly Root[]): boolean {
  return roots.some((root) => RELATIVES.some((ratio) => logApart(root.period * ratio, period) < RELATED_LOG));
}

/** The best beat periods of a stretch that are not simple relatives of one another. */
function rootsAround(
  strokes: readonly Stroke[],
  around: number,
  seconds: Seconds,
  general: Background,
  count: number,
): readonly Root[] {
  const { from, to } = stretchAround(strokes, around, seconds);
  const within = strokes.slice(from, to);
  if (within.length < FEWEST_STROKES) return [];
  const proposed = repeatingPeriods(within, PERIODS_TRIED)
    .flatMap((period) => BEATS_IN_PERIOD.map((beats) => ({ period: period / beats, beats })))
    .filter(({ period }) => inRange(period));
  const distinct: typeof proposed = [];
  for (const proposal of proposed) {
    if (distinct.every(({ period }) => logApart(period, proposal.period) > SAME_PERIOD_LOG))
      distinct.push(proposal);
  }
  const scored = distinct.map((proposal) => ({
    ...proposal,
    score: sketched(evenPulse(within, proposal.period), general),
  }));
  scored.sort((a, b) => b.score - a.score);
  const roots: Root[] = [];
  for (const { period, beats } of scored) {
    if (roots.length === count) break;
    if (!isRelated(period, roots)) roots.push({ period, beatsRound: beats < 3 ? 4 : beats, around, seconds });
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
  return onBeats(strokes, beatOf, placeOrigin(beatsOf(strokes, beatOf), strokes));
}

function beatsOf(
  strokes: readonly Stroke[],
  beatOf: (stroke: Stroke, index: number) => number,
): Float64Array {
  const beats = new Float64Array(strokes.length);
  strokes.forEach((stroke, index) => {
    beats[index] = beatOf(stroke, index);
  });
  return beats;
}

/** What strokes are under every pulse, laid out one kind after the other. */
interface Columns {
  readonly times: Float64Array;
  readonly sounds: Uint8Array;
  readonly weights: Float64Array;
  readonly velocities: Float64Array;
}

const columnsKnown = new WeakMap<readonly Stroke[], Columns>();

/** Laid out once for all pulses of a take. */
function columnsOf(strokes: readonly Stroke[]): Columns {
  const known = columnsKnown.get(strokes);
  if (known) return known;
  const columns = {
    times: Float64Array.from(strokes, ({ time }) => time),
    sounds: Uint8Array.from(strokes, ({ sound }) => sound),
    weights: Float64Array.from(strokes, ({ weight }) => weight),
    velocities: Float64Array.from(strokes, ({ velocity }) => velocity),
  };
  columnsKnown.set(strokes, columns);
  return columns;
}

function onBeats(
  strokes: readonly Stroke[],
  beatOf: (stroke: Stroke, index: number) => number,
  origin: number,
): PulseHypothesis {
  const beats = beatsOf(strokes, beatOf).map((beat) => beat - origin);
  const spanBeats = Math.max(1, (beats.at(-1) ?? 0) - (beats[0] ?? 0));
  const spanSeconds = (strokes.at(-1)?.time ?? 0) - (strokes[0]?.time ?? 0);
  const { times, ...told } = columnsOf(strokes);
  const byBeat = { beats, ...told };
  return {
    map: { times, beats },
    beatSeconds: spanSeconds / spanBeats,
    spanBeats,
    strokes: byBeat,
    folded: foldedOnce(byBeat, spanBeats),
    phases: phasesOf(byBeat),
  };
}

/** What the commonest bars make of a pulse, at best: enough to tell whether it is worth a closer look. */
export function sketched(pulse: PulseHypothesis, general: Background): number {
  let most = Number.NEGATIVE_INFINITY;
  for (const beatsInBar of general.sketch.beats) {
    const scores = scoreBackground(general.sketch, pulse.folded(beatsInBar), pulse.phases, pulse.beatSeconds);
    const turns: Turns = { beats: beatsInBar, phases: pulse.phases };
    scores.forEach((score, index) => {
      const begins = beginningPrior(pulse, turnAt(turns, index), beatsInBar * PLACES_PER_BEAT);
      most = Math.max(most, score + begins);
    });
  }
  return most;
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
export const BEGINS_ON_ONE = 0.5;
/** A first stroke this near the one, in places, begins on it. */
const ON_ONE_PLACES = 1.5;

/** What the place of the first stroke says for a turn of a repeat of `places` places. */
export function beginningPrior(pulse: PulseHypothesis, turn: number, places: number): number {
  const first = (pulse.strokes.beats[0] ?? 0) * PLACES_PER_BEAT - turn;
  const apart = ((first % places) + places) % places;
  return Math.min(apart, places - apart) <= ON_ONE_PLACES ? BEGINS_ON_ONE : 0;
}

/** Folds strokes onto a bar (or a longer repeat) of so many beats: each once, for all that ask. */
export function foldedOnce(strokes: PulseStrokes, spanBeats: number): (beats: number) => Folded {
  const known = new Map<number, Folded>();
  return (beats) => {
    const folded = known.get(beats) ?? fold(strokes, beats, spanBeats);
    known.set(beats, folded);
    return folded;
  };
}

/** Every bar under this pulse: each length the background knows, each turn worth trying. */
export function barHypotheses(pulse: PulseHypothesis, general: Bars): readonly BarHypothesis[] {
  return general.beats.flatMap((beatsInBar) => {
    const scores = scoreBackground(general, pulse.folded(beatsInBar), pulse.phases, pulse.beatSeconds);
    const turns: Turns = { beats: beatsInBar, phases: pulse.phases };
    return Array.from(scores, (score, index) => {
      const turn = turnAt(turns, index);
      const begins = beginningPrior(pulse, turn, beatsInBar * PLACES_PER_BEAT);
      return { pulse, beatsInBar, turn, logChance: score + begins, begins };
    });
  });
}
