/**
 * A shelf: a folder in which each MIDI file is a groove, and each folder a groove with several reference takes.
 */
import { readdir } from "node:fs/promises";
import { basename, extname, join } from "node:path";
import type { Hit, KitMap } from "../engine/kit/index.ts";
import { type ReferenceGroove, type Stock, shelfStock } from "../engine/listening/index.ts";
import type { Outlet } from "./outlet.ts";
import { readTake, TakeError, withoutRetriggers } from "./takes.ts";
import { UsageError } from "./usageError.ts";

const MIDI_ENDINGS = new Set([".mid", ".midi", ".smf"]);

/**
 * Reads a shelf. A reference that cannot be read is said on standard error and left out.
 *
 * @returns the stock, and whether every reference could be read.
 * @throws UsageError when the folder cannot be opened or no groove in it can be used.
 */
export async function readShelf(
  folder: string,
  map: KitMap,
  outlet: Outlet,
): Promise<{ readonly stock: Stock; readonly complete: boolean }> {
  const references: ReferenceGroove[] = [];
  let complete = true;
  for (const groove of await groovesIn(folder)) {
    const takes: (readonly Hit[])[] = [];
    for (const path of groove.paths) {
      try {
        takes.push(withoutRetriggers((await readTake(path, map)).hits));
      } catch (error) {
        if (!(error instanceof TakeError)) throw error;
        complete = false;
        outlet.complain(`${path}: ${error.message}`);
      }
    }
    references.push({ id: groove.id, name: groove.id, takes });
  }
  const stock = shelfStock(references);
  for (const { id } of references) {
    if (stock.grooves.some((groove) => groove.id === id)) continue;
    complete = false;
    outlet.complain(`${join(folder, id)}: no pulse can be heard in its reference takes; it is left out.`);
  }
  if (stock.grooves.length === 0) throw new UsageError(`--shelf ${folder}: no groove in it can be used.`);
  return { stock, complete };
}

interface GrooveFiles {
  readonly id: string;
  readonly paths: readonly string[];
}

async function groovesIn(folder: string): Promise<readonly GrooveFiles[]> {
  // A file and a folder of one name are one groove.
  const pathsOf = new Map<string, string[]>();
  const add = (id: string, ...paths: readonly string[]): void => {
    if (paths.length > 0) pathsOf.set(id, [...(pathsOf.get(id) ?? []), ...paths]);
  };
  for (const entry of await listed(folder)) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) {
      const files = (await listed(path)).filter((file) => isMidi(file.name));
      add(entry.name, ...files.map((file) => join(path, file.name)));
    } else if (isMidi(entry.name)) {
      add(basename(entry.name, extname(entry.name)), path);
    }
  }
  return [...pathsOf].map(([id, paths]) => ({ id, paths }));
}

async function listed(folder: string) {
  try {
    const entries = await readdir(folder, { withFileTypes: true });
    return entries.sort((a, b) => (a.name < b.name ? -1 : 1));
  } catch (cause) {
    throw new UsageError(`--shelf ${folder}: the folder cannot be opened.`, { cause });
  }
}

function isMidi(name: string): boolean {
  return MIDI_ENDINGS.has(extname(name).toLowerCase());
}
