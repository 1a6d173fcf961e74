import { RUDIMENTS } from "../catalogue/index.ts";
import { type NamedThing, NameMatcher } from "./nameMatcher.ts";

/** The forty rudiments by all their names. */
export const RUDIMENT_NAMES: readonly NamedThing[] = RUDIMENTS.map(({ id, name, otherNames }) => ({
  id,
  names: [name, ...otherNames],
}));

let matcher: NameMatcher | undefined;

/** Which rudiment is meant; made on first use and kept, since a list costs more to read than a name. */
export function rudimentMatcher(): NameMatcher {
  matcher ??= new NameMatcher(RUDIMENT_NAMES);
  return matcher;
}
