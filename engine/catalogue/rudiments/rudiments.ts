import { DIDDLES } from "./diddles.ts";
import { DRAGS } from "./drags.ts";
import { FLAMS } from "./flams.ts";
import { ROLLS } from "./rolls.ts";
import type { Rudiment, RudimentFamily } from "./rudiment.ts";
import { type RudimentText, readRudiment } from "./rudimentText.ts";

const TEXTS: readonly (readonly [RudimentFamily, readonly RudimentText[]])[] = [
  ["roll", ROLLS],
  ["diddle", DIDDLES],
  ["flam", FLAMS],
  ["drag", DRAGS],
];

/**
 * The forty International Drum Rudiments in the order of the Percussive Arts Society's sheet (1984): numbers, names,
 * families and order of hands are the sheet's; note values, accents and tempos are ours.
 */
export const RUDIMENTS: readonly Rudiment[] = TEXTS.flatMap(([family, texts]) =>
  texts.map((text) => readRudiment(text, family)),
);

const BY_ID = new Map(RUDIMENTS.map((rudiment) => [rudiment.id, rudiment]));

/** The rudiment with this id, or `undefined`. */
export function rudimentById(id: string): Rudiment | undefined {
  return BY_ID.get(id);
}
