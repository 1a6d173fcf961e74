/**
 * Small phrases that all words of a report are made of.
 */
import { type Voice, type VoiceFamily, voiceName } from "../kit/index.ts";
import type { Milliseconds } from "../units/index.ts";

const NUMBERS = [
  "none",
  "one",
  "two",
  "three",
  "four",
  "five",
  "six",
  "seven",
  "eight",
  "nine",
  "ten",
  "eleven",
  "twelve",
];

/**
 * A small whole number as a word, a larger one in figures.
 *
 * @example
 * numberWord(4) // => "four"
 */
export function numberWord(count: number): string {
  return NUMBERS[count] ?? String(count);
}

const LIMBS: Readonly<Record<VoiceFamily, string>> = {
  kick: "kick",
  snare: "snare",
  hats: "hi-hat",
  pedal: "hi-hat pedal",
  toms: "toms",
  cymbals: "cymbals",
  percussion: "percussion",
};

/**
 * A hand or a foot, by what it plays.
 *
 * @example
 * limbName("hats") // => "hi-hat"
 */
export function limbName(limb: VoiceFamily): string {
  return LIMBS[limb];
}

export function the(voice: Voice): string {
  return `The ${voiceName(voice)}`;
}

export function times(count: number): string {
  return count === 1 ? "once" : count === 2 ? "twice" : `${numberWord(count)} times`;
}

/** Places between beats as they are counted aloud, each with its share of the beat. */
export const OFF_BEATS = [
  { share: 1 / 4, name: "the “e”" },
  { share: 1 / 3, name: "the second triplet" },
  { share: 1 / 2, name: "the “and”" },
  { share: 2 / 3, name: "the last triplet" },
  { share: 3 / 4, name: "the “a”" },
] as const;

/**
 * Beats count from 1, with the part of the beat that has passed.
 *
 * @example
 * onBeat(3.5) // => "on the “and” of three"
 */
export function onBeat(beat: number): string {
  const whole = Math.floor(beat + 1e-3);
  const rest = beat - whole;
  if (rest < 0.01) return `on ${numberWord(whole)}`;
  const named = OFF_BEATS.find(({ share }) => Math.abs(share - rest) < 0.01);
  return named ? `on ${named.name} of ${numberWord(whole)}` : `after ${numberWord(whole)}`;
}

export function milliseconds(value: Milliseconds): string {
  return `${Math.round(Math.abs(value))} ms`;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
