/**
 * Question: of all bars that could be (a tempo, a length, a beat one), how likely is each?
 * Method: a conditional logistic regression (McFadden 1974): each bar's features are weighed, and its chance is its share
 * of the exponentials. Weights were learnt on human takes by `scripts/learn.ts`, each take's bars scored by grooves in
 * general that were learnt without its player, so that the weights know how far that evidence can be trusted.
 */
import type { Background } from "./background.ts";
import { BarFeatures } from "./barFeatures.ts";
import { logSum } from "./logSum.ts";
import { type BarHypothesis, barHypotheses, type PulseHypothesis, sketched } from "./pulse.ts";

/** A bar that could be, with its chance among all of them. */
export interface ReadBar extends BarHypothesis {
  /** 0 to 1; those of all bars sum to 1. */
  readonly chance: number;
}

/** Only so many of the bars grooves in general make most of are read: the right one was among them in 99 of 100 takes. */
const BARS_READ = 40;

/** Only so many pulses are looked at closely, and none that a sketch makes so much less of, in natural-log units. */
const PULSES_READ = 9;
const SKETCHED_ENOUGH = 16;

/** The bars that grooves in general make most of, likeliest first. */
export function likelyBars(
  pulses: readonly PulseHypothesis[],
  general: Background,
): readonly BarHypothesis[] {
  const sketches = pulses
    .map((pulse) => ({ pulse, score: sketched(pulse, general) }))
    .sort((a, b) => b.score - a.score);
  const least = (sketches[0]?.score ?? 0) - SKETCHED_ENOUGH;
  return sketches
    .filter(({ score }, index) => index < PULSES_READ && score >= least)
    .flatMap(({ pulse }) => barHypotheses(pulse, general))
    .sort((a, b) => b.logChance - a.logChance)
    .slice(0, BARS_READ);
}

/** The same with their chances, likeliest first. Empty for no pulse. */
export function readBars(bars: readonly BarHypothesis[], general: Background): readonly ReadBar[] {
  const featuresOf = new Map<PulseHypothesis, BarFeatures>();
  const logits = bars.map((bar) => {
    const known = featuresOf.get(bar.pulse) ?? new BarFeatures(bar.pulse);
    featuresOf.set(bar.pulse, known);
    return bar.begins + weighed(known.of(bar), general.reading);
  });
  const all = logSum(logits);
  return bars
    .map((bar, index) => ({ ...bar, chance: Math.exp((logits[index] ?? 0) - all) }))
    .sort((a, b) => b.chance - a.chance);
}

function weighed(features: readonly number[], weights: readonly number[]): number {
  return features.reduce((sum, feature, index) => sum + feature * (weights[index] ?? 0), 0);
}
