/** The kinds of rows with their schemas, and where the rows and the shape of each version are kept. */
import { resolve } from "node:path";
import type { z } from "zod";
import { ARCHIVE_TABLES } from "../../../engine/formats/index.ts";
import { hitChunkSchema, ROW_STEPS, type RowKind } from "../../../engine/records/index.ts";

const { hits: archivedHits, setAside: _, ...rows } = ARCHIVE_TABLES;

export const ROW_SCHEMAS: Readonly<Record<RowKind, z.ZodType>> = {
  ...rows,
  hits: hitChunkSchema,
  archivedHits,
};

/** The version rows of a kind are written in. */
export function versionOf(kind: RowKind): number {
  return ROW_STEPS[kind].length + 1;
}

/** A list of rows as that version wrote them; bytes as numbers. */
export function rowsFile(kind: RowKind, version: number): string {
  return resolve(import.meta.dirname, `../../fixtures/records/${kind}.v${version}.json`);
}

/** The JSON Schema (draft 2020-12) of that version's rows. */
export function shapeFile(kind: RowKind, version: number): string {
  return resolve(import.meta.dirname, `../../fixtures/records/${kind}.v${version}.schema.json`);
}
