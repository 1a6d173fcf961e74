import { z } from "zod";
import { readRow, stepsOf } from "../../records/index.ts";
import {
  ARCHIVE_TABLE_NAMES,
  ARCHIVE_TABLES,
  ARCHIVE_VERSION,
  type ArchiveHead,
  type ArchiveRow,
  type ArchiveTable,
  archiveCheckSchema,
  archiveEndSchema,
  archiveHeadSchema,
} from "./archiveLine.ts";
import { chained, type Digest, hex } from "./digest.ts";

/** A whole chunk of strikes is some 400 kB. Our choice, so that no file fills the memory. */
const LONGEST_LINE = 32 * 1024 * 1024;

/** Thrown when a file cannot be put back. The message is a sentence for the teacher. */
export class ArchiveError extends Error {
  override readonly name = "ArchiveError";
}

/** A row that cannot be read, though the file is as it was written. */
export interface BrokenRow {
  readonly table: string;
  readonly row: unknown;
  readonly why: string;
}

export type ArchivePiece =
  | { readonly kind: "head"; readonly head: ArchiveHead }
  /** A block whose check is right; `bytes` of the file are read so far. */
  | {
      readonly kind: "rows";
      readonly rows: readonly ArchiveRow[];
      readonly broken: readonly BrokenRow[];
      readonly bytes: number;
    }
  | {
      readonly kind: "end";
      readonly rows: number;
      readonly tables: Readonly<Partial<Record<ArchiveTable, number>>>;
    };

/**
 * Reads an archive, block by block; a block comes only when its check is right. Stop taking from it to cancel.
 *
 * @param bytes of the file, in pieces of any size.
 * @throws ArchiveError when it is none, is of a newer version, was changed, or is cut off: with the line where that shows.
 */
export async function* readArchive(
  bytes: AsyncIterable<Uint8Array>,
  digest: Digest,
): AsyncGenerator<ArchivePiece> {
  let number = 0;
  let read = 0;
  let all = 0;
  let sum = new Uint8Array() as Uint8Array;
  let block: Uint8Array[] = [];
  let rows: ArchiveRow[] = [];
  let broken: BrokenRow[] = [];
  const tables: Partial<Record<string, number>> = {};
  let isEnded = false;
  for await (const line of linesOf(bytes)) {
    number += 1;
    read += line.length;
    if (isEnded)
      throw new ArchiveError(
        `Line ${number} comes after the end of the archive. Take the file as it was saved.`,
      );
    const value = parsed(line, number);
    if (number === 1) {
      yield { kind: "head", head: headOf(value) };
      block.push(line);
      continue;
    }
    const check = archiveCheckSchema.safeParse(value);
    if (check.success) {
      sum = await chained(sum, block, digest);
      if (hex(sum) !== check.data.check.sha256 || rows.length + broken.length !== check.data.check.rows)
        throw changed(number, block.length);
      all += rows.length + broken.length;
      for (const { table } of [...rows, ...broken]) tables[table] = (tables[table] ?? 0) + 1;
      yield { kind: "rows", rows, broken, bytes: read };
      [block, rows, broken] = [[], [], []];
      continue;
    }
    const end = archiveEndSchema.safeParse(value);
    if (end.success) {
      const said = end.data.end;
      const fits = ARCHIVE_TABLE_NAMES.every((table) => (said.tables[table] ?? 0) === (tables[table] ?? 0));
      if (block.length > 0 || said.rows !== all || said.sha256 !== hex(sum) || !fits)
        throw changed(number, block.length);
      // Its newline is part of the end: without it the line may have been cut off, or changed to white space that reads alike.
      if (line.at(-1) !== NEWLINE) break;
      isEnded = true;
      yield { kind: "end", rows: all, tables: end.data.end.tables };
      continue;
    }
    block.push(line);
    sort(value, rows, broken);
  }
  if (number === 0) throw new ArchiveError("The file is empty. Choose an archive that this program saved.");
  if (!isEnded)
    throw new ArchiveError(
      `The archive is cut off after line ${number}: its end is missing. Copy it anew, or choose an earlier one.`,
    );
}

const NEWLINE = 10;

async function* linesOf(bytes: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  let rest: Uint8Array[] = [];
  let length = 0;
  for await (const piece of bytes) {
    let from = 0;
    for (let at = piece.indexOf(NEWLINE); at >= 0; at = piece.indexOf(NEWLINE, from)) {
      const tail = piece.subarray(from, at + 1);
      yield rest.length === 0 ? tail : joinedLine(rest, tail);
      rest = [];
      length = 0;
      from = at + 1;
    }
    if (from < piece.length) {
      rest.push(piece.slice(from));
      length += piece.length - from;
      if (length > LONGEST_LINE)
        throw new ArchiveError(
          "The file has a line far too long for an archive. Choose one that this program saved.",
        );
    }
  }
  const [only] = rest;
  if (only) yield joinedLine(rest, new Uint8Array());
}

function joinedLine(parts: readonly Uint8Array[], tail: Uint8Array): Uint8Array {
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, tail.length));
  let at = 0;
  for (const part of [...parts, tail]) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

const decoder = new TextDecoder("utf-8", { fatal: true });

function parsed(line: Uint8Array, number: number): unknown {
  try {
    return JSON.parse(decoder.decode(line));
  } catch (error) {
    if (!(error instanceof SyntaxError || error instanceof TypeError)) throw error;
    if (number === 1) throw notOne(error);
    throw new ArchiveError(
      `Line ${number} of the archive cannot be read: it was changed or cut off. Copy it anew, or choose an earlier one.`,
      { cause: error },
    );
  }
}

const newerHead = z.object({
  throneside: z.literal("archive"),
  version: z.int().min(ARCHIVE_VERSION + 1),
  program: z.string().optional(),
});

function headOf(value: unknown): ArchiveHead {
  const newer = newerHead.safeParse(value);
  if (newer.success)
    throw new ArchiveError(
      `The archive is of version ${newer.data.version}, written by ${newer.data.program ? `version ${newer.data.program} of the program` : "a newer program"}; this one reads version ${ARCHIVE_VERSION}. Bring the program up to date and choose it again; nothing was changed.`,
    );
  const head = archiveHeadSchema.safeParse(value);
  if (!head.success) throw notOne(head.error);
  return head.data;
}

function notOne(cause: unknown): ArchiveError {
  return new ArchiveError("This file is no archive of the studio. Choose one that this program saved.", {
    cause,
  });
}

function changed(line: number, rows: number): ArchiveError {
  return new ArchiveError(
    `The archive was changed after it was saved: the check in line ${line} does not fit the ${rows} lines before it. Copy it anew, or choose an earlier one.`,
  );
}

const rowLine = z.object({ table: z.string(), row: z.unknown() });

/** A line with a row goes to the rows, or to the broken ones. */
function sort(value: unknown, rows: ArchiveRow[], broken: BrokenRow[]): void {
  const line = rowLine.safeParse(value);
  const table = ARCHIVE_TABLE_NAMES.find((name) => name === line.data?.table);
  if (!line.success || table === undefined) {
    broken.push({ table: line.data?.table ?? "unknown", row: value, why: "This table is not known here." });
    return;
  }
  const reading = readRow<ArchiveRow["row"]>(
    ARCHIVE_TABLES[table],
    line.data.row,
    stepsOf(table === "hits" ? "archivedHits" : table),
  );
  if (reading.kind === "read") rows.push({ table, row: reading.value } as ArchiveRow);
  else {
    const why = reading.kind === "newer" ? `It is of version ${reading.version}.` : reading.why;
    broken.push({ table, row: line.data.row, why });
  }
}
