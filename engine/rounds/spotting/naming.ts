/**
 * Question: which groove or fill is meant by what was said or typed?
 * Method: the tolerant matcher of `engine/recall` over all names it may be called by. Grooves are matched among grooves and
 * fills among fills: the one who listens knows which of the two was played.
 */
import { bareName } from "../../catalogue/index.ts";
import { NameMatcher } from "../../recall/index.ts";
import { matchedNames, type Spottable } from "./spottable.ts";
import { thingKey } from "./thing.ts";

export type ThingMatch =
  | { readonly kind: "named"; readonly spottable: Spottable }
  /** It may be one of several, the nearest first. */
  | { readonly kind: "ask"; readonly among: readonly Spottable[] }
  | { readonly kind: "none" };

/** As many as can be read at a glance. Our choice. */
const MOST_OFFERED = 6;

export class ThingNames {
  readonly #known: readonly Spottable[];
  readonly #byKey: ReadonlyMap<string, Spottable>;
  readonly #bare: ReadonlyMap<string, readonly Spottable[]>;
  readonly #matcher: NameMatcher;

  /** @param known what may be meant; names that two of them share are asked about. */
  constructor(known: readonly Spottable[]) {
    this.#known = known;
    this.#byKey = new Map(known.map((each) => [thingKey(each.thing), each]));
    const bare = new Map<string, Spottable[]>();
    for (const each of known)
      for (const name of each.names) {
        const key = bareName(name);
        const others = bare.get(key) ?? [];
        if (!others.includes(each)) bare.set(key, [...others, each]);
      }
    this.#bare = bare;
    this.#matcher = new NameMatcher(
      known.map((each) => ({ id: thingKey(each.thing), names: matchedNames(each) })),
    );
  }

  /** What is meant. A name that is written as one of them is that one, however near another is. */
  match(given: string): ThingMatch {
    const [exact, other] = this.#bare.get(bareName(given)) ?? [];
    if (exact && !other) return { kind: "named", spottable: exact };
    const match = this.#matcher.match(given);
    switch (match.kind) {
      case "none":
        return { kind: "none" };
      case "named": {
        const spottable = this.#byKey.get(match.id);
        return spottable ? { kind: "named", spottable } : { kind: "none" };
      }
      case "ask":
        return {
          kind: "ask",
          among: match.ids.flatMap((id) => this.#byKey.get(id) ?? []).slice(0, MOST_OFFERED),
        };
    }
  }

  /**
   * Those whose usual names hold all words of what is typed so far, in any order; where there is none, those whose other
   * names do. None while nothing is typed.
   */
  offered(typed: string): readonly Spottable[] {
    const words = bareName(typed)
      .split(/[^a-z0-9]+/)
      .filter((word) => word !== "");
    if (words.length === 0) return [];
    const holding = (names: readonly string[]): boolean =>
      names.some((name) => words.every((word) => bareName(name).includes(word)));
    const usual = this.#known.filter(({ names }) => holding(names.slice(0, 1)));
    return (usual.length > 0 ? usual : this.#known.filter(({ names }) => holding(names))).slice(
      0,
      MOST_OFFERED,
    );
  }
}
