/**
 * The journal of the browser's own storage, on disk: LevelDB's log files, in blocks of 32 kB, each entry with a header of
 * checksum, length and kind ("leveldb Log format", the LevelDB authors, doc/log_format.md).
 */
import { appendFileSync, existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

const BLOCK = 32_768;
const HEADER = 7;
const LENGTH_AT = 4;
const KIND_AT = 6;
/** An entry in one piece. */
const FULL = 1;

/** The folder of the page's storage; `undefined` where the browser keeps it in another way. */
function folderOf(profile: string): string | undefined {
  const all = join(profile, "Default/IndexedDB");
  const name = existsSync(all) ? readdirSync(all).find((each) => each.endsWith(".leveldb")) : undefined;
  return name === undefined ? undefined : join(all, name);
}

/** The journals that are there, the latest last. */
export function journalsOf(profile: string): readonly string[] {
  const folder = folderOf(profile);
  if (folder === undefined) return [];
  const logs = readdirSync(folder).filter((name) => name.endsWith(".log"));
  return logs.sort().map((name) => join(folder, name));
}

/** Whether a journal ends in the middle of an entry. */
export function hasHalfEntry(journal: string): boolean {
  const bytes = readFileSync(journal);
  let at = 0;
  while (at < bytes.length) {
    const leftOfBlock = BLOCK - (at % BLOCK);
    if (leftOfBlock < HEADER) {
      at += leftOfBlock;
      continue;
    }
    if (at + HEADER > bytes.length) return true;
    at += HEADER + bytes.readUInt16LE(at + LENGTH_AT);
  }
  return at > bytes.length;
}

/** Leaves a header without what it announces, as a kill between two writes of one entry does. */
export function leaveHalfEntry(journal: string): void {
  const header = Buffer.alloc(HEADER, 0xa5);
  header.writeUInt16LE(400, LENGTH_AT);
  header.writeUInt8(FULL, KIND_AT);
  appendFileSync(journal, header);
}
