/**
 * A phrase said as one stretch of sound, each syllable at its sample: the rhythm within it is exact, whatever else the
 * machine does while it sounds.
 */
import type { Chance, Seconds } from "../../units/index.ts";
import { type SpokenSyllable, speakSyllable } from "./speak.ts";
import type { Speaker } from "./speaker.ts";

/** A syllable and when its beat is. */
export interface SaidAt {
  readonly time: Seconds;
  readonly text: string;
}

export interface Said {
  readonly samples: Float32Array;
  readonly sampleRate: number;
  /** Where time 0 lies, from the first sample: a hiss begins before its beat. */
  readonly zeroAt: Seconds;
}

/** One breath: a syllable gives way to the next within this time. */
const GIVE_WAY_SECONDS: Seconds = 0.012;

/**
 * Says syllables at their times, each with its centre (`speakSyllable`) on its time to the sample. Of two that overlap the
 * earlier gives way. None is cut at its beginning.
 *
 * @param words in order of time.
 */
export function sayWords(
  words: readonly SaidAt[],
  speaker: Speaker,
  sampleRate: number,
  chance: Chance,
): Said {
  const spoken = new Map<string, SpokenSyllable>();
  for (const { text } of words)
    if (!spoken.has(text)) spoken.set(text, speakSyllable(text, speaker, sampleRate, chance));
  const placed = words.flatMap(({ time, text }) => {
    const syllable = spoken.get(text);
    return syllable ? [{ syllable, at: Math.round((time - syllable.centre) * sampleRate) }] : [];
  });
  const first = Math.min(0, ...placed.map(({ at }) => at));
  const length = Math.max(0, ...placed.map(({ at, syllable }) => at + syllable.samples.length)) - first;
  const samples = new Float32Array(length);
  const giveWay = Math.round(GIVE_WAY_SECONDS * sampleRate);
  placed.forEach(({ syllable, at }, index) => {
    const nextAt = placed[index + 1]?.at ?? Number.POSITIVE_INFINITY;
    syllable.samples.forEach((sample, offset) => {
      const left = nextAt - (at + offset);
      if (left <= 0) return;
      const slot = at + offset - first;
      samples[slot] = (samples[slot] ?? 0) + sample * Math.min(1, left / giveWay);
    });
  });
  return { samples, sampleRate, zeroAt: Math.abs(first) / sampleRate };
}
