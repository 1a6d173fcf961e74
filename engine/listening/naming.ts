/**
 * Question: how much speaks for naming this groove, and how much for naming none?
 * Method: a conditional logistic regression (McFadden 1974) over the known grooves and "none I know", whose utility is 0.
 * A groove's utility weighs how far it stands out from grooves in general, in what the take, fills set aside, is unlike it,
 * and whether its pulse and its one are where grooves in general would have them; grooves known as they are written and
 * grooves known by takes have weights of their own. Weights were learnt by `scripts/learn.ts`; what became of the chances is measured in
 * `tests/bench/listening`.
 */
import { type Background, tempering } from "./background.ts";
import { PLACES_PER_BEAT } from "./barModel.ts";
import { type GrooveAlone, grooveAlone } from "./grooveAlone.ts";
import type { GrooveModel } from "./knownGroove.ts";
import { likeness, type PartLikeness, type Rates } from "./likeness.ts";
import type { Placing } from "./placing.ts";
import type { ReadBar } from "./reading.ts";
import { weighed } from "./weights.ts";

/** A groove where it lies best. */
export interface Placed {
  readonly model: GrooveModel;
  readonly placing: Placing;
  /** How far it stands above grooves in general, in natural-log units (see `background.ts` for the tempering). */
  readonly evidence: number;
}

/** A chance this small and less is told alike. */
const LEAST_CHANCE = 1e-3;

/** Only the grooves that stand out most are weighed in full. */
const WEIGHED_IN_FULL = 8;

/** Placed grooves, those that stand out most first. */
export function standingOutMost<T extends Placed>(placed: readonly T[]): readonly T[] {
  return [...placed].sort((a, b) => b.evidence - a.evidence).slice(0, WEIGHED_IN_FULL);
}

/**
 * What is weighed for each of these grooves, always as many numbers and in the same order.
 *
 * @param placed as {@link standingOutMost} gives them: a groove is seen beside the others too.
 */
export function namingFeatures(
  placed: readonly Placed[],
  bars: readonly ReadBar[],
): readonly (readonly number[])[] {
  const own = placed.map((one) => ownFeatures(one, bars));
  return placed.map(({ evidence }, index) => {
    const others = own.filter((_, other) => other !== index);
    const { features = [], alike = 0, gain = 0 } = own[index] ?? {};
    return byLength([
      ...features,
      ...beside(
        evidence,
        others.map((other) => other.evidence),
      ),
      ...beside(
        evidence + gain,
        others.map((other) => other.evidence + other.gain),
      ),
      others.length === 0 ? 0 : alike - Math.max(...others.map((other) => other.alike)),
    ]);
  });
}

/** Where the features that stand for naming at all, and for the length of the take, are among all of them. */
const ALWAYS = 0;
const LENGTH = 2;

/** The features, and each once more by the length of the take: two bars prove less than sixteen, and other things. */
function byLength(features: readonly number[]): readonly number[] {
  const length = features[LENGTH] ?? 0;
  return [
    ...features,
    ...features.filter((_, at) => at !== ALWAYS && at !== LENGTH).map((feature) => feature * length),
  ];
}

/** In what a take may be unlike a groove. */
const UNLIKE = ["unexplained", "missing", "intruding", "absent"] as const;

interface OwnFeatures {
  readonly features: readonly number[];
  readonly evidence: number;
  /** How much likelier the take is with fills, tempered as the evidence is. */
  readonly gain: number;
  /** How much the take and the groove have in common, 0 to 1. */
  readonly alike: number;
}

