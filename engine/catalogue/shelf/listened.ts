import { GridError, type Groove } from "../../score/index.ts";
import { isOwn, musicOf, type ShelfEntry } from "./entry.ts";

/**
 * How many grooves of the Shelf are listened for. Our choice: with 200 near-copies of the styles all of 30 styles are still
 * named, at a mean chance of 0.85 instead of 0.93; with more it goes on sinking, and nobody calls more in a term.
 */
export const MOST_LISTENED_FOR = 200;

/**
 * The studio's own grooves that are listened for besides the styles: those that were written, played or copied before those
 * that were imported, the latest first. One whose text cannot be read is left out; that is said where it is opened.
 */
export function listenedFor(entries: readonly ShelfEntry[]): readonly Groove[] {
  const byHand = ({ from }: ShelfEntry): number => (from.kind === "imported" ? 1 : 0);
  return entries
    .filter((entry) => isOwn(entry) && entry.kind === "groove")
    .sort((a, b) => byHand(a) - byHand(b) || b.changedAtMs - a.changedAtMs || (a.id < b.id ? -1 : 1))
    .slice(0, MOST_LISTENED_FOR)
    .flatMap((entry) => grooveOf(entry) ?? []);
}

/** The groove of an entry, under the entry's id and name; `undefined` where it is none, or cannot be read. */
export function grooveOf(entry: ShelfEntry): Groove | undefined {
  try {
    const { kind, music } = musicOf(entry);
    return kind === "groove" ? music : undefined;
  } catch (error) {
    if (!(error instanceof GridError)) throw error;
    return undefined;
  }
}
