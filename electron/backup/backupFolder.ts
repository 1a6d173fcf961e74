/** The folder that holds the archives of the studio. What is not an archive of ours in it is never touched. */
import { open, readdir, rm, stat } from "node:fs/promises";
import { join } from "node:path";
import type { DoorAnswered, DoorAsked } from "../../engine/records/index.ts";
import { fileTrouble } from "../files/fileTrouble.ts";
import { isPartName } from "../files/wholeFile.ts";
import { archiveName, type NamedArchive, readArchiveName } from "./archiveName.ts";
import { archivesToRemove } from "./rotation.ts";

type Listed = Extract<DoorAnswered<"backups">, { kind: "folder" }>["archives"];

/** What a program that was killed left unfinished is taken away a day later, by when nobody writes it any more. Our choice. */
const LEFT_BEHIND_MS = 86_400_000;

export class BackupFolder {
  readonly path: string;
  readonly #now: () => Date;

  constructor(path: string, now: () => Date) {
    this.path = path;
    this.#now = now;
  }

  /** Newest first. Throws if the folder cannot be read. */
  async archives(): Promise<Listed> {
    const listed: Listed = [];
    for (const archive of await this.#named()) {
      const { size } = await stat(join(this.path, archive.name));
      listed.push({ ...archive, bytes: size });
    }
    return listed;
  }

  /** The path of the archive that comes next. Throws if the folder cannot be read. */
  async nextPath(ending: string): Promise<string> {
    const [newest] = await this.#named();
    return join(this.path, archiveName((newest?.number ?? 0) + 1, dayOf(this.#now()), ending));
  }

  /** Removes what need not be kept, once a new archive is in its place; gives a sentence if that did not go well. */
  async rotate(): Promise<string | null> {
    try {
      const old = archivesToRemove(await this.#named()).map(({ name }) => name);
      for (const name of [...old, ...(await this.#leftBehind())]) await rm(join(this.path, name));
      return null;
    } catch (error) {
      return fileTrouble("The archive is kept, but an old one could not be removed", error);
    }
  }

  async read({ name, fromByte, bytes }: DoorAsked<"readBackup">): Promise<DoorAnswered<"readBackup">> {
    // The pattern has no "/" in it: what matches lies in the folder.
    if (readArchiveName(name) === undefined)
      return { kind: "failed", reason: `${name} is no archive of this program.` };
    try {
      return { kind: "read", ...(await pieceOf(join(this.path, name), fromByte, bytes)) };
    } catch (error) {
      return { kind: "failed", reason: fileTrouble(`${name} could not be read`, error) };
    }
  }

  async #named(): Promise<readonly NamedArchive[]> {
    const names = await readdir(this.path);
    const archives = names.map(readArchiveName).filter((archive) => archive !== undefined);
    return archives.sort((a, b) => b.number - a.number);
  }

  async #leftBehind(): Promise<readonly string[]> {
    const parts = (await readdir(this.path)).filter(isPartName);
    const nowMs = this.#now().getTime();
    const old: string[] = [];
    for (const name of parts) {
      const { mtimeMs } = await stat(join(this.path, name));
      // A clock that has jumped back leaves files of the future: they are as far from now.
      if (Math.abs(nowMs - mtimeMs) > LEFT_BEHIND_MS) old.push(name);
    }
    return old;
  }
}

async function pieceOf(
  path: string,
  fromByte: number,
  most: number,
): Promise<{ bytes: Uint8Array<ArrayBuffer>; totalBytes: number }> {
  const handle = await open(path, "r");
  try {
    const { size } = await handle.stat();
    const wanted = new Uint8Array(Math.max(0, Math.min(most, size - fromByte)));
    let filled = 0;
    while (filled < wanted.length) {
      const { bytesRead } = await handle.read(wanted, filled, wanted.length - filled, fromByte + filled);
      if (bytesRead === 0) throw new Error("The file became shorter while it was read.");
      filled += bytesRead;
    }
    return { bytes: wanted, totalBytes: size };
  } finally {
    await handle.close();
  }
}

/** The day on the wall's calendar, ISO 8601. */
function dayOf(now: Date): string {
  const two = (count: number): string => String(count).padStart(2, "0");
  const year = Math.min(9999, Math.max(0, now.getFullYear()));
  return `${String(year).padStart(4, "0")}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
