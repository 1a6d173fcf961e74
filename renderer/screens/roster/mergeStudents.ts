/** Makes two students one, where the same person was put on the Roster twice; and the way to take that back. */
import { Dexie, type Table } from "dexie";
import type { z } from "zod";
import { type ListChange, listChangeSchema } from "../../../engine/memory/index.ts";
import {
  type Group,
  groupSchema,
  type LessonRecord,
  lessonSchema,
  type StoredEvent,
  type StoredResult,
  type StoredTake,
  type Student,
  storedEventSchema,
  storedResultSchema,
  storedTakeSchema,
} from "../../../engine/records/index.ts";
import { asOfNow, type StudioDatabase, told } from "../../store/index.ts";

/** The rows that merging changes, as they were before it, of whatever version. */
export interface BeforeMerging {
  readonly kept: Student;
  readonly gone: Student;
  readonly groups: readonly Group[];
  readonly lessons: readonly LessonRecord[];
  readonly events: readonly StoredEvent[];
  readonly takes: readonly StoredTake[];
  readonly results: readonly StoredResult[];
  readonly listChanges: readonly ListChange[];
}

/**
 * Everything of `gone` becomes of `kept`: lessons, takes, results, what was changed on the list, places in groups. Notes
 * are joined; all else that is said of the student is what was said of `kept`.
 *
 * @returns what {@link unmergeStudents} needs to take it back.
 * @throws StoreError; then nothing is changed.
 */
export async function mergeStudents(
  database: StudioDatabase,
  kept: Student,
  gone: Student,
): Promise<BeforeMerging> {
  const { students, groups, lessons, events, takes, results, listChanges } = database;
  return told(() =>
    database.transaction("rw", [students, groups, lessons, events, takes, results, listChanges], async () => {
      const range = [
        [gone.id, Dexie.minKey],
        [gone.id, Dexie.maxKey],
      ] as const;
      const lessonRows = await lessons.where("studentIds").equals(gone.id).toArray();
      const eventRows: StoredEvent[] = [];
      for (const { id } of lessonRows)
        eventRows.push(
          ...(await events.where("[lessonId+seq]").between([id, Dexie.minKey], [id, Dexie.maxKey]).toArray()),
        );
      const before: BeforeMerging = {
        kept,
        gone,
        groups: await groups.where("studentIds").equals(gone.id).toArray(),
        lessons: lessonRows,
        events: eventRows.filter((row) => isNamed(row, gone.id)),
        takes: await takes
          .where("[studentId+at]")
          .between(...range)
          .toArray(),
        results: await results
          .where("[studentId+at]")
          .between(...range)
          .toArray(),
        listChanges: await listChanges
          .where("[studentId+at]")
          .between(...range)
          .toArray(),
      };
      // Rows of an earlier version are brought up: ids are looked for where this version has them.
      const putAsKept = <Row, Key>(table: Table<Row, Key>, schema: z.ZodType<Row>, rows: readonly Row[]) =>
        table.bulkPut(rows.map((row) => renamed(asOfNow(table, schema, row), gone.id, kept.id)));
      await putAsKept(groups, groupSchema, before.groups);
      await putAsKept(lessons, lessonSchema, before.lessons);
      await putAsKept(events, storedEventSchema, before.events);
      await putAsKept(takes, storedTakeSchema, before.takes);
      await putAsKept(results, storedResultSchema, before.results);
      await putAsKept(listChanges, listChangeSchema, before.listChanges);
      await students.put({ ...kept, notes: joined(kept.notes, gone.notes) });
      await students.delete(gone.id);
      return before;
    }),
  );
}

/** Takes a merging back: the rows are as they were. What was played since stays with the one who was kept. @throws StoreError */
export async function unmergeStudents(database: StudioDatabase, before: BeforeMerging): Promise<void> {
  const { students, groups, lessons, events, takes, results, listChanges } = database;
  await told(() =>
    database.transaction("rw", [students, groups, lessons, events, takes, results, listChanges], async () => {
      await students.bulkPut([before.kept, before.gone]);
      await groups.bulkPut([...before.groups]);
      await lessons.bulkPut([...before.lessons]);
      await events.bulkPut([...before.events]);
      await takes.bulkPut([...before.takes]);
      await results.bulkPut([...before.results]);
      await listChanges.bulkPut([...before.listChanges]);
    }),
  );
}

function isNamed(row: unknown, id: string): boolean {
  return JSON.stringify(row).includes(JSON.stringify(id));
}

/** The row with one id for the other; who was in a list twice then is in it once. */
function renamed<Row>(row: Row, from: string, to: string): Row {
  return JSON.parse(JSON.stringify(row), (_, value: unknown) => {
    if (value === from) return to;
    if (Array.isArray(value) && value.length > 1 && value.every((each) => typeof each === "string"))
      return [...new Set(value)];
    return value;
  });
}

function joined(kept: string, gone: string): string {
  if (gone.trim() === "" || kept.includes(gone)) return kept;
  return kept.trim() === "" ? gone : `${kept}\n${gone}`.slice(0, 4000);
}
