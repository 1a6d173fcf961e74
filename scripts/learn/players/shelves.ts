/**
 * Question: which grooves stand on one shelf?
 * Many takes of the data set are the same groove by the same player: which of the two it was has no right answer. A
 * shelf therefore holds grooves of which no two are more alike than {@link TOO_ALIKE}.
 */
import type { Chance } from "../../../engine/units/index.ts";
import { alike, type DerivedGroove, STEPS_PER_BEAT } from "./derivedGroove.ts";

/**
 * Two grooves of which this share is common (by part and place, at the turn by whole beats that suits them best) are
 * near-duplicates. Our choice: what different players change of one groove by habit alone is about as much.
 */
export const TOO_ALIKE = 0.6;

/** Likeness over two bars, at any turn by whole beats; 0 for bars of different lengths. */
export function likeness(a: DerivedGroove, b: DerivedGroove): number {
  if (a.beatsInBar !== b.beatsInBar) return 0;
  const steps = 2 * a.beatsInBar * STEPS_PER_BEAT;
  const turns = Array.from({ length: 2 * a.beatsInBar }, (_, beat) => beat * STEPS_PER_BEAT);
  return alike(overTwoBars(a), overTwoBars(b), steps, turns);
}

function overTwoBars({ bars, beatsInBar, strokes }: DerivedGroove) {
  if (bars === 2) return strokes;
  const again = strokes.map((stroke) => ({ ...stroke, step: stroke.step + beatsInBar * STEPS_PER_BEAT }));
  return [...strokes, ...again];
}

/** Grooves in random order, as many as there are of which no two are too alike, up to `count`. */
export function distinct(
  grooves: readonly DerivedGroove[],
  count: number,
  chance: Chance,
): readonly DerivedGroove[] {
  const kept: DerivedGroove[] = [];
  for (const groove of shuffled(grooves, chance)) {
    if (kept.length === count) break;
    if (kept.every((other) => likeness(groove, other) <= TOO_ALIKE)) kept.push(groove);
  }
  return kept;
}

/** In random order. */
export function shuffled<T>(from: readonly T[], chance: Chance): readonly T[] {
  return from
    .map((one) => ({ one, order: chance() }))
    .sort((a, b) => a.order - b.order)
    .map(({ one }) => one);
}
