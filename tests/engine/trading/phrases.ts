/** Short phrases as they are written down: "0 snare, 0.5 kick". */
import type { Voice } from "../../../engine/kit/index.ts";
import type { PhraseHit } from "../../../engine/trading/index.ts";

/** A stroke at a moment in seconds. */
export function hit(time: number, voice: Voice = "snare", velocity = 0.6): PhraseHit {
  return { time, voice, velocity };
}

/** Strokes on the snare at these beats, at 120 beats a minute. */
export function snareAt(...beats: readonly number[]): readonly PhraseHit[] {
  return beats.map((beat) => hit(beat / 2));
}

/** The same phrase later, slower, or scattered. */
export function moved(
  phrase: readonly PhraseHit[],
  { later = 0, stretch = 1, offsetMs = (_index: number): number => 0 },
): readonly PhraseHit[] {
  return phrase.map((each, index) => ({
    ...each,
    time: later + stretch * each.time + offsetMs(index) / 1000,
  }));
}
