/**
 * Question: how is swing written? Straight, with a feel: eighths or sixteenths where the beat is only ever divided in two,
 * triplets where their middle is played as well.
 */
import { type Feel, offBeatPlace, STRAIGHT, swungSpan } from "../../score/index.ts";
import { robustSpread } from "../../units/index.ts";
import type { HeardSwing } from "../hearing.ts";

/** From these ratios on, long and short are meant. Our choice: below, the off-beat is off by less than a player's spread. */
const SWUNG_FROM = { eighths: 1.25, sixteenths: 1.15 };
/**
 * Longer is written as it sounds, as dotted eighths and sixteenths: 3 to 1 is just that, and from here on the off-beat lies
 * nearer to it than to 2 to 1. Our choice: what swings more is rare, dotted figures that are played a little short are not.
 */
const LONGEST_RATIO = 2.4;
/** A stroke this near the middle of a triplet, in beats, is one; in so many of the beats, triplets are written. Our choice. */
const NEAR_MIDDLE = 0.06;
const MIDDLES = 0.02;
/** Ratios this near 2 are plain triplets. Our choice. */
const NEAR_TWO = 0.2;

/**
 * The feel to write with.
 *
 * @param beats of the strokes, as played.
 */
export function feelHeard(swing: HeardSwing | null, beats: readonly number[]): Feel {
  if (!swing || swing.ratio < SWUNG_FROM[swing.of] || swing.ratio > LONGEST_RATIO) return STRAIGHT;
  if (isStraight(swing, beats) || mayBeChance(swing, beats)) return STRAIGHT;
  const ratio = Math.round(swing.ratio * 100) / 100;
  if (swing.of === "sixteenths" || !hasMiddles(ratio, beats)) {
    return { kind: "swung", ratio, written: swing.of };
  }
  return Math.abs(ratio - 2) < NEAR_TWO ? STRAIGHT : { kind: "swung", ratio, written: "triplets" };
}

/** So many strokes on straight places speak against swing, as a share of those on the swung one. Our choice. */
const STRAIGHT_SHARE = 0.5;

/** Whether straight quarters of the beat are played as well: the long and short are dotted eighths and sixteenths then. */
function isStraight({ ratio, of }: HeardSwing, beats: readonly number[]): boolean {
  if (of === "sixteenths") return false;
  const near = (place: number): number =>
    beats.filter((beat) => Math.abs(beat - Math.floor(beat) - place) < NEAR_MIDDLE).length;
  const swung = offBeatPlace(ratio);
  const straight = [1 / 4, 1 / 2].filter((place) => Math.abs(place - swung) > 2 * NEAR_MIDDLE);
  return straight.reduce((sum, place) => sum + near(place), 0) > STRAIGHT_SHARE * near(swung);
}

/** Long and short spans in felt beats. */
const SPAN = { eighths: 1, sixteenths: 1 / 2 };
/** Off-beats lie between these shares of a span, straight and swung; what is nearer to an end than this stands on it. */
const OFF_BEAT = { from: 0.35, to: 0.82 };
const ON_BEAT = 0.2;
/**
 * So many standard errors later than the middle, and off-beats are not late by chance: one straight take in 160 by the
 * normal curve. Our choice, by grooves of the catalogue at 90 to 160 a minute with a spread of 8 and 14 ms: straight ones
 * that were heard as swung stood at 2.0 at most, those swung by 1.5 to 1 at 3.7 and more.
 */
const BEYOND_CHANCE = 2.5;

/**
 * Whether the off-beats lie no later than straight ones of this player would by chance: where sixteenths are quick and
 * few, a spread of 10 ms looks like swing.
 */
function mayBeChance({ of }: HeardSwing, beats: readonly number[]): boolean {
  const shares = beats.map((beat) => beat / SPAN[of] - Math.floor(beat / SPAN[of]));
  const late = robustSpread(shares.filter((share) => share > OFF_BEAT.from && share < OFF_BEAT.to));
  const on = robustSpread(
    shares.map((share) => (share > 0.5 ? share - 1 : share)).filter((share) => Math.abs(share) < ON_BEAT),
  );
  if (late.count < 2) return true;
  // The pulse may run a little before or behind the strokes that stand on it.
  const off = on.count === 0 ? 0 : on.mean;
  const error = Math.hypot(late.sd / Math.sqrt(late.count), on.count === 0 ? 0 : on.sd / Math.sqrt(on.count));
  return late.mean - off - 1 / 2 <= BEYOND_CHANCE * error;
}

function hasMiddles(ratio: number, beats: readonly number[]): boolean {
  const middle = offBeatPlace(ratio) / 2;
  const near = new Set<number>();
  const all = new Set<number>();
  for (const beat of beats) {
    const whole = Math.floor(beat);
    all.add(whole);
    if (Math.abs(beat - whole - middle) < NEAR_MIDDLE) near.add(whole);
  }
  return near.size > MIDDLES * all.size;
}

/**
 * The written beat of a stroke played at a beat: what `playedBeat` undoes.
 *
 * @example
 * writtenBeat({ kind: "swung", ratio: 3, written: "eighths" }, 1.75) // => 1.5
 */
export function writtenBeat(feel: Feel, played: number): number {
  if (feel.kind === "straight") return played;
  const { span, place } = swungSpan(feel.written);
  const start = Math.floor(played / span + 1e-9) * span;
  const within = (played - start) / span;
  const moved = offBeatPlace(feel.ratio);
  const written =
    within < moved ? (within / moved) * place : place + ((within - moved) / (1 - moved)) * (1 - place);
  return start + written * span;
}
