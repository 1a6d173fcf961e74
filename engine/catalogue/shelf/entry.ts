/**
 * An entry of the Shelf, the studio's library: what is written, what the studio calls it, and where it came from.
 */
import { z } from "zod";
import { GridError, LEVELS } from "../../score/index.ts";
import {
  ENTRY_KINDS,
  type EntryKind,
  printWritten,
  readWritten,
  sizeOf,
  under,
  type Written,
} from "./written.ts";

/** Longer names cannot be read at a glance. Our choice. */
export const LONGEST_NAME = 120;
/** What else the studio calls it. Our choice: more is a list nobody reads. */
export const MOST_OTHER_NAMES = 12;
/** A part of a long tune on sixty-fourths is some 200 kB. Our choice, so that a slip fills no disk. */
export const LONGEST_GRID = 1_000_000;

const name = z.string().min(1).max(LONGEST_NAME);

const cameFrom = z.discriminatedUnion("kind", [
  /** The program's own stock: read only, copied to be changed. */
  z.object({ kind: z.literal("catalogue") }),
  z.object({ kind: z.literal("written") }),
  z.object({ kind: z.literal("recorded") }),
  z.object({
    kind: z.literal("imported"),
    /** Name of the file, with the folders above it as they were handed over. */
    file: z.string().max(1000),
    /** Bar of the file, from 1, at which it stands. */
    bar: z.int().min(1),
  }),
  z.object({ kind: z.literal("copied"), of: z.string(), name: z.string() }),
]);

/** Version 1 of an entry as it is kept. What is heard or drawn is read from `grid`. */
export const shelfEntrySchema = z.object({
  version: z.literal(1),
  id: z.string().regex(/^[a-z0-9]+([-/][a-z0-9]+)*$/),
  kind: z.enum(ENTRY_KINDS),
  name,
  /** What the studio knows it by: "the one from lesson three". */
  alsoNamed: z.array(name).max(MOST_OTHER_NAMES).readonly(),
  /** Id of a style of the catalogue; `null` where it is of none. */
  styleId: z.string().nullable(),
  metre: z.object({ numerator: z.int().min(1).max(99), denominator: z.int() }).readonly(),
  level: z.enum(LEVELS).nullable(),
  tempoBpm: z.object({ low: z.number().positive(), high: z.number().positive() }).readonly(),
  bars: z.int().min(1),
  /** The canonical grid text. */
  grid: z.string().min(1).max(LONGEST_GRID),
  from: cameFrom.readonly(),
  /** Milliseconds since 1970, UTC. */
  madeAtMs: z.number().min(0),
  changedAtMs: z.number().min(0),
});

export type ShelfEntry = Readonly<z.infer<typeof shelfEntrySchema>>;
export type CameFrom = ShelfEntry["from"];

/** What is said of an entry besides the music. */
export interface AboutEntry {
  readonly id: string;
  readonly name: string;
  readonly alsoNamed?: readonly string[];
  readonly styleId?: string | null;
  /** Of a fill it stands in the grid text. */
  readonly level?: ShelfEntry["level"];
  readonly from: CameFrom;
  readonly madeAtMs: number;
  readonly changedAtMs?: number;
}

/** Thrown when something cannot be an entry. The message is a sentence for the teacher. */
export class EntryError extends Error {
  override readonly name = "EntryError";
}

/**
 * An entry of what is written.
 *
 * @throws EntryError when a name cannot be kept, or the music is too long.
 * @example
 * const about = { id: "own/1", name: " Lesson three ", from: { kind: "written" }, madeAtMs: 0 };
 * shelfEntry({ kind: "groove", music: groove }, about).name // => "Lesson three"
 */
export function shelfEntry(written: Written, about: AboutEntry): ShelfEntry {
  const trimmed = about.name.trim();
  const alsoNamed = otherNames(about.alsoNamed ?? [], trimmed);
  for (const each of [trimmed, ...alsoNamed]) refuseName(each);
  const named = under(written, { id: about.id, name: trimmed });
  const grid = printWritten(named);
  if (grid.length > LONGEST_GRID)
    throw new EntryError(
      `"${trimmed}" is too long to keep: written out it has ${grid.length} characters; at most ${LONGEST_GRID} can be kept.`,
    );
  refuseUnreadable(named.kind, grid, trimmed);
  const { metre, tempoBpm, bars } = sizeOf(named);
  return {
    version: 1,
    id: about.id,
    kind: named.kind,
    name: trimmed,
    alsoNamed,
    styleId: about.styleId ?? null,
    metre,
    level: named.kind === "fill" ? named.music.level : (about.level ?? null),
    tempoBpm,
    bars,
    grid,
    from: about.from,
    madeAtMs: about.madeAtMs,
    changedAtMs: about.changedAtMs ?? about.madeAtMs,
  };
}

/** What is kept must be read again: a metre or a place that the grid text has no way to write is told before. */
function refuseUnreadable(kind: EntryKind, grid: string, name: string): void {
  try {
    readWritten(kind, grid);
  } catch (error) {
    if (!(error instanceof GridError)) throw error;
    throw new EntryError(`"${name}" cannot be written in the grid text. ${error.message}`, { cause: error });
  }
}

/** The music of an entry. @throws GridError when the kept text cannot be read. */
export function musicOf(entry: Pick<ShelfEntry, "kind" | "grid">): Written {
  return readWritten(entry.kind, entry.grid);
}

/** Each once, without empty ones and without the name itself. */
function otherNames(names: readonly string[], own: string): readonly string[] {
  const trimmed = names.map((each) => each.trim()).filter((each) => each !== "" && each !== own);
  const unique = [...new Set(trimmed)];
  if (unique.length > MOST_OTHER_NAMES)
    throw new EntryError(
      `At most ${MOST_OTHER_NAMES} other names can be kept; these are ${unique.length}. Leave some out.`,
    );
  return unique;
}

function refuseName(each: string): void {
  if (each === "") throw new EntryError("It has no name yet. Give it one, so that it can be found again.");
  if (each.length > LONGEST_NAME)
    throw new EntryError(
      `A name has at most ${LONGEST_NAME} characters; this one has ${each.length}. Shorten it.`,
    );
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for.
  if (/[\u0000-\u001f\u007f]/.test(each))
    throw new EntryError("A name is one line of letters; this one has a line break or a hidden sign in it.");
}

const KIND_NAMES: Readonly<Record<EntryKind, string>> = {
  groove: "groove",
  fill: "fill",
  phrase: "phrase",
  part: "drum part",
};

/** The kind as a teacher says it. */
export function kindName(kind: EntryKind): string {
  return KIND_NAMES[kind];
}

/** Whether an entry can be changed: those of the program's own stock are copied first. */
export function isOwn({ from }: Pick<ShelfEntry, "from">): boolean {
  return from.kind !== "catalogue";
}
