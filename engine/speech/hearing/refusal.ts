/**
 * Question: can anything be heard in this sound, and if not, what is in the way?
 * Below 15 dB of signal to noise (`signalToNoise.ts`) syllables are refused rather than guessed.
 */
import { median, type Seconds } from "../../units/index.ts";
import { decibels, powers } from "./loudness.ts";
import { saidSpans } from "./saidSpans.ts";
import { signalToNoiseDb } from "./signalToNoise.ts";
import { type Sound, soundSeconds } from "./sound.ts";
import { Spectrum } from "./spectrum.ts";

export type Refusal =
  | { readonly kind: "too-short"; readonly seconds: Seconds }
  | { readonly kind: "too-long"; readonly seconds: Seconds }
  | { readonly kind: "clipped"; readonly share: number }
  | { readonly kind: "music"; readonly belowSpeechDb: number }
  | { readonly kind: "noisy"; readonly signalToNoiseDb: number }
  | { readonly kind: "nothing-said" };

export class SoundRefusal extends Error {
  override readonly name = "SoundRefusal";
  readonly refusal: Refusal;

  constructor(refusal: Refusal) {
    super(refusalWords(refusal));
    this.refusal = refusal;
  }
}

export const LEAST_SIGNAL_TO_NOISE_DB = 15;
const SHORTEST_SECONDS: Seconds = 0.08;

/** What happened and what to do, in plain sentences. */
export function refusalWords(refusal: Refusal): string {
  switch (refusal.kind) {
    case "too-short":
      return `This is too short to be heard (${Math.round(refusal.seconds * 1000)} ms): say the syllable in full, with a moment of quiet around it.`;
    case "too-long":
      return `This is too long for one syllable (${refusal.seconds.toFixed(1)} s): say it short, and leave quiet between two.`;
    case "clipped":
      return "The sound is clipped: the microphone is too near or turned up too far. Move it away or turn it down, and say it again.";
    case "music":
      return "Music or another steady tone sounds between the syllables. Turn it off, and say it again.";
    case "noisy":
      return `It is too noisy: what is said stands ${Math.floor(refusal.signalToNoiseDb)} dB above the noise, and ${LEAST_SIGNAL_TO_NOISE_DB} dB are needed. Go nearer to the microphone, or make the room quieter.`;
    case "nothing-said":
      return "Nothing was said that stands out from the room. Say it louder or nearer, and see that the right microphone is chosen.";
  }
}

/** What is in the way of hearing; `null` where nothing is. */
export function trouble(sound: Sound): Refusal | null {
  const seconds = soundSeconds(sound);
  if (seconds < SHORTEST_SECONDS) return { kind: "too-short", seconds };
  const share = clippedShare(sound.samples);
  if (share > MOST_CLIPPED) return { kind: "clipped", share };
  const loudest = powers(sound, STEP_SECONDS).reduce((most, power) => Math.max(most, power), 0);
  if (loudest < LEAST_LOUDNESS) return { kind: "nothing-said" };
  const music = steadyToneDb(sound, loudest);
  if (music !== null) return { kind: "music", belowSpeechDb: music };
  const spans = saidSpans(sound);
  const db = signalToNoiseDb(sound, spans);
  if (spans.length === 0 && (db < STANDS_OUT_DB || db >= LEAST_SIGNAL_TO_NOISE_DB))
    return { kind: "nothing-said" };
  return db < LEAST_SIGNAL_TO_NOISE_DB ? { kind: "noisy", signalToNoiseDb: db } : null;
}

const STEP_SECONDS: Seconds = 0.02;
/** −66 dB of full scale: the noise of a microphone that hears nothing. Our choice. */
const LEAST_LOUDNESS = 10 ** -6.6;
/** Noise alone wanders by less from one stretch to another; what stands out by far and is no syllable is a click. Our choice. */
const STANDS_OUT_DB = 4;