function ownFeatures({ model, placing, evidence }: Placed, bars: readonly ReadBar[]): OwnFeatures {
  const seconds = placing.pulse.spanBeats * placing.pulse.beatSeconds;
  const onPulse = bars.filter(({ pulse }) => pulse === placing.pulse);
  const alone = grooveAlone(model, placing);
  const gain = alone.gain * tempering(seconds);
  const parts = likeness(model, alone);
  const unlike = parts.flatMap((part) => UNLIKE.map((kind) => part[kind]));
  const alike = jaccard(parts);
  const features = [
    1,
    evidence,
    Math.log(seconds / 10),
    logChance(onPulse),
    logChance(onPulse.filter((bar) => sameOne(bar, placing, model.beats))),
    gain,
    alone.share,
    ...unlike,
    alike,
    jaccard(parts.slice(0, SKELETON_PARTS)),
    ...besideTakes(parts, alike, model.amongTakes),
    ...besideEachTake(alone, alike, model.takes),
  ];
  return { features, evidence, gain, alike };
}

/**
 * Of a groove known by several takes: how this one differs from what they have in common as they differ among one another,
 * in all and part by part. 0 throughout where there is no more than one.
 */
function besideTakes(
  parts: readonly PartLikeness[],
  alike: number,
  among: readonly PartLikeness[] | undefined,
): readonly number[] {
  if (!among) return [0, 0, ...parts.flatMap(() => UNLIKE.map(() => 0))];
  return [
    1,
    alike - jaccard(among),
    ...parts.flatMap((part, index) => UNLIKE.map((kind) => part[kind] - (among[index]?.[kind] ?? 0))),
  ];
}

/**
 * Of a groove known by several takes: how much more this one has in common with the likest and with the unlikest of them than
 * with all, and how far kick and back-beat contradict the one they contradict least and most.
 */
function besideEachTake(
  alone: GrooveAlone,
  alike: number,
  takes: readonly Rates[] | undefined,
): readonly number[] {
  if (!takes) return [0, 0, 0, 0];
  const each = takes.map((take) => likeness(take, alone));
  const alikes = each.map(jaccard);
  const contradictions = each.map((parts) =>
    parts.slice(0, SKELETON_PARTS).reduce((sum, { intruding, absent }) => sum + intruding + absent, 0),
  );
  return [
    Math.max(...alikes) - alike,
    Math.min(...alikes) - alike,
    Math.min(...contradictions),
    Math.max(...contradictions),
  ];
}

/** Differences further than this are told alike, in natural-log units. */
const MOST_APART = 20;
/** How far a groove stands from the next one and from the mean of the others. */
function beside(evidence: number, others: readonly number[]): readonly number[] {
  const within = (apart: number): number => Math.max(-MOST_APART, Math.min(MOST_APART, apart));
  // Where nothing else is known, a groove stands beside grooves in general.
  if (others.length === 0) return [within(evidence), within(evidence)];
  const mean = others.reduce((sum, other) => sum + other, 0) / others.length;
  return [within(evidence - Math.max(...others)), within(evidence - mean)];
}

/** Kick and back-beat are the first of the parts. */
const SKELETON_PARTS = 2;

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

/** What a groove that stands out less is given, below the least of those, for each unit of evidence it lacks. Our choice. */
const FOR_LESS_EVIDENCE = 0.5;

/**
 * Written grooves are named so many times as surely as their weights say: the weights have learnt caution from players with
 * habits, and what is played nearly as written is known more surely; with this, chances come true. Fitted on catalogue takes
 * that the bench does not use. The weights of reference takes need no such thing: learnt on two groups of drummers and asked
 * about the two others, each way round, the log loss was least at 1.
 */
const SURE_AS_WRITTEN = 2.3;

/** The utility of naming each groove, in their order. */
export function utilities(
  placed: readonly Placed[],
  bars: readonly ReadBar[],
  general: Background,
): readonly number[] {
  const first = standingOutMost(placed);
  const told = new Map(
    namingFeatures(first, bars).map((features, index) => {
      const utility = first[index]?.model.written
        ? SURE_AS_WRITTEN * weighed(features, general.naming.asWritten)
        : weighed(features, general.naming.byTakes);
      return [first[index], utility];
    }),
  );
  const least = Math.min(...told.values());
  const leastEvidence = first.at(-1)?.evidence ?? 0;
  return placed.map((one) => told.get(one) ?? least - FOR_LESS_EVIDENCE * (leastEvidence - one.evidence));
}
