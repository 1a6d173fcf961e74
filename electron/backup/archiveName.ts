/**
 * The names of the archives in the backup folder. The number says which is newest, not the clock: a clock that was
 * wrong for a day must not make an old archive the newest one, nor a new one the oldest.
 */

export interface NamedArchive {
  readonly name: string;
  /** One more than the highest that was there. */
  readonly number: number;
  /** The day by the computer's clock as it was then, ISO 8601. */
  readonly day: string;
}

const ARCHIVE = /^throneside-(\d{6,9})-(\d{4}-\d{2}-\d{2})\.[a-z0-9]{1,8}(\.[a-z0-9]{1,8})?$/;

/**
 * @example
 * archiveName(12, "2026-11-26", "jsonl.gz") // => "throneside-000012-2026-11-26.jsonl.gz"
 */
export function archiveName(number: number, day: string, ending: string): string {
  return `throneside-${String(number).padStart(6, "0")}-${day}.${ending}`;
}

/** What a name says; undefined for any file that is no archive of ours. */
export function readArchiveName(name: string): NamedArchive | undefined {
  const [, number, day] = ARCHIVE.exec(name) ?? [];
  if (number === undefined || day === undefined || dayNumber(day) === undefined) return undefined;
  return { name, number: Number(number), day };
}

/** Days since 1970-01-01 (a Thursday), or undefined if there is no such day. */
export function dayNumber(day: string): number | undefined {
  const milliseconds = Date.parse(`${day}T00:00:00Z`);
  if (Number.isNaN(milliseconds) || new Date(milliseconds).toISOString().slice(0, 10) !== day)
    return undefined;
  return milliseconds / 86_400_000;
}
