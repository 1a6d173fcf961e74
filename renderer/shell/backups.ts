/** An archive of the backup folder, read back through the desktop shell. */
import { MOST_BYTES_AT_ONCE } from "../../engine/records/index.ts";
import type { ShellDoor } from "./door.ts";

/** The bytes of the archive `name`, piece by piece. Throws a sentence if it cannot be read. */
export async function* backupPieces(door: ShellDoor, name: string): AsyncGenerator<Uint8Array> {
  let fromByte = 0;
  for (;;) {
    const answer = await door.ask("readBackup", { name, fromByte, bytes: MOST_BYTES_AT_ONCE });
    if (answer.kind === "no-folder") throw new Error("No backup folder is chosen. Choose it, and try again.");
    if (answer.kind === "failed") throw new Error(answer.reason);
    if (answer.bytes.length > 0) yield answer.bytes;
    fromByte += answer.bytes.length;
    if (fromByte >= answer.totalBytes) return;
    if (answer.bytes.length === 0) throw new Error(`${name} became shorter while it was read. Try again.`);
  }
}