/** Flat tops: so many samples running at one extreme value. A sine at full scale has two. */
const FLAT_RUN = 4;
const SAME = 1e-4;
const LEAST_CLIPPED_LEVEL = 0.1;
const MOST_CLIPPED = 0.0004;

/** Share of the samples that lie in flat tops at the highest or the lowest value. */
function clippedShare(samples: Float32Array): number {
  let high = 0;
  let low = 0;
  for (const sample of samples) {
    if (sample > high) high = sample;
    if (sample < low) low = sample;
  }
  const flat = (extreme: number): number => {
    if (Math.abs(extreme) < LEAST_CLIPPED_LEVEL) return 0;
    let run = 0;
    let sum = 0;
    for (const sample of samples) {
      if (Math.abs(sample - extreme) <= SAME * Math.abs(extreme)) run += 1;
      else {
        if (run >= FLAT_RUN) sum += run;
        run = 0;
      }
    }
    return run >= FLAT_RUN ? sum + run : sum;
  };
  return (flat(high) + flat(low)) / Math.max(1, samples.length);
}

const TONE_SECONDS: Seconds = 0.064;
/** A tone stands this many times above the middle of the spectrum around it; noise does so once in 10^12. */
const TONE_TIMES = 40;
const AROUND_HZ = 350;
/** Mains hum is no music. */
const LOWEST_TONE_HZ = 130;
const HIGHEST_TONE_HZ = 4000;
/** Softer than this beside what is said, it does not matter: dB. */
const MATTERS_DB = 32;
/** The quietest quarter lies between syllables. */
const QUIET_SHARE = 0.25;
const TONAL_SHARE = 0.3;

/** How far steady tones between the syllables lie below what is said, in dB; `null` where there are none that matter. */
function steadyToneDb(sound: Sound, loudest: number): number | null {
  const { samples, sampleRate } = sound;
  const window = Math.round(TONE_SECONDS * sampleRate);
  const spectrum = new Spectrum(window);
  const hop = Math.round(window / 2);
  const frames = Array.from(
    { length: Math.max(0, Math.floor((samples.length - window) / hop) + 1) },
    (_, at) => {
      const power = spectrum.power(samples, at * hop);
      return { power, sum: power.reduce((all, each) => all + each, 0) };
    },
  ).sort((a, b) => a.sum - b.sum);
  const quiet = frames.slice(0, Math.ceil(frames.length * QUIET_SHARE));
  if (quiet.length === 0) return null;
  const hzPerBin = sampleRate / spectrum.size;
  const shares = quiet.map(({ power, sum }) => (sum > 0 ? tonalPower(power, hzPerBin) / sum : 0));
  if (median(shares) < TONAL_SHARE) return null;
  const quietPower = median(quiet.map(({ sum }) => sum));
  // By Parseval a Hann window holds 3/8 of the mean square, over half of the bins.
  const loudestSum = loudest * window * spectrum.size * (3 / 16);
  const below = decibels(loudestSum / Math.max(quietPower, Number.MIN_VALUE));
  return below < MATTERS_DB ? below : null;
}

function tonalPower(power: Float64Array, hzPerBin: number): number {
  const reach = Math.round(AROUND_HZ / hzPerBin);
  const lastBin = Math.min(power.length - 1, Math.floor(HIGHEST_TONE_HZ / hzPerBin));
  let sum = 0;
  for (let bin = Math.ceil(LOWEST_TONE_HZ / hzPerBin); bin <= lastBin; bin += 1) {
    const here = power[bin] ?? 0;
    if (here < (power[bin - 1] ?? 0) || here < (power[bin + 1] ?? 0)) continue;
    const around = median([...power.subarray(Math.max(1, bin - reach), bin + reach + 1)]);
    if (here > TONE_TIMES * around)
      for (let near = bin - 2; near <= bin + 2; near += 1) sum += power[near] ?? 0;
  }
  return sum;
}
