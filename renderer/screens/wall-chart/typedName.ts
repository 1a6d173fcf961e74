/** What becomes of a name that was typed, or ticked off, while a look is named. */
import { type ChartLook, chartList, chartMatcher } from "../../../engine/rounds/index.ts";
import type { Typed } from "./besideRound.ts";

type Look = Pick<ChartLook, "settings" | "named">;

/** However it is spelt: an entry, one of several, or none. */
export function typedName(look: Look, given: string): Exclude<Typed, { readonly as: "nothing" }> {
  const match = chartMatcher(look.settings.task).match(given);
  switch (match.kind) {
    case "named":
      return namedEntry(look, match.id, given);
    case "ask":
      return {
        as: "unclear",
        given,
        perhaps: match.ids.filter((id) => chartList(look.settings).includes(id)),
      };
    case "none":
      return { as: "none", given };
  }
}

/** An entry that is meant: of what was looked at, named before, or of another part of the chart. */
export function namedEntry({ settings, named }: Look, entry: string, given: string) {
  if (!chartList(settings).includes(entry)) return { as: "elsewhere", given, entry } as const;
  return { as: named.includes(entry) ? "repeated" : "named", given, entry } as const;
}
