/** The whole studio as an archive: read table by table, a page of rows at a time, so that its size does not matter. */
import type { Table } from "dexie";
import {
  ARCHIVE_TABLE_NAMES,
  ARCHIVE_TABLES,
  type ArchiveHead,
  type ArchiveRow,
  type ArchiveTable,
  archivedHits,
  type Digest,
  writeArchive,
} from "../../engine/formats/index.ts";
import {
  type HitChunk,
  hitChunkSchema,
  lessonRecord,
  readRow,
  rowsOf,
  stepsOf,
} from "../../engine/records/index.ts";
import type { LessonState, SessionEvent } from "../../engine/session/index.ts";
import { told } from "./readRows.ts";
import type { StudioDatabase } from "./studioDatabase.ts";

/** Rows to a page. Our choice: a page is at most a few megabytes; a row of strikes is large. */
const ROWS_AT_ONCE = 500;
const CHUNKS_AT_ONCE = 8;

export interface Progress {
  /** Rows done, of so many. */
  readonly rows: number;
  readonly of: number;
}

export interface BackUpOptions {
  /** ISO 8601. */
  readonly madeAt: string;
  /** Version of the program. */
  readonly program: string;
  readonly onProgress?: (progress: Progress) => void;
  /** Aborted, the backup ends with its reason. */
  readonly signal?: AbortSignal;
}

/** SHA-256 by the platform. */
export const sha256: Digest = async (bytes) => new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));

/**
 * The studio as the bytes of an archive.
 *
 * @throws StoreError when it cannot be read; the reason of the signal when that is aborted.
 */
export async function* backUp(
  database: StudioDatabase,
  { madeAt, program, onProgress, signal }: BackUpOptions,
): AsyncGenerator<Uint8Array<ArrayBuffer>> {
  const of = await countRows(database);
  let rows = 0;
  async function* counted(): AsyncGenerator<ArchiveRow> {
    for await (const row of studioRows(database)) {
      signal?.throwIfAborted();
      rows += 1;
      yield row;
    }
  }
  for await (const bytes of writeArchive({ madeAt, program, of: { kind: "studio" } }, counted(), sha256)) {
    yield bytes;
    onProgress?.({ rows, of: Math.max(of, rows) });
  }
}

/** How many rows an archive of the studio has. */
export async function countRows(database: StudioDatabase): Promise<number> {
  const counts = await told(() =>
    Promise.all(ARCHIVE_TABLE_NAMES.map((table) => database.table(table).count())),
  );
  return counts.reduce((sum, count) => sum + count, 0);
}

/** All rows of the studio, those first that others speak of. What cannot be read comes as a row set aside. */
export async function* studioRows(database: StudioDatabase): AsyncGenerator<ArchiveRow> {
  for (const table of ARCHIVE_TABLE_NAMES) {
    for await (const row of pages(database.table(table), table === "hits" ? CHUNKS_AT_ONCE : ROWS_AT_ONCE))
      yield archiveRow(table, row);
  }
}

/** The rows of events that no storage took, as an archive's: what {@link LessonWriter.unwritten} holds. */
export function unwrittenRows(state: LessonState, events: readonly SessionEvent[]): readonly ArchiveRow[] {
  const record = lessonRecord(state);
  if (!record) return [];
  const rows = rowsOf(record.id, record.day, events);
  return [
    { table: "lessons", row: record },
    ...rows.events.map((row): ArchiveRow => ({ table: "events", row })),
    ...rows.hits.map((chunk): ArchiveRow => ({ table: "hits", row: archivedHits(chunk) })),
    ...rows.takes.map((row): ArchiveRow => ({ table: "takes", row })),
    ...rows.results.map((row): ArchiveRow => ({ table: "results", row })),
  ];
}

/** What an archive of a part of the studio says of itself. */
export type ArchiveAbout = Omit<ArchiveHead, "throneside" | "version">;

async function* pages(table: Table<unknown, unknown>, size: number): AsyncGenerator<unknown> {
  let last: unknown;
  for (;;) {
    const [keys, rows] = await told(async () => {
      const page = last === undefined ? table.toCollection() : table.where(":id").above(last);
      const found = page.limit(size);
      return [await found.primaryKeys(), await found.toArray()] as const;
    });
    yield* rows;
    if (rows.length < size) return;
    last = keys.at(-1);
  }
}

function archiveRow(table: ArchiveTable, row: unknown): ArchiveRow {
  if (table === "hits") {
    const chunk = readRow(hitChunkSchema, row, stepsOf("hits"));
    if (chunk.kind === "read") return archivedChunk(chunk.value);
    return setAsideRow(table, row, chunk.kind === "newer" ? `It is of version ${chunk.version}.` : chunk.why);
  }
  const reading = readRow<ArchiveRow["row"]>(ARCHIVE_TABLES[table], row, stepsOf(table));
  if (reading.kind === "read") return { table, row: reading.value } as ArchiveRow;
  return setAsideRow(
    table,
    row,
    reading.kind === "newer" ? `It is of version ${reading.version}.` : reading.why,
  );
}

function archivedChunk(chunk: HitChunk): ArchiveRow {
  try {
    return { table: "hits", row: archivedHits(chunk) };
  } catch (error) {
    if (error instanceof RangeError) return setAsideRow("hits", chunk, error.message);
    throw error;
  }
}

/** As JSON can hold it: bytes become numbers. */
function setAsideRow(table: ArchiveTable, row: unknown, why: string): ArchiveRow {
  const plain: unknown = JSON.parse(
    JSON.stringify(row ?? null, (_, value: unknown) => (value instanceof Uint8Array ? [...value] : value)),
  );
  return { table: "setAside", row: { table, row: plain, why } };
}
