/**
 * Backups in a browser, which has no folder of its own: the archive goes where the user says, written as it is made (File
 * System Access, WICG), or is handed over as a download; and the program says when it is time for one.
 */
import { z } from "zod";
import { daysBetween } from "../../engine/memory/index.ts";
import { localDay } from "../../engine/session/index.ts";
import { told } from "./readRows.ts";
import type { StudioDatabase } from "./studioDatabase.ts";

/** The part of a file handle that is used; the API is not in TypeScript's own types. */
export interface ArchiveFile {
  readonly name: string;
  readonly createWritable: () => Promise<{
    readonly write: (content: Uint8Array<ArrayBuffer>) => Promise<void>;
    readonly close: () => Promise<void>;
    readonly abort: () => Promise<void>;
  }>;
}

export interface ArchivePlace {
  /** Asks the user for a place; `undefined` where the browser cannot. Fails with an AbortError when it is put down. */
  readonly pick: ((suggestedName: string) => Promise<ArchiveFile>) | undefined;
  readonly download: (name: string, content: Blob) => void;
}

export type ArchiveKept =
  | { readonly kind: "saved"; readonly name: string }
  /** Given to the browser, which has a place for downloads or asks for one. */
  | { readonly kind: "handed-over"; readonly name: string }
  /** The user closed the dialog. */
  | { readonly kind: "put-down" };

/** Parts of a download are joined from so many bytes on: the browser keeps joined ones on disk. Our choice. */
const BYTES_TO_A_PART = 8 * 2 ** 20;

/**
 * Keeps an archive while it is made. When that fails nothing is left behind, and what was there before stays.
 *
 * @throws whatever making or writing it throws.
 */
export async function keepArchive(
  bytes: AsyncIterable<Uint8Array<ArrayBuffer>>,
  name: string,
  place: ArchivePlace,
): Promise<ArchiveKept> {
  if (!place.pick) {
    place.download(name, await asBlob(bytes));
    return { kind: "handed-over", name };
  }
  let file: ArchiveFile;
  try {
    file = await place.pick(name);
  } catch (error) {
    if (error instanceof Error && error.name === "AbortError") return { kind: "put-down" };
    throw error;
  }
  const writing = await file.createWritable();
  try {
    for await (const block of bytes) await writing.write(block);
    await writing.close();
  } catch (error) {
    // A stream that has failed already cannot be given up once more; the first failure is the one to tell.
    await writing.abort().catch(() => undefined);
    throw error;
  }
  return { kind: "saved", name: file.name };
}

async function asBlob(bytes: AsyncIterable<Uint8Array<ArrayBuffer>>): Promise<Blob> {
  const type = "application/jsonl";
  const parts: Blob[] = [];
  let part: Uint8Array<ArrayBuffer>[] = [];
  let length = 0;
  for await (const block of bytes) {
    part.push(block);
    length += block.length;
    if (length < BYTES_TO_A_PART) continue;
    parts.push(new Blob(part));
    part = [];
    length = 0;
  }
  return new Blob([...parts, ...part], { type });
}

const LAST = "backup.last";
const lastSchema = z.object({ value: z.iso.datetime() });

/** Remembers that a backup was kept. @throws StoreError */
export async function noteBackup(database: StudioDatabase, at: string): Promise<void> {
  await told(() => database.settings.put({ name: LAST, value: at }));
}

/** When the last backup was kept; `null` when none was, or nobody noted it. @throws StoreError */
export async function lastBackup(database: StudioDatabase): Promise<string | null> {
  const row = await told(() => database.settings.get(LAST));
  return lastSchema.safeParse(row).data?.value ?? null;
}

/** Days after which a backup is asked for, where lessons were given since. Our choice: a week of lessons can be told again. */
const DAYS_TO_A_BACKUP = 7;

export type BackupReminder =
  | { readonly kind: "none" }
  /** Lessons are kept, and no backup ever was. */
  | { readonly kind: "never" }
  | { readonly kind: "due"; readonly days: number };

/** Whether it is time for a backup. @throws StoreError */
export async function backupReminder(
  database: StudioDatabase,
  now: string,
  zone: string,
): Promise<BackupReminder> {
  const [last, lesson] = await Promise.all([
    lastBackup(database),
    told(() => database.lessons.orderBy("id").last()),
  ]);
  if (!lesson) return { kind: "none" };
  if (last === null) return { kind: "never" };
  const days = daysBetween(localDay(last, zone), localDay(now, zone));
  return lesson.at > last && days >= DAYS_TO_A_BACKUP ? { kind: "due", days } : { kind: "none" };
}
