import { DYNAMIC_SIGNS } from "./dynamicSigns.ts";
import { METRE_SIGNS } from "./metreSigns.ts";
import { NOTE_VALUE_SIGNS, REST_SIGNS } from "./noteValues.ts";
import { REPEAT_SIGNS } from "./repeatSigns.ts";
import type { Naming, Sign } from "./sign.ts";
import { STAFF_PLACE_SIGNS } from "./staffPlaces.ts";
import { TUPLET_SIGNS } from "./tuplets.ts";

/** All signs that can be read, family by family; within a family, what is alike stands near. */
export const SIGNS: readonly Sign[] = [
  ...NOTE_VALUE_SIGNS,
  ...REST_SIGNS,
  ...TUPLET_SIGNS,
  ...METRE_SIGNS,
  ...REPEAT_SIGNS,
  ...DYNAMIC_SIGNS,
  ...STAFF_PLACE_SIGNS,
];

const BY_ID = new Map(SIGNS.map((sign) => [sign.id, sign]));

/** The sign with this id, or `undefined`. */
export function signById(id: string): Sign | undefined {
  return BY_ID.get(id);
}

/**
 * What a sign is called where these names are used, as a heading.
 *
 * @example
 * signName(signById("eighth-note"), "uk") // => "Quaver"
 */
export function signName({ names }: Pick<Sign, "names">, naming: Naming): string {
  const name = names[naming];
  return name.charAt(0).toUpperCase() + name.slice(1);
}
