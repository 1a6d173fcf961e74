/**
 * A shelf: a folder in which each MIDI file is a groove, and each folder a groove with several reference takes.
 * The player's own earlier takes are laid out in the same way.
 */
import { readdir } from "node:fs/promises";
import { basename, extname, join } from "node:path";
import type { Hit, KitMap } from "../engine/kit/index.ts";
import { type ReferenceGroove, type Stock, shelfStock, withOwnTakes } from "../engine/listening/index.ts";
import type { Outlet } from "./outlet.ts";
import { readTake, TakeError, withoutRetriggers } from "./takes.ts";
import { UsageError } from "./usageError.ts";

const MIDI_ENDINGS = new Set([".mid", ".midi", ".smf"]);

/** What references are read with. */
interface Reading {
  readonly map: KitMap;
  readonly outlet: Outlet;
}

/** A stock, and whether every reference it was to be made of could be read. */
export interface ReadStock {
  readonly stock: Stock;
  readonly complete: boolean;
}

/**
 * Reads a shelf. A reference that cannot be read is said on standard error and left out.
 *
 * @throws UsageError when the folder cannot be opened or no groove in it can be used.
 */
export async function readShelf(folder: string, how: Reading): Promise<ReadStock> {
  const { references, complete } = await readReferences("--shelf", folder, how);
  const stock = shelfStock(references);
  const used = new Set(stock.grooves.map(({ id }) => id));
  const allUsed = sayUnused("--shelf", folder, references, used, how.outlet);
  return { stock, complete: complete && allUsed };
}

/**
 * Reads the player's own earlier takes, laid out as a shelf: those named as a groove of the stock join it, others are
 * grooves of their own. A take that cannot be read is said on standard error and left out.
 *
 * @throws UsageError when the folder cannot be opened or no take in it can be used.
 */
export async function readOwnTakes(
  folder: string,
  { stock, ...how }: Reading & ReadStock,
): Promise<ReadStock> {
  const { references, complete } = await readReferences("--own", folder, how);
  const more = withOwnTakes(stock, references);
  const used = new Set(more.grooves.filter((groove) => !stock.grooves.includes(groove)).map(({ id }) => id));
  const allUsed = sayUnused("--own", folder, references, used, how.outlet);
  return { stock: more, complete: how.complete && complete && allUsed };
}

type FolderOption = "--shelf" | "--own";

async function readReferences(
  option: FolderOption,
  folder: string,
  { map, outlet }: Reading,
): Promise<{ readonly references: readonly ReferenceGroove[]; readonly complete: boolean }> {
  const references: ReferenceGroove[] = [];
  let complete = true;
  for (const { id, paths } of await groovesIn(option, folder)) {
    const takes: (readonly Hit[])[] = [];
    for (const path of paths) {
      try {
        takes.push(withoutRetriggers((await readTake(path, map)).hits));
      } catch (error) {
        if (!(error instanceof TakeError)) throw error;
        complete = false;
        outlet.complain(`${path}: ${error.message}`);
      }
    }
    references.push({ id, name: id, takes });
  }
  return { references, complete };
}

/** @returns whether all references were used. @throws UsageError when none was. */
function sayUnused(
  option: FolderOption,
  folder: string,
  references: readonly ReferenceGroove[],
  used: ReadonlySet<string>,
  outlet: Outlet,
): boolean {
  const unused = references.filter(({ id }) => !used.has(id));
  for (const { id } of unused)
    outlet.complain(`${join(folder, id)}: no pulse can be heard in its takes; it is left out.`);
  if (used.size === 0) throw new UsageError(`${option} ${folder}: no groove in it can be used.`);
  return unused.length === 0;
}

interface GrooveFiles {
  readonly id: string;
  readonly paths: readonly string[];
}

async function groovesIn(option: FolderOption, folder: string): Promise<readonly GrooveFiles[]> {
  // A file and a folder of one name are one groove.
  const pathsOf = new Map<string, string[]>();
  const add = (id: string, ...paths: readonly string[]): void => {
    if (paths.length > 0) pathsOf.set(id, [...(pathsOf.get(id) ?? []), ...paths]);
  };
  for (const entry of await listed(option, folder)) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) {
      const files = (await listed(option, path)).filter((file) => isMidi(file.name));
      add(entry.name, ...files.map((file) => join(path, file.name)));
    } else if (isMidi(entry.name)) {
      add(basename(entry.name, extname(entry.name)), path);
    }
  }
  return [...pathsOf].map(([id, paths]) => ({ id, paths }));
}

async function listed(option: FolderOption, folder: string) {
  try {
    const entries = await readdir(folder, { withFileTypes: true });
    return entries.sort((a, b) => (a.name < b.name ? -1 : 1));
  } catch (cause) {
    throw new UsageError(`${option} ${folder}: the folder cannot be opened.`, { cause });
  }
}

function isMidi(name: string): boolean {
  return MIDI_ENDINGS.has(extname(name).toLowerCase());
}
