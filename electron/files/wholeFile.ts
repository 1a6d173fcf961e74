/**
 * A file that appears whole or not at all. It is written under another name in the same folder, forced to the disk,
 * and only then given its own name, which every file system of the three desktops does in one step. Whatever stood
 * under that name stays as it was until then.
 */
import { type FileHandle, open, rename, rm } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { codeOf } from "./fileTrouble.ts";

/** What the file is called until it is whole. Names that begin with a full stop are hidden on two of three systems. */
export function partName(name: string, id: string): string {
  return `.${name}.${id}.part`;
}

export function isPartName(name: string): boolean {
  return /^\..+\.[0-9a-f-]{36}\.part$/.test(name);
}

export class WholeFile {
  readonly path: string;
  readonly #part: string;
  readonly #handle: FileHandle;
  #bytes = 0;
  /** Pieces that come at the same time are written one after the other. */
  #last: Promise<void> = Promise.resolve();

  private constructor(path: string, part: string, handle: FileHandle) {
    this.path = path;
    this.#part = part;
    this.#handle = handle;
  }

  /** Begins a file that will stand at `path`; `id` (a UUID) sets it apart from others on the way there. */
  static async begin(path: string, id: string): Promise<WholeFile> {
    const part = join(dirname(path), partName(basename(path), id));
    return new WholeFile(path, part, await open(part, "wx"));
  }

  get name(): string {
    return basename(this.path);
  }

  add(bytes: Uint8Array): Promise<void> {
    this.#last = this.#last.then(async () => {
      await this.#handle.appendFile(bytes);
      this.#bytes += bytes.length;
    });
    return this.#last;
  }

  /** Puts the file in its place. Throws, and leaves nothing behind, if it has not `bytes` bytes or cannot be put there. */
  async end(bytes: number): Promise<void> {
    try {
      await this.#last;
      if (this.#bytes !== bytes)
        throw new Error(`${this.#bytes} bytes have come where ${bytes} were announced.`);
      await this.#handle.sync();
      await this.#handle.close();
      await rename(this.#part, this.path);
    } catch (error) {
      await this.giveUp();
      throw error;
    }
    await syncFolder(dirname(this.path));
  }

  /** Takes away what has been written; what stood at the place before stays. */
  async giveUp(): Promise<void> {
    // What failed was told when it failed.
    await this.#last.catch(() => undefined);
    await this.#handle.close();
    await rm(this.#part, { force: true });
  }
}

const CANNOT_BE_SYNCED: ReadonlySet<string | undefined> = new Set(["EINVAL", "ENOTSUP", "EPERM"]);

/** Forces the new name to the disk too (POSIX asks for that apart). Windows has no such thing. */
async function syncFolder(folder: string): Promise<void> {
  if (process.platform === "win32") return;
  const handle = await open(folder, "r");
  try {
    await handle.sync();
  } catch (error) {
    // Some network and removable file systems cannot do it for folders; the file itself is safe by now.
    if (!CANNOT_BE_SYNCED.has(codeOf(error))) throw error;
  } finally {
    await handle.close();
  }
}
