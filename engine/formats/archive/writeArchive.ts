import type { ArchiveHead, ArchiveRow, ArchiveTable } from "./archiveLine.ts";
import { ARCHIVE_VERSION } from "./archiveLine.ts";
import { chained, type Digest, hex, joined } from "./digest.ts";

/** Our choice: small beside any memory, and large beside its check. */
const BLOCK_BYTES = 256 * 1024;

/**
 * An archive, block by block: never more than one of them is in memory. Stop taking from it to cancel.
 *
 * @param rows in the order they are to be put back in: what others speak of first.
 * @throws whatever `rows` throws.
 */
export async function* writeArchive(
  about: Omit<ArchiveHead, "throneside" | "version">,
  rows: AsyncIterable<ArchiveRow> | Iterable<ArchiveRow>,
  digest: Digest,
): AsyncGenerator<Uint8Array<ArrayBuffer>> {
  const tables: Partial<Record<ArchiveTable, number>> = {};
  let sum = new Uint8Array() as Uint8Array;
  let all = 0;
  let block: Uint8Array[] = [line({ throneside: "archive", version: ARCHIVE_VERSION, ...about })];
  let bytes = 0;
  let inBlock = 0;
  const closed = async (): Promise<Uint8Array<ArrayBuffer>> => {
    sum = await chained(sum, block, digest);
    const whole = joined([...block, line({ check: { rows: inBlock, sha256: hex(sum) } })]);
    block = [];
    bytes = 0;
    inBlock = 0;
    return whole;
  };
  for await (const row of rows) {
    const written = line(row);
    block.push(written);
    bytes += written.length;
    inBlock += 1;
    all += 1;
    tables[row.table] = (tables[row.table] ?? 0) + 1;
    if (bytes >= BLOCK_BYTES) yield await closed();
  }
  if (block.length > 0) yield await closed();
  yield line({ end: { rows: all, tables, sha256: hex(sum) } });
}

const encoder = new TextEncoder();

function line(value: unknown): Uint8Array<ArrayBuffer> {
  return encoder.encode(`${JSON.stringify(value)}\n`);
}
