/**
 * The studio's archive: what is kept, as lines of JSON in UTF-8, each ending in a line feed (JSON Lines).
 *
 * The first line says what it is. Then come rows, each with the name of its table, in blocks; after each block a `check`
 * with the number of its rows and a SHA-256 (FIPS 180-4) over the check before it (its 32 bytes; none before the first)
 * and the block's bytes, so that a block that is changed, lost or moved is noticed where it happens. The last line is the
 * `end`, with the number of rows in all and by table, and the last check's sum again: without it the file is cut off.
 *
 * `archive.schema.json` says the same as JSON Schema (draft 2020-12) of a line.
 */
import { z } from "zod";
import { shelfEntrySchema } from "../../catalogue/index.ts";
import { VOICES, ZONES } from "../../kit/index.ts";
import { listChangeSchema } from "../../memory/index.ts";
import {
  groupSchema,
  type HitChunk,
  type HitEvent,
  lessonSchema,
  packHits,
  storedEventSchema,
  storedResultSchema,
  storedTakeSchema,
  studentSchema,
  unpackHits,
} from "../../records/index.ts";
import { idSchema, instantSchema } from "../../session/index.ts";

export const ARCHIVE_VERSION = 1;

const count = z.int().min(0);
const sha256 = z.string().regex(/^[0-9a-f]{64}$/);
const share = z.number().min(0).max(1);

/** Strikes by columns: the first of each column is the first strike's. */
export const archivedHitsSchema = z
  .strictObject({
    version: z.literal(1),
    lessonId: idSchema,
    seq: z.array(z.int().min(1)).min(1).readonly(),
    /** Seconds on the lesson's clock. */
    time: z.array(z.number()).readonly(),
    lane: z.array(z.int().min(0).max(31)).readonly(),
    voice: z.array(z.enum(VOICES)).readonly(),
    zone: z.array(z.enum(ZONES)).readonly(),
    velocity: z.array(share).readonly(),
    /** `null` where the kit did not say how far the hi-hat was open. */
    openness: z.array(share.nullable()).readonly(),
    /** MIDI key number. */
    pad: z.array(z.int().min(0).max(127)).readonly(),
  })
  .refine(
    ({ seq, time, lane, voice, zone, velocity, openness, pad }) =>
      [time, lane, voice, zone, velocity, openness, pad].every(({ length }) => length === seq.length),
    "the columns differ in length",
  )
  .readonly();
export type ArchivedHits = z.infer<typeof archivedHitsSchema>;

/** A row that could not be read, kept as it was. */
export const setAsideSchema = z.object({ table: z.string(), row: z.unknown(), why: z.string() }).readonly();

/** The tables of an archive, each with the schema of its rows. */
export const ARCHIVE_TABLES = {
  students: studentSchema,
  groups: groupSchema,
  entries: shelfEntrySchema.readonly(),
  lessons: lessonSchema,
  events: storedEventSchema,
  hits: archivedHitsSchema,
  takes: storedTakeSchema,
  results: storedResultSchema,
  listChanges: listChangeSchema,
  setAside: setAsideSchema,
} as const;
export type ArchiveTable = keyof typeof ARCHIVE_TABLES;
export const ARCHIVE_TABLE_NAMES = Object.keys(ARCHIVE_TABLES) as readonly ArchiveTable[];

/** A row of an archive, with the table it is of. */
export type ArchiveRow = {
  readonly [Table in ArchiveTable]: {
    readonly table: Table;
    readonly row: z.infer<(typeof ARCHIVE_TABLES)[Table]>;
  };
}[ArchiveTable];

export const archiveHeadSchema = z
  .object({
    throneside: z.literal("archive"),
    version: z.literal(ARCHIVE_VERSION),
    madeAt: instantSchema,
    /** Version of the program that wrote it. */
    program: z.string().max(40),
    /** Of the whole studio, or of some students or lessons only. */
    of: z.discriminatedUnion("kind", [
      z.object({ kind: z.literal("studio") }),
      z.object({ kind: z.literal("students"), studentIds: z.array(idSchema).readonly() }),
      z.object({ kind: z.literal("lessons"), lessonIds: z.array(idSchema).readonly() }),
    ]),
  })
  .readonly();
export type ArchiveHead = z.infer<typeof archiveHeadSchema>;

export const archiveCheckSchema = z.strictObject({ check: z.strictObject({ rows: count, sha256 }) });
export const archiveEndSchema = z.strictObject({
  end: z.strictObject({
    rows: count,
    tables: z.partialRecord(z.enum(ARCHIVE_TABLE_NAMES), count),
    sha256,
  }),
});

const rowLines = ARCHIVE_TABLE_NAMES.map((table) =>
  z.strictObject({ table: z.literal(table), row: ARCHIVE_TABLES[table] }),
);

/** Any line of an archive. */
export const archiveLineSchema = z.union([
  archiveHeadSchema,
  ...rowLines,
  archiveCheckSchema,
  archiveEndSchema,
]);

/** A chunk of strikes, by columns. @throws RangeError when its bytes cannot be read. */
export function archivedHits(chunk: HitChunk): ArchivedHits {
  const events = unpackHits(chunk);
  return {
    version: 1,
    lessonId: chunk.lessonId,
    seq: events.map(({ seq }) => seq),
    time: events.map(({ time }) => time),
    lane: events.map(({ lane }) => lane),
    voice: events.map(({ hit }) => hit.voice),
    zone: events.map(({ hit }) => hit.zone),
    velocity: events.map(({ hit }) => hit.velocity),
    openness: events.map(({ hit }) => hit.openness ?? null),
    pad: events.map(({ hit }) => hit.pad),
  };
}

/** Archived strikes as a chunk again. */
export function chunkOf(hits: ArchivedHits): HitChunk {
  const { voice, zone, velocity, openness, pad, time, lane } = hits;
  const events = hits.seq.map((seq, index): HitEvent => {
    const at = time[index] ?? 0;
    const open = openness[index] ?? null;
    const hit = {
      time: at,
      voice: voice[index] ?? "unknown",
      zone: zone[index] ?? "whole",
      velocity: velocity[index] ?? 0,
      ...(open === null ? {} : { openness: open }),
      pad: pad[index] ?? 0,
    };
    return { kind: "hit", seq, time: at, lane: lane[index] ?? 0, hit };
  });
  return packHits(hits.lessonId, events);
}
