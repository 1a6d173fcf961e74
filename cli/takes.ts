/**
 * Takes from files, one at a time: a file that cannot be read is said and passed over.
 */
import { readFile } from "node:fs/promises";
import { readSmf, SmfError, type SmfFile, strikesOf } from "../engine/formats/index.ts";
import { type Hit, type KitMap, RetriggerFilter } from "../engine/kit/index.ts";
import type { Outlet } from "./outlet.ts";

/** Thrown for a file that holds nothing to work on. The message says what, without the file's name. */
export class TakeError extends Error {
  override readonly name = "TakeError";
}

export interface TakeFile {
  readonly file: SmfFile;
  /** Every strike, retriggers too, in order of time (ties by note number). */
  readonly hits: readonly Hit[];
}

/** Reads a MIDI file. @throws TakeError when it cannot be opened, is broken, or holds no strike. */
export async function readTake(path: string, map: KitMap): Promise<TakeFile> {
  const file = readSmfOrSay(await bytesOf(path, "a MIDI file"));
  const hits = [...strikesOf(file, map)].sort((a, b) => a.time - b.time || a.pad - b.pad);
  if (hits.length === 0) throw new TakeError("The file holds no strike.");
  return { file, hits };
}

/** A file's bytes. @throws TakeError when it cannot be opened. @param kind what it should be, "a MIDI file". */
export async function bytesOf(path: string, kind: string): Promise<Uint8Array> {
  try {
    return await readFile(path);
  } catch (cause) {
    const reason = cause instanceof Error && "code" in cause ? String(cause.code) : String(cause);
    const said =
      {
        ENOENT: "There is no such file.",
        EISDIR: `This is a folder, not ${kind}.`,
        EACCES: "The file may not be read.",
      }[reason] ?? `The file cannot be read (${reason}).`;
    throw new TakeError(said, { cause });
  }
}

function readSmfOrSay(bytes: Uint8Array): SmfFile {
  try {
    return readSmf(bytes);
  } catch (cause) {
    if (cause instanceof SmfError) throw new TakeError(cause.message, { cause });
    throw cause;
  }
}

/** The strikes without double triggers and copies, as listening wants them. */
export function withoutRetriggers(hits: readonly Hit[]): readonly Hit[] {
  const filter = new RepeatFilter();
  return hits.filter((hit) => !filter.isRepeat(hit));
}

/**
 * Tells strikes that were not struck: double triggers, and the second of a strike that the file holds twice, as when a
 * track was laid over its copy.
 */
export class RepeatFilter {
  readonly #retriggers = new RetriggerFilter();
  readonly #last = new Map<number, number>();

  /** True when the hit, which comes in order of time, repeats one before it. */
  isRepeat(hit: Hit): boolean {
    const isCopy = this.#last.get(hit.pad) === hit.time;
    this.#last.set(hit.pad, hit.time);
    return isCopy || this.#retriggers.isRetrigger(hit);
  }
}

/**
 * Does one thing to each take, in order. A take that fails gives a line on standard error, and in JSON an object
 * with `take` and `error`; the others are still done.
 *
 * @returns whether all takes were done.
 */
export async function forEachTake(
  paths: readonly string[],
  how: { readonly map: KitMap; readonly json: boolean; readonly outlet: Outlet },
  work: (take: TakeFile) => { readonly json: object; readonly text: string },
): Promise<boolean> {
  let allDone = true;
  for (const path of paths) {
    try {
      const { json, text } = work(await readTake(path, how.map));
      await how.outlet.line(how.json ? JSON.stringify({ take: path, ...json }) : `${path}\n${text}`);
    } catch (error) {
      if (!(error instanceof TakeError)) throw error;
      allDone = false;
      how.outlet.complain(`${path}: ${error.message}`);
      if (how.json) await how.outlet.line(JSON.stringify({ take: path, error: error.message }));
    }
  }
  return allDone;
}
