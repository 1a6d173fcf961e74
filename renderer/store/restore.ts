/** An archive looked into before anything is done, and put back. */
import { z } from "zod";
import {
  type ArchiveHead,
  type ArchiveRow,
  type ArchiveTable,
  type BrokenRow,
  chunkOf,
  readArchive,
} from "../../engine/formats/index.ts";
import { sha256 } from "./backUp.ts";
import { told } from "./readRows.ts";
import { rowOf, type StudioDatabase } from "./studioDatabase.ts";

/** What is in an archive. */
export interface Preview {
  readonly head: ArchiveHead;
  readonly rows: number;
  readonly tables: Readonly<Partial<Record<ArchiveTable, number>>>;
  readonly nicknames: readonly string[];
  /** Days of the first and the last lesson; `null` without lessons. */
  readonly lessons: { readonly first: string; readonly last: string } | null;
  /** Rows that cannot be read, in a file that is as it was saved; they will be set aside. */
  readonly broken: number;
}

export interface ReadingOptions {
  /** Bytes of the file read so far. */
  readonly onProgress?: (bytes: number) => void;
  /** Aborted, it ends with its reason; what was put back until then stays. */
  readonly signal?: AbortSignal;
}

/** The bytes of a file, as the platform hands them over. A file that was packed with gzip (RFC 1952) is unpacked. */
export async function* bytesOfFile(file: Blob): AsyncGenerator<Uint8Array> {
  const magic = new Uint8Array(await file.slice(0, 2).arrayBuffer());
  const isPacked = magic[0] === 0x1f && magic[1] === 0x8b;
  const stream = isPacked ? file.stream().pipeThrough(new DecompressionStream("gzip")) : file.stream();
  const reader = stream.getReader();
  try {
    for (let piece = await reader.read(); !piece.done; piece = await reader.read()) yield piece.value;
  } finally {
    await reader.cancel();
  }
}

/**
 * Reads a whole archive and checks it, without changing anything.
 *
 * @throws ArchiveError with the reason when it cannot be put back.
 */
export async function previewArchive(
  bytes: AsyncIterable<Uint8Array>,
  { onProgress, signal }: ReadingOptions = {},
): Promise<Preview> {
  let head: ArchiveHead | undefined;
  let end: Pick<Preview, "rows" | "tables"> = { rows: 0, tables: {} };
  const nicknames: string[] = [];
  let first: string | undefined;
  let last: string | undefined;
  let broken = 0;
  for await (const piece of readArchive(bytes, sha256)) {
    signal?.throwIfAborted();
    if (piece.kind === "head") head = piece.head;
    else if (piece.kind === "end") end = piece;
    else {
      for (const row of piece.rows) {
        if (row.table === "students") nicknames.push(row.row.nickname);
        if (row.table !== "lessons") continue;
        const { day } = row.row;
        first = first === undefined || day < first ? day : first;
        last = last === undefined || day > last ? day : last;
      }
      broken += piece.broken.length;
      onProgress?.(piece.bytes);
    }
  }
  if (!head) throw new Error("An archive was read to its end without a head.");
  const { rows, tables } = end;
  const lessons = first !== undefined && last !== undefined ? { first, last } : null;
  return { head, rows, tables, nicknames: nicknames.sort(), lessons, broken };
}

/** What was done with an archive. */
export interface Restored {
  readonly put: number;
  /** Rows that were there already and were left as they are. */
  readonly left: number;
  readonly setAside: number;
}

/**
 * Puts an archive back. Nothing that is not in it is touched. Look into it first ({@link previewArchive}): then it is known
 * to be whole. Broken off, it can be put back again: the same rows are written.
 *
 * @param existing what becomes of rows that are there already: they stay, or those of the archive take their place.
 * @throws ArchiveError, StoreError
 */
export async function restoreArchive(
  database: StudioDatabase,
  bytes: AsyncIterable<Uint8Array>,
  existing: "stay" | "give-way",
  { onProgress, signal }: ReadingOptions = {},
): Promise<Restored> {
  let put = 0;
  let left = 0;
  let setAside = 0;
  for await (const piece of readArchive(bytes, sha256)) {
    signal?.throwIfAborted();
    if (piece.kind !== "rows") continue;
    const written = await putBlock(database, piece.rows, existing);
    await keepBroken(database, piece.broken);
    put += written;
    left += piece.rows.length - written;
    setAside += piece.broken.length;
    onProgress?.(piece.bytes);
  }
  return { put, left, setAside };
}

/** One block in one transaction. Returns how many rows were written. */
function putBlock(
  database: StudioDatabase,
  rows: readonly ArchiveRow[],
  existing: "stay" | "give-way",
): Promise<number> {
  const tables = [...new Set(rows.map(({ table }) => table))];
  return told(() =>
    database.transaction("rw", tables, async () => {
      let written = 0;
      for (const name of tables) {
        const ofTable = rows.filter((row) => row.table === name);
        const table = database.table<unknown, unknown>(name);
        const stored = ofTable.map(storedRow);
        if (name === "setAside") {
          await table.bulkAdd(stored);
          written += stored.length;
          continue;
        }
        const keys = ofTable.map(keyOf);
        const there = await table.bulkGet(keys);
        const fresh = stored.filter((row, index) => gives(name, there[index], row, existing));
        await table.bulkPut(fresh);
        written += fresh.length;
      }
      return written;
    }),
  );
}

/** Whether a row that is there gives way to the archive's. */
function gives(
  table: ArchiveTable,
  there: unknown,
  archived: unknown,
  existing: "stay" | "give-way",
): boolean {
  if (there === undefined) return true;
  // Strikes are never changed, only joined: the row that holds more of them holds those of the other.
  if (table === "hits") {
    const [old, fresh] = [reaching.safeParse(there), reaching.safeParse(archived)];
    return !old.success || !fresh.success || fresh.data.toSeq > old.data.toSeq;
  }
  return existing === "give-way";
}

const reaching = z.object({ toSeq: z.int() });

/** A row as the database holds it. */
function storedRow(row: ArchiveRow): unknown {
  if (row.table === "hits") return chunkOf(row.row);
  if (row.table === "entries") return rowOf(row.row);
  return row.row;
}

function keyOf(row: ArchiveRow): unknown {
  switch (row.table) {
    case "students":
    case "groups":
    case "entries":
    case "lessons":
    case "listChanges":
      return row.row.id;
    case "events":
      return [row.row.lessonId, row.row.seq];
    case "hits":
      return [row.row.lessonId, row.row.seq[0]];
    case "takes":
      return row.row.takeId;
    case "results":
      return [row.row.lessonId, row.row.seq, row.row.place];
    case "setAside":
      return undefined;
  }
}

async function keepBroken(database: StudioDatabase, broken: readonly BrokenRow[]): Promise<void> {
  if (broken.length === 0) return;
  await told(() => database.setAside.bulkAdd(broken.map(({ table, row, why }) => ({ table, row, why }))));
}
