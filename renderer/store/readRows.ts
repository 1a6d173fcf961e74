/** Rows are checked as they are read: what cannot be read is moved out of the way, as it is, and the rest goes on. */
import type { Table } from "dexie";
import type { z } from "zod";
import { readRow, stepsOf } from "../../engine/records/index.ts";
import { storeErrorOf } from "./storeError.ts";
import type { StudioDatabase } from "./studioDatabase.ts";

export interface RowsRead<Value> {
  readonly values: readonly Value[];
  /** Rows that could not be read and were set aside now. */
  readonly setAside: number;
  /** Rows that a newer version of the program wrote; they stay where they are. */
  readonly newer: number;
}

/** Tells readable rows, brought up to this version, from others, and sets the broken ones aside. Not for use within a transaction. */
export async function readRows<Value, Row, Key>(
  database: StudioDatabase,
  table: Table<Row, Key>,
  schema: z.ZodType<Value>,
  rows: readonly unknown[],
): Promise<RowsRead<Value>> {
  const values: Value[] = [];
  const broken: { readonly row: unknown; readonly why: string }[] = [];
  let newer = 0;
  const steps = stepsOf(table.name);
  for (const row of rows) {
    const reading = readRow(schema, row, steps);
    if (reading.kind === "read") values.push(reading.value);
    else if (reading.kind === "newer") newer += 1;
    else broken.push({ row, why: reading.why });
  }
  await setAside(database, table, broken);
  return { values, setAside: broken.length, newer };
}

/**
 * A row brought up to this version, for changes that are made to rows in their table. One of this version, of a newer one, or
 * one that cannot be brought up is given back as it stands: within a change nothing is set aside.
 */
export function asOfNow<Row>(table: { readonly name: string }, schema: z.ZodType<Row>, row: Row): Row {
  const steps = stepsOf(table.name);
  if (versionOf(row) === steps.length + 1) return row;
  const reading = readRow(schema, row, steps);
  return reading.kind === "read" ? reading.value : row;
}

function versionOf(row: unknown): unknown {
  return typeof row === "object" && row !== null && "version" in row ? row.version : undefined;
}

/** Moves rows out of their table to those set aside, in one transaction. */
export async function setAside<Row, Key>(
  database: StudioDatabase,
  table: Table<Row, Key>,
  rows: readonly { readonly row: unknown; readonly why: string }[],
): Promise<void> {
  if (rows.length === 0) return;
  await database.transaction("rw", table, database.setAside, async () => {
    await database.setAside.bulkAdd(rows.map(({ row, why }) => ({ table: table.name, row, why })));
    for (const { row } of rows) await table.delete(keyOf(table, row));
  });
}

/** The key a row stands under: it has one, however broken it is otherwise. */
function keyOf<Row, Key>(table: Table<Row, Key>, row: unknown): Key {
  const { keyPath } = table.schema.primKey;
  const parts = (typeof keyPath === "string" ? [keyPath] : (keyPath ?? [])).map((part) =>
    typeof row === "object" && row !== null
      ? Object.entries(row).find(([name]) => name === part)?.[1]
      : undefined,
  );
  return (typeof keyPath === "string" ? parts[0] : parts) as Key;
}

/** Runs a piece of work on the storage; what goes wrong is told in a sentence. @throws StoreError */
export async function told<Value>(work: () => PromiseLike<Value>): Promise<Value> {
  try {
    return await work();
  } catch (error) {
    throw storeErrorOf(error);
  }
}
