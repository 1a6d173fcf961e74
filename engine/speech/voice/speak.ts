/**
 * Question: how does a syllable sound?
 * Method: a formant synthesiser: a voice (pulses through a glottal low-pass) and breath go through five resonators in a row,
 * hissing and bursts through one of their own beside them; what the tract does moves from sound to sound along straight
 * lines. Source: Klatt, J. Acoust. Soc. Am. 67 (1980) 971, resonators and branches; his table of bandwidths, rounded.
 * No recording is used. The same chance gives the same samples.
 */
import { type Chance, type Milliseconds, normal, type Seconds } from "../../units/index.ts";
import { type Formants, type Hiss, type Phoneme, phonemesOf, type Stop } from "./phonemes.ts";
import type { Speaker } from "./speaker.ts";

export interface SpokenSyllable {
  readonly samples: Float32Array;
  /**
   * Seconds from the first sample to the moment that is heard as its beat. That moment, the perceptual centre, is taken to be
   * the burst of a stop and else the beginning of the vowel: an approximation (Morton, Marcus & Frankish 1976 measured
   * that it lies near the vowel's beginning, later after long consonants; from memory).
   */
  readonly centre: Seconds;
}

/** What the tract does at a moment; between two moments everything moves along straight lines. */
interface Pose {
  readonly atMs: Milliseconds;
  readonly formantsHz: Formants;
  readonly voice: number;
  readonly breath: number;
  readonly hiss: number;
  readonly hissHz: number;
  readonly hissWidthHz: number;
}

const BANDWIDTHS_HZ = [60, 90, 150, 250, 300] as const;
/** The fourth and fifth formants hardly move. */
const HIGH_FORMANTS_HZ = [3500, 4500] as const;
const BURST_MS: Milliseconds = 9;
/** From one sound to the next. */
const GLIDE_MS: Milliseconds = 35;
const CLOSED_MS: Milliseconds = 45;
const RELEASE_MS: Milliseconds = 45;
/** The tract is set anew so often. */
const FRAME_MS: Milliseconds = 0.5;
/** Loudness of a full hiss beside that of an open vowel. */
const HISS_RMS = 0.5;
/** Area of one pulse of the voice, in seconds: with {@link RADIATION_SECONDS} an open vowel comes out near 1. */
const PULSE_AREA = 0.0014;
/** The mouth radiates the change of the flow: change a second, times this. */
const RADIATION_SECONDS = 0.0007;
const BREATH_GAIN = 0.4;
const PEAK = 0.8;

/**
 * Says a syllable.
 *
 * @param sampleRate 16 kHz or more.
 */
export function speakSyllable(
  text: string,
  speaker: Speaker,
  sampleRate: number,
  chance: Chance,
): SpokenSyllable {
  const { poses, centreMs } = posesOf(phonemesOf(text), speaker);
  const samples = sounded(poses, speaker, sampleRate, chance);
  return { samples, centre: centreMs / 1000 };
}

interface Course {
  readonly poses: readonly Pose[];
  readonly centreMs: Milliseconds;
}

const SILENT = { voice: 0, breath: 0, hiss: 0, hissHz: 3000, hissWidthHz: 2000 } as const;

/** Where the tract goes, sound by sound. */
function posesOf(phonemes: readonly Phoneme[], { pace }: Speaker): Course {
  const poses: Pose[] = [];
  let now: Milliseconds = 0;
  let centreMs: Milliseconds | undefined;
  const pose = (atMs: Milliseconds, formantsHz: Formants, what: Partial<Pose> = {}): void => {
    poses.push({ ...SILENT, formantsHz, ...what, atMs });
  };
  const hissing = ({ locusHz, centreHz, widthHz, level, isVoiced, lengthMs }: Hiss): void => {
    const what = {
      hiss: level,
      hissHz: centreHz,
      hissWidthHz: widthHz,
      voice: isVoiced ? 0.35 : 0,
      breath: 0.05,
    };
    pose(now, locusHz, { ...what, hiss: level * 0.5 });
    pose(now + 12 / pace, locusHz, what);
    now += lengthMs / pace;
    pose(now - 8 / pace, locusHz, what);
  };
  phonemes.forEach((phoneme, index) => {
    const isFirst = index === 0;
    const next = phonemes[index + 1];
    switch (phoneme.kind) {
      case "vowel": {
        const { formantsHz, towardsHz = formantsHz, lengthMs } = phoneme;
        centreMs ??= now;
        const glide = isFirst ? 8 : GLIDE_MS / pace;
        pose(now + glide, formantsHz, { voice: 1, breath: 0.02 });
        now += lengthMs / pace;
        pose(now, towardsHz, { voice: next ? 0.9 : 0.6, breath: 0.02 });
        return;
      }
      case "hum": {
        const { formantsHz, level, lengthMs } = phoneme;
        pose(now + (isFirst ? 5 : 15) / pace, formantsHz, { voice: level });
        now += lengthMs / pace;
        pose(now, formantsHz, { voice: level });
        return;
      }
      case "hiss":
        hissing(phoneme);
        return;
      case "stop": {
        if (!isFirst) {
          pose(now + 10 / pace, phoneme.locusHz);
          now += CLOSED_MS / pace;
          pose(now - 0.5, phoneme.locusHz);
        }
        centreMs ??= now;
        burst(phoneme, now, pose);
        now += BURST_MS;
        if (phoneme.hiss) hissing(phoneme.hiss);
        else if (next) {
          const breathUntil = now + Math.max(0, phoneme.voiceAfterMs - BURST_MS) / pace;
          const breath = phoneme.voiceAfterMs > BURST_MS ? 0.3 : 0;
          pose(now, phoneme.locusHz, { breath });
          pose(breathUntil, phoneme.locusHz, { breath, voice: breath > 0 ? 0 : 0.4 });
          now = breathUntil;
        }
        return;
      }
    }
  });
  const last = poses.at(-1);
  if (last) pose(now + RELEASE_MS / pace, last.formantsHz);
  return { poses, centreMs: centreMs ?? 0 };
}

