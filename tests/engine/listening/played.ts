import { type Demonstration, demonstrate, grooveById } from "../../../engine/catalogue/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { type Groove, usualTempo } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";

/** How a groove is played; exactly and as written where nothing else is said. */
export type Playing = Pick<Demonstration, "tempoBpm" | "bars"> & Partial<Demonstration>;

/** A catalogue groove as hits. Fails loudly when there is no such groove. */
export function writtenGrooveOf(id: string): Groove {
  const groove = grooveById(id);
  if (!groove) throw new Error(`The catalogue has no ${id}.`);
  return groove;
}

/** A humanised performance as hits, in order of time. */
export function played(groove: Groove, how: Playing): readonly Hit[] {
  const strokes = demonstrate(groove, {
    leanMs: 0,
    spreadMs: 0,
    leftOut: 0,
    added: 0,
    chance: seededChance(1),
    ...how,
  });
  return strokes.map((stroke): Hit => ({ ...stroke, zone: "whole", pad: 0 }));
}

/** Eight bars of a groove at its usual tempo, as a good player has them, where nothing else is said. */
export function steadily(groove: Groove, how: Partial<Playing> = {}): readonly Hit[] {
  return played(groove, {
    tempoBpm: usualTempo(groove),
    bars: 8,
    spreadMs: 8,
    chance: seededChance(3),
    ...how,
  });
}
