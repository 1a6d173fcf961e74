import { rename, rm, writeFile } from "node:fs/promises";

/** Thrown when a file cannot be written; nothing of it is left behind, and what was there before still is. */
export class WriteError extends Error {
  override readonly name = "WriteError";
}

/**
 * Writes a file whole or not at all: under another name beside it first, which then becomes its own.
 *
 * @throws WriteError saying why.
 */
export async function writeWhole(path: string, content: Uint8Array | string): Promise<void> {
  const unfinished = `${path}.${process.pid}.unfinished`;
  try {
    await writeFile(unfinished, content);
    await rename(unfinished, path);
  } catch (cause) {
    // Where nothing could be written nothing can be taken away either: it is the first fault that is told.
    await Promise.allSettled([rm(unfinished, { force: true })]);
    throw new WriteError(`the file cannot be written (${cause instanceof Error ? cause.message : cause}).`, {
      cause,
    });
  }
}
