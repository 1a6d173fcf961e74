import { bareName, SIGNS } from "../catalogue/index.ts";
import { type NameMatch, NameMatcher } from "./nameMatcher.ts";

/** Abbreviations are too short to be spelt near enough: "p" and "pp" sound alike. They are taken as they stand. */
const SHORTEST_BY_SOUND = 4;

const names = SIGNS.map(({ id, names, otherNames }) => ({
  id,
  names: [...new Set([names.us, names.uk, ...otherNames])],
}));

const AS_WRITTEN = new Map<string, readonly string[]>();
for (const { id, names: all } of names)
  for (const name of all) {
    const bare = asWritten(name);
    AS_WRITTEN.set(bare, [...new Set([...(AS_WRITTEN.get(bare) ?? []), id])]);
  }

let matcher: NameMatcher | undefined;

function nearMatcher(): NameMatcher {
  matcher ??= new NameMatcher(
    names.map(({ id, names: all }) => ({
      id,
      names: all.filter((name) => asWritten(name).length >= SHORTEST_BY_SOUND),
    })),
  );
  return matcher;
}

/**
 * Which sign is meant, by any of its names in either usage: as written, or else by what is near.
 *
 * @example
 * matchSign("crotchet") // => { kind: "named", id: "quarter-note" }
 */
export function matchSign(given: string): NameMatch {
  const [only, ...others] = AS_WRITTEN.get(asWritten(given)) ?? [];
  if (only !== undefined)
    return others.length === 0 ? { kind: "named", id: only } : { kind: "ask", ids: [only, ...others] };
  return asWritten(given).length < SHORTEST_BY_SOUND ? { kind: "none" } : nearMatcher().match(given);
}

/** Letters and figures only: "D.C." is "dc". */
function asWritten(name: string): string {
  return bareName(name).replaceAll(/[^a-z0-9]+/g, "");
}
