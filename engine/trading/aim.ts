/**
 * What an answer is meant to be, and whether it is.
 */
import type { Comparison } from "./compare.ts";
import type { Finish } from "./finish.ts";

/**
 * *echo*: as close as it can be. *move-one*: the same rhythm, exactly one voice or accent changed. *finish*: the
 * call's end is left open, and the answer is that end. *answer*: free, of the same length: nothing can be wrong with it.
 */
export const AIMS = ["echo", "move-one", "finish", "answer"] as const;
export type Aim = (typeof AIMS)[number];

/** The aim as a teacher says it. */
export const AIM_NAMES: Readonly<Record<Aim, string>> = {
  echo: "Echo",
  "move-one": "Move one thing",
  finish: "Finish the phrase",
  answer: "Answer freely",
};

/**
 * Whether the answer is what was meant; `null` for a free one, and where it cannot be told.
 *
 * @param finish how an open phrase was finished, where that was meant.
 * @example
 * const call = [0, 0.5, 0.75].map((time) => ({ time, voice: "snare", velocity: 0.7 }));
 * const comparison = compareAnswer(call, call, { level: "steady", tempoBpm: 120 });
 * aimMet("echo", comparison) // => true
 * aimMet("move-one", comparison) // => false
 * aimMet("answer", comparison) // => null
 */
export function aimMet(aim: Aim, comparison: Comparison, finish: Finish | null = null): boolean | null {
  const { rhythm, sound } = comparison;
  switch (aim) {
    case "echo":
      return rhythm.holds && sound.holds && !hasLone(comparison);
    case "move-one":
      return rhythm.holds && !hasLone(comparison) && changesOf(comparison) === 1;
    case "finish":
      return finish?.finished ?? null;
    case "answer":
      return null;
  }
}

/** Strokes that changed their voice, their touch, or both. */
export function changesOf({ sound, touch }: Comparison): number {
  return new Set([...sound.moved, ...touch.moved].map(({ index }) => index)).size;
}

function hasLone({ missed, added }: Comparison): boolean {
  return missed.length + added.length > 0;
}
