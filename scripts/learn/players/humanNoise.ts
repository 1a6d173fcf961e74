/**
 * Question: how far do people stray from what they usually play, in time and in strength?
 * Method: for every stroke of the groove a take plays, the deviations of its soundings from their own median: so
 * neither lean nor swing counts as spread. Two parts that sound together tell what is each limb's own; the rest is a
 * wander all limbs share (after the two-level model of Wing & Kristofferson 1973: a clock, and a delay for each limb).
 */
import { type Milliseconds, median } from "../../../engine/units/index.ts";
import {
  type DerivedGroove,
  leanOnBeats,
  PARTS,
  type Part,
  partOf,
  STEPS_PER_BEAT,
} from "./derivedGroove.ts";
import type { HumanTake } from "./humanTake.ts";

export interface HumanNoise {
  /** Standard deviation, over parts, of a part's lean against the take's. */
  readonly partLeanMs: Milliseconds;
  /** Standard deviation of one stroke about its own usual time. */
  readonly spreadMs: Milliseconds;
  /** The part of it that is each limb's own, from strokes meant together. */
  readonly limbMs: Milliseconds;
  /** Correlation of the shared wander from one beat to the next. */
  readonly wanderCorrelation: number;
  /** Standard deviation of a stroke's velocity (0 to 1) about its own mean. */
  readonly velocitySd: number;
}

/**
 * Medians over the takes of the held-out drummers, of the spread the middle four fifths;
 * `otherPlayers.test.ts` measures them again and holds these to it.
 */
export const MEASURED = {
  partLeanMs: 7.8,
  spreadMs: { low: 14.7, high: 21 },
  /** Of the spread, what is each limb's own; the rest is wander. */
  limbShare: 0.52,
  wanderCorrelation: 0.73,
  velocitySd: 0.126,
} as const;

/** Further away than this it is another stroke. In seconds. */
const OWN_STROKE = 0.05;

/** Noise of one take; `undefined` where too few strokes come round. */
export function noiseOf(take: HumanTake, groove: DerivedGroove): HumanNoise | undefined {
  const soundings = soundingsOf(take, groove);
  if (soundings.length < 60) return undefined;
  const together = differencesOfUnisons(soundings);
  if (together.length < 15) return undefined;
  const spread = deviation(soundings.map(({ apart }) => apart));
  const limb = Math.min(spread, deviation(together) / Math.SQRT2);
  const wanderVariance = spread ** 2 - limb ** 2;
  return {
    partLeanMs: 1000 * deviation(partLeans(soundings)),
    spreadMs: 1000 * spread,
    limbMs: 1000 * limb,
    wanderCorrelation: wanderVariance > 0 ? covarianceNextBeat(soundings) / wanderVariance : 0,
    velocitySd: deviation(soundings.map(({ stronger }) => stronger)),
  };
}

interface Sounding {
  readonly part: Part;
  /** Steps from the beginning of the take. */
  readonly at: number;
  /** Seconds after where it is written, the take's lean taken out. */
  readonly late: number;
  /** Seconds after the median of its soundings. */
  readonly apart: number;
  readonly stronger: number;
}

function soundingsOf(take: HumanTake, groove: DerivedGroove): readonly Sounding[] {
  const secondsAStep = 60 / take.bpm / STEPS_PER_BEAT;
  const lean = (leanOnBeats(take) * 60) / take.bpm;
  const steps = groove.bars * groove.beatsInBar * STEPS_PER_BEAT;
  const repeats = Math.ceil((take.hits.at(-1)?.time ?? 0) / secondsAStep / steps);
  return groove.strokes.flatMap(({ part, step }) => {
    const own = take.hits.filter(({ voice }) => partOf(voice) === part);
    const found = Array.from({ length: repeats }, (_, repeat) => {
      const at = repeat * steps + step;
      const due = at * secondsAStep + lean;
      const hit = own.find(({ time }) => Math.abs(time - due) <= OWN_STROKE);
      return hit ? { at, late: hit.time - due, velocity: hit.velocity } : undefined;
    }).filter((one) => one !== undefined);
    if (found.length < 4) return [];
    const usual = median(found.map(({ late }) => late));
    const strength = found.reduce((sum, { velocity }) => sum + velocity, 0) / found.length;
    return found.map(({ at, late, velocity }) => ({
      part,
      at,
      late,
      apart: late - usual,
      stronger: velocity - strength,
    }));
  });
}

function differencesOfUnisons(soundings: readonly Sounding[]): readonly number[] {
  const byTime = new Map<number, Sounding[]>();
  for (const one of soundings) byTime.set(one.at, [...(byTime.get(one.at) ?? []), one]);
  return [...byTime.values()].flatMap(([a, b]) => (a && b ? [a.apart - b.apart] : []));
}

/** A part's lean, where it is not one of swing: on the beats. */
function partLeans(soundings: readonly Sounding[]): readonly number[] {
  return PARTS.flatMap((part) => {
    const late = soundings
      .filter((one) => one.part === part && one.at % STEPS_PER_BEAT === 0)
      .map((one) => one.late);
    return late.length >= 8 ? [median(late)] : [];
  });
}

function covarianceNextBeat(soundings: readonly Sounding[]): number {
  const byPlace = new Map(soundings.map((one) => [`${one.part} ${one.at}`, one.apart]));
  const products = soundings.flatMap(({ part, at, apart }) => {
    const next = byPlace.get(`${part} ${at + STEPS_PER_BEAT}`);
    return next === undefined ? [] : [apart * next];
  });
  return products.length === 0 ? 0 : products.reduce((sum, one) => sum + one, 0) / products.length;
}

function deviation(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(
    values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / Math.max(1, values.length - 1),
  );
}
