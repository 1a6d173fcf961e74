import { type Fill, GridError, type Groove, type Part } from "../../score/index.ts";
import { isOwn, musicOf, type ShelfEntry } from "./entry.ts";
import type { Written } from "./written.ts";

/** What of the Shelf is listened for besides the styles and fills of the catalogue. */
export interface ListenedFor {
  readonly grooves: readonly Groove[];
  readonly fills: readonly Fill[];
  /** Drum parts. Phrases are calls and answers, which nobody names. */
  readonly parts: readonly Part[];
}

export const NOTHING_OF_SHELF: ListenedFor = { grooves: [], fills: [], parts: [] };

/**
 * How many grooves of the Shelf are listened for, and how many fills. Our choice: with 200 near-copies of the styles all of 30
 * styles are still named, at a mean chance of 0.85 instead of 0.93; with more it goes on sinking, and nobody calls more in a
 * term.
 */
export const MOST_LISTENED_FOR = 200;
/** How many drum parts: each is laid along the whole take. Our choice. */
export const MOST_PARTS_LISTENED_FOR = 50;

/**
 * What of the studio's own is listened for: what was written, played or copied before what was imported, the latest first.
 * What cannot be read is left out; that is said where it is opened.
 */
export function listenedFor(entries: readonly ShelfEntry[]): ListenedFor {
  const byHand = ({ from }: ShelfEntry): number => (from.kind === "imported" ? 1 : 0);
  const own = entries
    .filter(isOwn)
    .sort((a, b) => byHand(a) - byHand(b) || b.changedAtMs - a.changedAtMs || (a.id < b.id ? -1 : 1));
  const latest = <Kind extends Written["kind"]>(kind: Kind, most: number) =>
    own
      .filter((entry) => entry.kind === kind)
      .slice(0, most)
      .flatMap((entry) => readable(entry) ?? [])
      .filter((written): written is Extract<Written, { kind: Kind }> => written.kind === kind);
  return {
    grooves: latest("groove", MOST_LISTENED_FOR).map(({ music }) => music),
    fills: latest("fill", MOST_LISTENED_FOR).map(({ music }) => music),
    parts: latest("part", MOST_PARTS_LISTENED_FOR).map(({ music }) => music),
  };
}

/** The groove of an entry, under the entry's id and name; `undefined` where it is none, or cannot be read. */
export function grooveOf(entry: ShelfEntry): Groove | undefined {
  const written = readable(entry);
  return written?.kind === "groove" ? written.music : undefined;
}

/** What an entry holds; `undefined` where its text cannot be read. */
export function readable(entry: ShelfEntry): Written | undefined {
  try {
    return musicOf(entry);
  } catch (error) {
    if (!(error instanceof GridError)) throw error;
    return undefined;
  }
}
