/**
 * Drum syllables: short sounds that stand for the voices of a kit, and the syllables beats are counted with.
 * The words are ours: each begins and goes on differently from every other, so that they are told apart by their
 * first tenth of a second, by people and by the program. A studio may name its own.
 */
import { z } from "zod";
import { VOICES, type Voice } from "../kit/index.ts";

/** Letters only: signs and digits have a meaning of their own in the text of a phrase. */
const SYLLABLE = /^[a-z]{1,10}$/;

export const syllableSchema = z
  .object({
    text: z.string().regex(SYLLABLE, "A syllable is one to ten small letters, without signs or spaces."),
    voice: z.enum(VOICES),
  })
  .readonly();
/** A syllable and the voice it stands for. */
export type Syllable = z.infer<typeof syllableSchema>;

/** More of them nobody tells apart. Our choice. */
export const MOST_SYLLABLES = 16;

export const syllableSetSchema = z
  .object({
    id: z.string().regex(/^[a-z0-9]+([-/][a-z0-9]+)*$/),
    name: z.string().min(1).max(60),
    syllables: z.array(syllableSchema).min(1).max(MOST_SYLLABLES).readonly(),
  })
  .refine(({ syllables }) => new Set(syllables.map(({ text }) => text)).size === syllables.length, {
    message: "Two syllables are spelt the same: each must have a spelling of its own.",
  })
  .refine(({ syllables }) => new Set(syllables.map(({ voice }) => voice)).size === syllables.length, {
    message: "Two syllables mean the same voice: each voice has one syllable.",
  })
  .readonly();
/** One syllable a voice, one voice a syllable. */
export type SyllableSet = z.infer<typeof syllableSetSchema>;

/** The project's own set. Voices that are met first stand first. */
export const OUR_SYLLABLES: SyllableSet = {
  id: "ours",
  name: "Our syllables",
  syllables: [
    { text: "doo", voice: "kick" },
    { text: "ka", voice: "snare" },
    { text: "tss", voice: "hi-hat-closed" },
    { text: "go", voice: "floor-tom" },
    { text: "pee", voice: "high-tom" },
    { text: "sha", voice: "crash-left" },
    { text: "zing", voice: "ride" },
    { text: "moe", voice: "mid-tom" },
    { text: "chee", voice: "hi-hat-open" },
    { text: "tok", voice: "cross-stick" },
  ],
};

/**
 * A set with some of its syllables spelt as the studio says them.
 *
 * @throws z.ZodError where two would be spelt the same, or one is not a syllable.
 * @example
 * renamed(OUR_SYLLABLES, { snare: "tak" }).syllables[1] // => { text: "tak", voice: "snare" }
 */
export function renamed(set: SyllableSet, texts: Partial<Readonly<Record<Voice, string>>>): SyllableSet {
  return syllableSetSchema.parse({
    ...set,
    syllables: set.syllables.map(({ text, voice }) => ({
      text: (texts[voice] ?? text).trim().toLowerCase(),
      voice,
    })),
  });
}

/** The syllable of a voice; `undefined` where the set has none. */
export function syllableOf(set: SyllableSet, voice: Voice): Syllable | undefined {
  return set.syllables.find((each) => each.voice === voice);
}
