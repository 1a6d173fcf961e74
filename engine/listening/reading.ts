/**
 * Question: of all bars that could be (a tempo, a length, a beat one), how likely is each?
 * Method: boosted trees (`trees.ts`) make the log odds of each bar of its features, and its chance is its share of the odds.
 * They were learnt on human takes and on the catalogue by `scripts/learn.ts`, each take's bars scored by grooves in general
 * that were learnt without its player, so that the trees know how far that evidence can be trusted.
 */
import type { Background } from "./background.ts";
import { featuresOfBars } from "./barFeatures.ts";
import { logSum } from "./logSum.ts";
import { type BarHypothesis, barHypotheses, type PulseHypothesis, sketched } from "./pulse.ts";
import { sumOfTrees } from "./trees.ts";

/** A bar that could be, with its chance among all of them. */
export interface ReadBar extends BarHypothesis {
  /** 0 to 1; those of all bars sum to 1. */
  readonly chance: number;
}

/** Only so many pulses are looked at closely. Our choice. */
const PULSES_LOOKED_AT = 8;
/** Grooves in general read none of them that a sketch makes so much less of than of the best, in natural-log units. */
const SKETCHED_ENOUGH = 18;
/** Of the bars under each of them only those that grooves in general make most of are read. Our choice. */
const BARS_READ = 5;

/** Pulses worth a closer look, likeliest first. */
export interface LikelyPulses {
  /** Known grooves are looked for on these. */
  readonly all: readonly PulseHypothesis[];
  /** Those of them that may be read as grooves in general. */
  readonly readable: readonly PulseHypothesis[];
}

/** The pulses the commonest bars make most of. */
export function likelyPulses(pulses: readonly PulseHypothesis[], general: Background): LikelyPulses {
  const sketches = pulses
    .map((pulse) => ({ pulse, score: sketched(pulse, general) }))
    .sort((a, b) => b.score - a.score)
    .slice(0, PULSES_LOOKED_AT);
  const least = (sketches[0]?.score ?? 0) - SKETCHED_ENOUGH;
  return {
    all: sketches.map(({ pulse }) => pulse),
    readable: sketches.filter(({ score }) => score >= least).map(({ pulse }) => pulse),
  };
}

/** The bars under these pulses that grooves in general make most of, likeliest first. */
export function likelyBars({ readable }: LikelyPulses, general: Background): readonly BarHypothesis[] {
  const byChance = (a: BarHypothesis, b: BarHypothesis): number => b.logChance - a.logChance;
  return readable
    .flatMap((pulse) => [...barHypotheses(pulse, general)].sort(byChance).slice(0, BARS_READ))
    .sort(byChance);
}

/** The same with their chances, likeliest first. Empty for no pulse. */
export function readBars(bars: readonly BarHypothesis[], general: Background): readonly ReadBar[] {
  const features = featuresOfBars(bars);
  const logits = bars.map(({ begins }, index) => begins + sumOfTrees(features[index] ?? [], general.reading));
  const all = logSum(logits);
  return bars
    .map((bar, index) => ({ ...bar, chance: Math.exp((logits[index] ?? 0) - all) }))
    .sort((a, b) => b.chance - a.chance);
}
