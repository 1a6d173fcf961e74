/**
 * Question: how much speaks for naming this groove, and how much for naming none?
 * Method: a conditional logistic regression (McFadden 1974) over the known grooves and "none I know", whose utility is 0.
 * A groove's utility weighs how far it stands out from grooves in general, in what the take is unlike it, and whether its
 * pulse and its one are where grooves in general would have them. Weights were learnt by `scripts/learn.ts`; what became
 * of the chances is measured in `tests/bench/listening`.
 */
import type { Background } from "./background.ts";
import { PLACES_PER_BEAT } from "./barModel.ts";
import type { GrooveModel } from "./knownGroove.ts";
import { likeness, type PartLikeness } from "./likeness.ts";
import type { Placing } from "./placing.ts";
import type { ReadBar } from "./reading.ts";
import { standingOut } from "./standingOut.ts";

/** A groove where it lies best. */
export interface Placed {
  readonly model: GrooveModel;
  readonly placing: Placing;
  /** How far it stands above grooves in general, in natural-log units (see `background.ts` for the tempering). */
  readonly evidence: number;
}

/** A chance this small and less is told alike. */
const LEAST_CHANCE = 1e-3;

/** What is weighed, always as many numbers and in the same order. */
export function namingFeatures(
  { model, placing, evidence }: Placed,
  bars: readonly ReadBar[],
  general: Background,
): readonly number[] {
  const written = model.written ? 1 : 0;
  const seconds = placing.pulse.spanBeats * placing.pulse.beatSeconds;
  const onPulse = bars.filter(({ pulse }) => pulse === placing.pulse);
  const alike = likeness(model, placing);
  const [kick, backBeat] = alike;
  const unlike = alike.flatMap(({ unexplained, missing }) => [unexplained, missing]);
  const { perBeat, whole, parts } = standingOut(model, placing, general);
  const features = [
    1,
    evidence,
    Math.log(seconds / 10),
    logChance(onPulse),
    logChance(onPulse.filter((bar) => sameOne(bar, placing, model.beats))),
    ...unlike,
    ...unlike.map(Math.sqrt),
    ...alike.map((part) => jaccard([part])),
    jaccard(alike),
    jaccard(kick && backBeat ? [kick, backBeat] : []),
    perBeat.groove,
    perBeat.take,
    perBeat.take / perBeat.groove,
    whole.groove,
    whole.take,
    ...parts.flatMap(({ take, groove }) => [take, groove]),
  ];
  // Written grooves and reference takes are weighed apart: each has the features of the other kind at 0.
  return [...features.map((value) => value * written), ...features.map((value) => value * (1 - written))];
}

/** Less than this, in strokes a beat, is as good as nothing. */
const NEXT_TO_NOTHING = 0.02;

/** What both play over what either plays (Jaccard 1901), 0 to 1; 1 where neither plays. */
function jaccard(parts: readonly PartLikeness[]): number {
  const sum = (of: keyof PartLikeness): number =>
    parts.reduce((all, part) => all + part[of], NEXT_TO_NOTHING);
  const shared = sum("shared");
  return shared / (shared + sum("unexplained") + sum("missing") - 2 * NEXT_TO_NOTHING);
}

function logChance(bars: readonly ReadBar[]): number {
  return Math.log(bars.reduce((sum, { chance }) => sum + chance, LEAST_CHANCE));
}

/** Whether the groove begins on a one of the bar, so far as their lengths can be compared. */
function sameOne(bar: ReadBar, placing: Placing, beats: number): boolean {
  const shorter = Math.min(beats, bar.beatsInBar) * PLACES_PER_BEAT;
  return (placing.turn - bar.turn) % shorter === 0;
}

/** Only the grooves that stand out most are weighed in full. */
const WEIGHED_IN_FULL = 8;
/** What a groove that stands out less is given, below the least of those, for each unit of evidence it lacks. Our choice. */
const FOR_LESS_EVIDENCE = 0.5;

/** The utility of naming each groove, in their order. */
export function utilities(
  placed: readonly Placed[],
  bars: readonly ReadBar[],
  general: Background,
): readonly number[] {
  const order = [...placed.keys()].sort((a, b) => (placed[b]?.evidence ?? 0) - (placed[a]?.evidence ?? 0));
  const told = new Map<number, number>();
  let least = Number.POSITIVE_INFINITY;
  let leastEvidence = 0;
  for (const index of order) {
    const one = placed[index];
    if (!one) continue;
    if (told.size < WEIGHED_IN_FULL) {
      const utility = weighed(namingFeatures(one, bars, general), general.naming);
      told.set(index, utility);
      least = Math.min(least, utility);
      leastEvidence = one.evidence;
    } else told.set(index, least - FOR_LESS_EVIDENCE * (leastEvidence - one.evidence));
  }
  return placed.map((_, index) => told.get(index) ?? Number.NEGATIVE_INFINITY);
}

function weighed(features: readonly number[], weights: readonly number[]): number {
  return features.reduce((sum, feature, index) => sum + feature * (weights[index] ?? 0), 0);
}
