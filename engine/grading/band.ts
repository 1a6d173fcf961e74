/**
 * Question: how much is too much? The judgement band of a student, and the limit below which nothing is a fault.
 */
import type { Level } from "../score/index.ts";
import { type Bpm, beatSeconds, type Milliseconds } from "../units/index.ts";

/** Half width of the band around the player's own lean, from 100 beats a minute up. Our choice, after lessons' practice. */
const BAND_MS: Readonly<Record<Level, Milliseconds>> = {
  "first-year": 60,
  "second-year": 45,
  steady: 30,
  working: 20,
};

/** The tempo from which bands are as stated: where people tap most at ease (Fraisse 1982: 500–600 ms). */
const EASY_BEAT_MS: Milliseconds = 600;
/** How much of a longer beat widens the band. Timing scatter grows with the interval (Repp 2005); half, our choice, since players subdivide. */
const WIDENING = 0.5;

/**
 * The judgement band: a stroke within ± this of the player's own lean is as it should be at that level.
 * Below 100 beats a minute it widens by half of what the beat lengthens by.
 *
 * @example
 * bandMs("steady", 120) // => 30
 * bandMs("steady", 50) // => 45
 */
export function bandMs(level: Level, tempoBpm: Bpm): Milliseconds {
  const longer = (beatSeconds(tempoBpm) * 1000) / EASY_BEAT_MS - 1;
  return BAND_MS[level] * (1 + WIDENING * Math.max(0, longer));
}

/**
 * Strokes wander when their spread (one standard deviation) is more than this share of the band: more than one in
 * six then lies outside it. Our choice. Repeated plays of one groove by professionals keep about 15 ms of spread
 * (measured on the Groove MIDI Dataset), which is just steady in a working player's band of ±20 ms.
 */
const STEADY_SHARE = 0.75;

/**
 * Whether a spread is steady for a band.
 *
 * @example
 * isSteady(15, 20) // => true
 * isSteady(25, 30) // => false
 */
export function isSteady(spreadMs: Milliseconds, halfBandMs: Milliseconds): boolean {
  return spreadMs <= STEADY_SHARE * halfBandMs;
}

/** Friberg & Sundberg, J. Acoust. Soc. Am. 98 (1995) 2524–2531: 6 ms up to 240 ms, 2.5 % of the interval above. */
const SHORTEST_HEARD_MS: Milliseconds = 6;
const HEARD_SHARE = 0.025;

/**
 * The limit of honesty: a displacement smaller than this cannot be heard in an even row of strokes `intervalMs`
 * apart, and is never called a fault. Source: Friberg & Sundberg 1995.
 *
 * @example
 * hearableMs(500) // => 12.5
 */
export function hearableMs(intervalMs: Milliseconds): Milliseconds {
  return Math.max(SHORTEST_HEARD_MS, HEARD_SHARE * intervalMs);
}

/** Where a stroke stands. */
export type Place = "ahead" | "in the pocket" | "behind";

/**
 * The place in time, in words.
 *
 * @param limitMs differences up to this much are in the pocket: {@link hearableMs} or {@link bandMs}.
 * @example
 * placeOf(-14, 12.5) // => "ahead"
 */
export function placeOf(offsetMs: Milliseconds, limitMs: Milliseconds): Place {
  if (Math.abs(offsetMs) <= limitMs) return "in the pocket";
  return offsetMs < 0 ? "ahead" : "behind";
}

/** The band of a level at a tempo, and what can be heard there, for every figure to be compared with. */
export function bandFigures(level: Level, tempoBpm: Bpm): BandFigures {
  const halfBandMs = bandMs(level, tempoBpm);
  const beatMs = beatSeconds(tempoBpm) * 1000;
  return { level, halfBandMs, steadyMs: STEADY_SHARE * halfBandMs, hearableMs: hearableMs(beatMs) };
}

/** What figures are compared with. */
export interface BandFigures {
  readonly level: Level;
  /** Half width of the student's band about the lean, at the tempo played. */
  readonly halfBandMs: Milliseconds;
  /** A spread up to this is steady in that band. */
  readonly steadyMs: Milliseconds;
  /** The smallest displacement heard in a row of beats, at the tempo played. */
  readonly hearableMs: Milliseconds;
}
