/** All that the program can play to be named: the styles and fills of the catalogue, and what is the studio's own. */
import {
  FILLS,
  isOwn,
  otherStyleNames,
  readable,
  type ShelfEntry,
  STYLES,
  styleSaid,
  type Written,
} from "../../catalogue/index.ts";
import type { Thing } from "./thing.ts";

export interface Spottable {
  readonly thing: Thing;
  /** At least one way it is written; any of them may be played. */
  readonly ways: readonly Written[];
  /** All it may be called, the usual name first. */
  readonly names: readonly string[];
  /** How its name is said, where English spelling does not tell; else `null`. */
  readonly said: string | null;
  /** What makes it itself, in a sentence; `null` where nobody wrote one. */
  readonly itself: string | null;
  /** Whether most players play it most days: what is new is begun with these. */
  readonly isEveryday: boolean;
}

/** Longer names cannot be matched as a whole; the short ones beside them are. */
const LONGEST_MATCHED = 60;

/** The program's own stock, in its order: styles by family, fills from the first year on. */
export const STOCK_TO_SPOT: readonly Spottable[] = [
  ...STYLES.map(
    ({ id, name, variants, itself, isEveryday }): Spottable => ({
      thing: { kind: "groove", id, name },
      ways: variants.map((music) => ({ kind: "groove", music })),
      names: [name, ...otherStyleNames(id)],
      said: styleSaid(id),
      itself,
      isEveryday,
    }),
  ),
  ...FILLS.map(
    (music): Spottable => ({
      thing: { kind: "fill", id: music.id, name: music.name },
      ways: [{ kind: "fill", music }],
      // The short name it has in files is as good, and can be typed.
      names: [music.name, music.id.replaceAll("-", " ")],
      said: null,
      itself: null,
      isEveryday: music.level === "first-year",
    }),
  ),
];

/**
 * The studio's own grooves, fills and drum parts. Phrases are calls and answers, which nobody names; what cannot be read is
 * left out: that is said where it is opened.
 */
export function spottableOnShelf(entries: readonly ShelfEntry[]): readonly Spottable[] {
  return entries.filter(isOwn).flatMap((entry): readonly Spottable[] => {
    if (entry.kind === "phrase" || entry.id.length > 100) return [];
    const written = readable(entry);
    if (!written) return [];
    return [
      {
        thing: { kind: entry.kind, id: entry.id, name: entry.name },
        ways: [written],
        names: [entry.name, ...entry.alsoNamed],
        said: null,
        itself: null,
        isEveryday: false,
      },
    ];
  });
}

/** Its names, as they can be matched. */
export function matchedNames({ names }: Pick<Spottable, "names">): readonly string[] {
  const short = names.filter((name) => name.length <= LONGEST_MATCHED);
  return short.length > 0 ? short : names.slice(0, 1);
}
