/**
 * Question: how far does what is said stand above the noise of the room, in dB?
 *
 * Signal to noise is the power of what is said over the power of the noise, over the whole band and the whole recording with
 * its quiet; where the quiet is long, it counts for no more than 4 dB.
 *
 * Method: noise is measured where nothing is said, in stretches of 20 ms. Below every voice it is measured over the whole
 * recording instead: pink noise has much of its power there, and it swings too slowly for the little quiet between syllables to
 * show it. With it taken apart the rest is even from stretch to stretch, so that the soft ends of syllables are told from it
 * and are no noise. A breath into the microphone rumbles too, but only while something is said: it is no noise of the room.
 */
import { median, type Seconds } from "../../units/index.ts";
import { decibels, powers } from "./loudness.ts";
import { rumbleApart } from "./rumble.ts";
import type { Span } from "./saidSpans.ts";
import { type Sound, soundSeconds } from "./sound.ts";

const STEP_SECONDS: Seconds = 0.02;
/** How much the quiet takes from the power of what is said, at most. Our choice. */
const MOST_QUIET_DB = 4;
/** Rumble of a room is no stronger than this many times what it is while nothing is said. Our choice. */
const MOST_RUMBLE_TIMES = 2;
/** Digital silence has no power to divide by. */
const LEAST_POWER = 1e-12;

/**
 * Signal to noise in dB, of what is said in the spans; of the loudest stretch where there is no span.
 */
export function signalToNoiseDb(sound: Sound, spans: readonly Span[]): number {
  const { rumble, above } = rumbleApart(sound);
  const all = powers(above, STEP_SECONDS);
  const steady = steadyPower(all);
  const rumbles = powers(rumble, STEP_SECONDS);
  const rumblesInQuiet = rumbles.filter((_, at) => (all[at] ?? 0) <= steady * NOISE_REACH);
  const rumbling = Math.min(mean(rumbles), MOST_RUMBLE_TIMES * mean(rumblesInQuiet));
  const noise = Math.max(rumbling + steady, LEAST_POWER);
  if (spans.length === 0) {
    const loudest = all.reduce((most, power) => Math.max(most, power), LEAST_POWER);
    return decibels(loudest / noise);
  }
  const saidWithin = ({ from, to }: Span): number =>
    all
      .slice(Math.floor(from / STEP_SECONDS), Math.ceil(to / STEP_SECONDS))
      .reduce((sum, power) => sum + Math.max(0, power - steady), 0);
  const energy = STEP_SECONDS * spans.reduce((sum, span) => sum + saidWithin(span), 0);
  const saidSeconds = spans.reduce((sum, { from, to }) => sum + to - from, 0);
  const quietDb = Math.min(MOST_QUIET_DB, decibels(soundSeconds(sound) / saidSeconds));
  return decibels(Math.max(energy / saidSeconds, LEAST_POWER) / noise) - quietDb;
}

/** The quietest tenth of the stretches lies between what is said. */
const QUIET_SHARE = 0.1;
/** A stretch of noise is never stronger than this many times its mean, without rumble: five standard deviations of pink noise. */
const NOISE_REACH = 2;
/** It settles after three or four. */
const MOST_TURNS = 20;

/** The mean power of the stretches that are noise: from the quietest ones on, until no other is within reach of the mean. */
function steadyPower(all: readonly number[]): number {
  const sorted = [...all].sort((a, b) => a - b);
  let power = median(sorted.slice(0, Math.max(1, Math.ceil(sorted.length * QUIET_SHARE))));
  let count = 0;
  for (let turn = 0; turn < MOST_TURNS; turn += 1) {
    const near = sorted.filter((each) => each <= power * NOISE_REACH);
    if (near.length === count || near.length === 0) break;
    count = near.length;
    power = mean(near);
  }
  return power;
}

function mean(all: readonly number[]): number {
  return all.reduce((sum, each) => sum + each, 0) / Math.max(1, all.length);
}
