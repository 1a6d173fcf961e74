/**
 * A program for the tests: it writes archives into the folder given to it, one after the other and without end, as the
 * shell does, and rotates. The test kills it.
 */
import { createHash } from "node:crypto";
import { BackupFolder } from "../../../electron/backup/backupFolder.ts";
import { Writings } from "../../../electron/files/writings.ts";

const [path = "", pieceBytes = "65536", pieces = "24"] = process.argv.slice(2);
const folder = new BackupFolder(path, () => new Date());
const writings = new Writings();

/** A sum of all before it stands at the end of each archive, so that half of one is known. */
async function writeOne(seed: number): Promise<void> {
  const begun = await writings.begin(await folder.nextPath("zip"), () => folder.rotate());
  if (begun.kind !== "begun") throw new Error(JSON.stringify(begun));
  const sum = createHash("sha256");
  const all = Array.from({ length: Number(pieces) }, (_, index) =>
    new Uint8Array(Number(pieceBytes)).fill((seed + index) % 251),
  );
  for (const piece of all) {
    sum.update(piece);
    const added = await writings.add(begun.id, piece);
    if (added.kind === "failed") throw new Error(added.reason);
  }
  await writings.add(begun.id, sum.digest());
  const ended = await writings.end(begun.id, Number(pieceBytes) * Number(pieces) + 32);
  if (ended.kind !== "saved" || ended.trouble !== null) throw new Error(JSON.stringify(ended));
  process.stdout.write(`${ended.name}\n`);
}

try {
  for (let seed = 0; ; seed++) await writeOne(seed);
} catch (error) {
  process.stdout.write(`${error instanceof Error ? error.message : String(error)}\n`);
  process.exitCode = 3;
}
