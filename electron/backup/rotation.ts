/** Which archives are kept: some of the last, the last of each of some days, the last of each of some weeks. */
import { dayNumber, type NamedArchive } from "./archiveName.ts";

export interface Keeping {
  /** The newest, whatever their day. */
  readonly last: number;
  /** Days on which there is an archive. */
  readonly days: number;
  /** Weeks (Monday to Sunday, ISO 8601) in which there is an archive. */
  readonly weeks: number;
}

/**
 * Our choice. A teacher's week, so that "as it was on Tuesday" is there; half a year of weeks, so that a loss that
 * nobody saw for a term can be undone; and the last three, so that two bad archives on one day leave a good one.
 */
export const USUAL_KEEPING: Keeping = { last: 3, days: 7, weeks: 26 };

/**
 * The archives to remove. Newer and older go by the number, and days and weeks are only told apart, never compared
 * with today or with each other: a clock that jumps, either way and however far, costs one place among the days.
 */
export function archivesToRemove(
  archives: readonly NamedArchive[],
  keeping: Keeping = USUAL_KEEPING,
): readonly NamedArchive[] {
  const newestFirst = [...archives].sort((a, b) => b.number - a.number);
  const kept = new Set([
    ...newestFirst.slice(0, keeping.last),
    ...newestOfEach(newestFirst, ({ day }) => day).slice(0, keeping.days),
    ...newestOfEach(newestFirst, ({ day }) => weekOf(day)).slice(0, keeping.weeks),
  ]);
  return newestFirst.filter((archive) => !kept.has(archive));
}

function newestOfEach(
  newestFirst: readonly NamedArchive[],
  key: (archive: NamedArchive) => string | number,
): readonly NamedArchive[] {
  const newest = new Map<string | number, NamedArchive>();
  for (const archive of newestFirst) if (!newest.has(key(archive))) newest.set(key(archive), archive);
  return [...newest.values()];
}

/** Weeks since the one of 1970-01-01, which began on the Monday three days before. */
function weekOf(day: string): number {
  return Math.floor(((dayNumber(day) ?? 0) + 3) / 7);
}
