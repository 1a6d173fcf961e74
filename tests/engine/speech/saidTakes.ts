/** Recordings of syllables of which the truth is known: said by the program's own voice as different speakers, in noise. */
import {
  type Enrolment,
  examplesIn,
  type SaidAt,
  type Sound,
  type Speaker,
  sayWords,
} from "../../../engine/speech/index.ts";
import { type Chance, normal } from "../../../engine/units/index.ts";

export const RATE = 22_050;

/** Men, women and children, slow and quick, clear and breathy. */
export const SPEAKERS: readonly Speaker[] = [
  { pitchHz: 105, tract: 0.96, pace: 0.9, breath: 0.05 },
  { pitchHz: 130, tract: 1.02, pace: 1.15, breath: 0.1 },
  { pitchHz: 200, tract: 1.15, pace: 1, breath: 0.08 },
  { pitchHz: 235, tract: 1.2, pace: 1.2, breath: 0.15 },
  { pitchHz: 290, tract: 1.33, pace: 1.05, breath: 0.1 },
];

/** Nobody says it the same twice: pitch by up to 12 %, pace by up to 12 %, tract by 1 %. */
export function asSaidOnce(speaker: Speaker, chance: Chance): Speaker {
  const around = (share: number): number => 1 + share * (2 * chance() - 1);
  return {
    pitchHz: speaker.pitchHz * around(0.12),
    tract: speaker.tract * around(0.01),
    pace: speaker.pace * around(0.12),
    breath: speaker.breath * around(0.3),
  };
}

/** Silence, the words, silence. `SaidAt.time` counts from the first sample of the recording. */
export function recorded(words: readonly SaidAt[], speaker: Speaker, chance: Chance, tail = 0.3): Sound {
  const said = sayWords(words, speaker, RATE, chance);
  const before = Math.round(said.zeroAt * RATE);
  const samples = new Float32Array(said.samples.length - before + Math.round(tail * RATE));
  samples.set(said.samples.subarray(before));
  return { samples, sampleRate: RATE };
}

export type NoiseColour = "white" | "pink";

/** The sound with noise so far below its own mean power. */
export function inNoise(sound: Sound, signalToNoiseDb: number, colour: NoiseColour, chance: Chance): Sound {
  const noise = colour === "white" ? white(sound.samples.length, chance) : pink(sound.samples.length, chance);
  const gain = Math.sqrt((meanSquare(sound.samples) / meanSquare(noise)) * 10 ** (-signalToNoiseDb / 10));
  const samples = sound.samples.map((sample, at) => sample + gain * (noise[at] ?? 0));
  const peak = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  return { ...sound, samples: samples.map((sample) => (sample * 0.9) / peak) };
}

function meanSquare(samples: Float32Array): number {
  return samples.reduce((sum, sample) => sum + sample * sample, 0) / samples.length;
}

function white(length: number, chance: Chance): Float32Array {
  return Float32Array.from({ length }, () => normal(chance));
}

/** Octaves of held noise added up (Voss, after Gardner 1978): 3 dB an octave. */
function pink(length: number, chance: Chance): Float32Array {
  const held = Array.from({ length: 14 }, () => normal(chance));
  return Float32Array.from({ length }, (_, at) => {
    held.forEach((_, octave) => {
      if (at % 2 ** octave === 0) held[octave] = normal(chance);
    });
    return held.reduce((sum, each) => sum + each, 0);
  });
}

/** Examples of each syllable, as a speaker says it five times into a quiet room. */
export function enrolled(syllables: readonly string[], speaker: Speaker, chance: Chance): Enrolment {
  return syllables.flatMap((text) =>
    Array.from({ length: 5 }).flatMap(() =>
      examplesIn(text, recorded([{ time: 0.25, text }], asSaidOnce(speaker, chance), chance)),
    ),
  );
}

/** A dozen syllables by chance, never faster than six a second. */
export function phraseByChance(syllables: readonly string[], chance: Chance, count = 12): readonly SaidAt[] {
  let time = 0.35;
  return Array.from({ length: count }, () => {
    const at = time;
    time += [0.18, 0.25, 0.3, 0.375, 0.5][Math.floor(chance() * 5)] ?? 0.3;
    return { time: at, text: syllables[Math.floor(chance() * syllables.length)] ?? "ka" };
  });
}