function burst(
  { locusHz, burstHz, burstWidthHz, burstLevel }: Stop,
  at: Milliseconds,
  pose: (at: Milliseconds, formantsHz: Formants, what: Partial<Pose>) => void,
): void {
  const what = { hissHz: burstHz, hissWidthHz: burstWidthHz };
  pose(at, locusHz, { ...what, hiss: burstLevel * 1.4 });
  pose(at + BURST_MS, locusHz, { ...what, hiss: burstLevel * 0.2 });
}

function sounded(
  poses: readonly Pose[],
  { pitchHz, tract, breath }: Speaker,
  sampleRate: number,
  chance: Chance,
): Float32Array {
  const lengthMs = poses.at(-1)?.atMs ?? 0;
  const samples = new Float32Array(Math.ceil((lengthMs * sampleRate) / 1000));
  const perFrame = Math.round((FRAME_MS * sampleRate) / 1000);
  const row = BANDWIDTHS_HZ.map(() => new Resonator(sampleRate));
  const beside = new Resonator(sampleRate);
  const glottis = new Resonator(sampleRate);
  glottis.set(0, 110);
  let phase = 1;
  let before = 0;
  let pose = poseAt(poses, 0);
  for (let at = 0; at < samples.length; at += 1) {
    const ms = (at * 1000) / sampleRate;
    if (at % perFrame === 0) {
      pose = poseAt(poses, ms);
      [...pose.formantsHz, ...HIGH_FORMANTS_HZ].forEach((hz, which) => {
        row[which]?.set(Math.min(hz * tract, sampleRate * 0.45), BANDWIDTHS_HZ[which] ?? 300);
      });
      beside.set(Math.min(pose.hissHz * Math.sqrt(tract), sampleRate * 0.42), pose.hissWidthHz);
    }
    phase += (pitchHz * (1.06 - (0.12 * ms) / Math.max(lengthMs, 1))) / sampleRate;
    const pulse = phase >= 1 ? PULSE_AREA * sampleRate : 0;
    if (phase >= 1) phase -= 1;
    const noise = normal(chance);
    const voiced =
      glottis.next(pulse) * pose.voice + noise * BREATH_GAIN * (pose.breath + pose.voice * breath);
    const throat = row.reduce((signal, resonator) => resonator.next(signal), voiced);
    const radiated = (throat - before) * sampleRate * RADIATION_SECONDS;
    before = throat;
    samples[at] = radiated + HISS_RMS * pose.hiss * beside.evenNext(noise);
  }
  return toPeak(samples);
}

function poseAt(poses: readonly Pose[], ms: Milliseconds): Pose {
  const next = poses.findIndex(({ atMs }) => atMs > ms);
  const to = poses[next === -1 ? poses.length - 1 : next];
  const from = next > 0 ? poses[next - 1] : to;
  if (!from || !to) return { ...SILENT, atMs: ms, formantsHz: [500, 1500, 2500] };
  const share = to.atMs > from.atMs ? Math.min(1, Math.max(0, (ms - from.atMs) / (to.atMs - from.atMs))) : 1;
  const mixed = (a: number, b: number): number => a + (b - a) * share;
  return {
    atMs: ms,
    formantsHz: [
      mixed(from.formantsHz[0], to.formantsHz[0]),
      mixed(from.formantsHz[1], to.formantsHz[1]),
      mixed(from.formantsHz[2], to.formantsHz[2]),
    ],
    voice: mixed(from.voice, to.voice),
    breath: mixed(from.breath, to.breath),
    hiss: mixed(from.hiss, to.hiss),
    // A hiss keeps its place while it dies away.
    hissHz: from.hiss > 0 ? from.hissHz : to.hissHz,
    hissWidthHz: from.hiss > 0 ? from.hissWidthHz : to.hissWidthHz,
  };
}

/** Two poles: Klatt 1980, equations 1 to 3. */
class Resonator {
  readonly #sampleRate: number;
  #a = 1;
  #b = 0;
  #c = 0;
  #before = 0;
  #earlier = 0;

  constructor(sampleRate: number) {
    this.#sampleRate = sampleRate;
  }

  set(centreHz: number, widthHz: number): void {
    const radius = Math.exp((-Math.PI * widthHz) / this.#sampleRate);
    this.#c = -radius * radius;
    this.#b = 2 * radius * Math.cos((2 * Math.PI * centreHz) / this.#sampleRate);
    this.#a = 1 - this.#b - this.#c;
  }

  /** The same for noise, at the loudness it came in with, wherever the resonator stands. */
  evenNext(noise: number): number {
    const [a1, a2] = [-this.#b, -this.#c];
    const power = (this.#a * this.#a * (1 + a2)) / ((1 - a2) * ((1 + a2) ** 2 - a1 * a1));
    return this.next(noise) / Math.sqrt(power);
  }

  next(input: number): number {
    const output = this.#a * input + this.#b * this.#before + this.#c * this.#earlier;
    this.#earlier = this.#before;
    this.#before = output;
    return output;
  }
}

function toPeak(samples: Float32Array): Float32Array {
  const peak = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  return peak > 0 ? samples.map((sample) => (sample * PEAK) / peak) : samples;
}
