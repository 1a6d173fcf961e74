/** Takes to measure on: humanised performances of the catalogue, the same on every machine. */
import { demonstrate, STYLES } from "../../engine/catalogue/index.ts";
import type { Hit } from "../../engine/kit/index.ts";
import { type Groove, usualTempo } from "../../engine/score/index.ts";
import { type Bpm, seededChance } from "../../engine/units/index.ts";

/** The plainest variant of every style, with its id. */
export const BENCH_GROOVES: readonly { readonly id: string; readonly groove: Groove }[] = STYLES.flatMap(
  ({ id, variants }) => variants.slice(0, 1).map((groove) => ({ id, groove })),
);

/**
 * A groove as a steady student plays it: tempo up to a tenth off the usual, a lean, 15 ms of spread, strokes left out and
 * added.
 */
export function studentTake(groove: Groove, bars: number, seed: number): readonly Hit[] {
  const chance = seededChance(seed);
  const tempoBpm = usualTempo(groove) * (0.9 + 0.2 * chance());
  const leanMs = 40 * chance() - 20;
  return hitsOf(groove, { tempoBpm, bars, leanMs, spreadMs: 15, leftOut: 0.05, added: 0.05 }, seed);
}

/** A groove at one tempo from time 0, for grading with a click. */
export function clickedTake(groove: Groove, tempoBpm: Bpm, bars: number, seed: number): readonly Hit[] {
  return hitsOf(groove, { tempoBpm, bars, leanMs: 5, spreadMs: 12, leftOut: 0.02, added: 0.02 }, seed);
}

function hitsOf(
  groove: Groove,
  how: Omit<Parameters<typeof demonstrate>[1], "chance">,
  seed: number,
): readonly Hit[] {
  const strokes = demonstrate(groove, { ...how, chance: seededChance(seed) });
  return strokes.map((stroke) => ({ ...stroke, zone: "whole", pad: 0 }));
}
