/**
 * Reading what was kept: every row says the version it was written in. One of an earlier version is brought up, step by
 * step, before its schema is asked; one of a later version is left alone.
 */
import { z } from "zod";
import { levelOfJudgement, levelOfTake } from "./levelKept.ts";
import type { Step } from "./step.ts";

/**
 * The steps of one kind of row, from the first version on: rows are written in the version after the last of them. Each
 * sets `version` itself.
 */
export type Steps = readonly Step[];

/** Rows that are of version 1 still. */
const NO_STEPS: Steps = [];

/** 2: steps of rounds are among the events; all others are as they were. 3: a judgement says the student's level then. */
const EVENT_STEPS: Steps = [(row) => ({ ...row, version: 2 }), levelOfJudgement];

/** 2: a take says the student's level then. */
const TAKE_STEPS: Steps = [levelOfTake];

/**
 * The steps of each kind of row, by the name of its table; `archivedHits` are the strikes of an archive, which holds them
 * otherwise than the database.
 *
 * What a change of a schema needs: the new version in the schema, a step here, and the snapshot and a fixture of the new
 * version, which `tests/engine/records/versions.test.ts` asks for. Where an index lies over what has changed, the database
 * needs a version of its own as well.
 */
export const ROW_STEPS = {
  students: NO_STEPS,
  groups: NO_STEPS,
  entries: NO_STEPS,
  lessons: NO_STEPS,
  events: EVENT_STEPS,
  hits: NO_STEPS,
  archivedHits: NO_STEPS,
  takes: TAKE_STEPS,
  results: NO_STEPS,
  listChanges: NO_STEPS,
} as const satisfies Readonly<Record<string, Steps>>;
export type RowKind = keyof typeof ROW_STEPS;

/** The steps of the rows of a table; none for a table whose rows have no versions. */
export function stepsOf(table: string): Steps {
  const steps: Readonly<Record<string, Steps>> = ROW_STEPS;
  return steps[table] ?? NO_STEPS;
}

export type Reading<Value> =
  | { readonly kind: "read"; readonly value: Value }
  /** Written by a program that comes after this one: not broken, only not for us. */
  | { readonly kind: "newer"; readonly version: number }
  | { readonly kind: "broken"; readonly why: string };

const versioned = z.looseObject({ version: z.int().min(1) });

/**
 * A kept row, told apart by whether it can be read.
 *
 * @param steps of its kind: {@link stepsOf}.
 * @example
 * readRow(groupSchema, { version: 2 }, stepsOf("groups")) // => { kind: "newer", version: 2 }
 */
export function readRow<Value>(schema: z.ZodType<Value>, row: unknown, steps: Steps): Reading<Value> {
  const { data: said } = versioned.safeParse(row);
  if (said && said.version > steps.length + 1) return { kind: "newer", version: said.version };
  let current = row;
  try {
    if (said)
      current = steps.slice(said.version - 1).reduce((older, step) => step(older), said as ReturnType<Step>);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return { kind: "broken", why: `It cannot be brought up from version ${said?.version}: ${why}` };
  }
  const read = schema.safeParse(current);
  return read.success
    ? { kind: "read", value: read.data }
    : { kind: "broken", why: z.prettifyError(read.error) };
}
