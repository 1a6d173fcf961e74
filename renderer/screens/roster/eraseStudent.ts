/**
 * Erases a student: every row about them, their part of the lessons they shared, and their name where others' rows say it.
 * Begun and broken off, it is begun again and ends the same: the student's own row goes last.
 */
import { Dexie, type Table } from "dexie";
import type { z } from "zod";
import { type ShelfEntry, shelfEntrySchema } from "../../../engine/catalogue/index.ts";
import { listChangeSchema } from "../../../engine/memory/index.ts";
import {
  groupSchema,
  type LessonRecord,
  lessonRecord,
  lessonSchema,
  rowsOf,
  type Student,
  storedEventSchema,
  storedResultSchema,
  storedTakeSchema,
  studentSchema,
} from "../../../engine/records/index.ts";
import { lessonState, localDay } from "../../../engine/session/index.ts";
import { asOfNow, readLesson, StoreError, type StudioDatabase, told } from "../../store/index.ts";
import { type HideName, rowHidden } from "./hideName.ts";
import { nameHider, withoutStudent } from "./withoutStudent.ts";

/** Keeps an entry of the Shelf that has lost a name. */
export type KeepEntry = (entry: ShelfEntry) => Promise<void>;

/** What would be erased. */
export interface Erasing {
  /** Lessons of this student alone; they go whole. */
  readonly alone: number;
  /** Lessons with others: this student's part goes. */
  readonly shared: number;
  readonly takes: number;
  readonly results: number;
  readonly listChanges: number;
}

/** Looks at what would be erased. @throws StoreError */
export async function lookAtErasing(database: StudioDatabase, studentId: string): Promise<Erasing> {
  return told(async () => {
    const lessons = await lessonsWith(database, studentId);
    const [takes, results, listChanges] = await Promise.all(
      [database.takes, database.results, database.listChanges].map((table) =>
        table.where("[studentId+at]").between([studentId, Dexie.minKey], [studentId, Dexie.maxKey]).count(),
      ),
    );
    const shared = lessons.filter((lesson) => isShared(lesson, studentId)).length;
    return {
      alone: lessons.length - shared,
      shared,
      takes: takes ?? 0,
      results: results ?? 0,
      listChanges: listChanges ?? 0,
    };
  });
}

async function lessonsWith({ lessons }: StudioDatabase, studentId: string): Promise<readonly LessonRecord[]> {
  const rows = await lessons.where("studentIds").equals(studentId).toArray();
  return rows.map((row) => asOfNow(lessons, lessonSchema, row));
}

function isShared({ studentIds }: LessonRecord, studentId: string): boolean {
  return studentIds.some((id) => id !== studentId);
}

/**
 * Erases. Not while a lesson of the student is on.
 *
 * @param others students who stay: a nickname that one of them has too is left in texts, since it may mean that one.
 * @param keepEntry for entries of the Shelf that are named after the student.
 * @param onProgress lessons done, of so many.
 * @throws StoreError; what was erased until then stays erased. Nothing is, where a lesson with others holds rows of a newer
 *   version of the program: it could not be written anew without losing what is the others'.
 */
export async function eraseStudent(
  database: StudioDatabase,
  student: Student,
  others: readonly Student[],
  keepEntry: KeepEntry,
  onProgress: (done: number, of: number) => void = () => {},
): Promise<void> {
  const { id, nickname } = student;
  const isNameOfAnother = others.some(
    (other) => other.id !== id && other.nickname.toLocaleLowerCase() === nickname.toLocaleLowerCase(),
  );
  const hide = isNameOfAnother ? (text: string) => text : nameHider(nickname);
  const lessons = await told(() => lessonsWith(database, id));
  for (const lesson of lessons) if (isShared(lesson, id)) await refuseNewer(database, lesson);
  for (const [index, lesson] of lessons.entries()) {
    await (isShared(lesson, id)
      ? erasePart(database, lesson.id, id, hide)
      : eraseLesson(database, lesson.id));
    onProgress(index + 1, lessons.length);
  }
  await eraseRows(database, id);
  await hideNameInRows(database, id, hide);
  await hideNameOnShelf(database, hide, keepEntry);
  await told(() => database.students.delete(id));
}

/** @throws StoreError where a lesson cannot be read whole, because a newer version of the program wrote in it. */
async function refuseNewer(database: StudioDatabase, { id, day }: LessonRecord): Promise<void> {
  const { newer } = await readLesson(database, id);
  if (newer === 0) return;
  throw new StoreError(
    `The lesson of ${day}, which was shared with others, was written by a newer version of the program. Nothing was erased; erase with that version.`,
  );
}

/** All of one lesson. @throws StoreError */
export async function eraseLesson(database: StudioDatabase, lessonId: string): Promise<void> {
  await told(() =>
    database.transaction("rw", tablesOfLessons(database), () => eraseWithin(database, lessonId)),
  );
}

function tablesOfLessons({ lessons, events, hits, takes, results }: StudioDatabase) {
  return [lessons, events, hits, takes, results];
}

/** Within a transaction over {@link tablesOfLessons}. */
async function eraseWithin(database: StudioDatabase, lessonId: string): Promise<void> {
  const { lessons, events, hits, takes, results } = database;
  await events.where("[lessonId+seq]").between([lessonId, Dexie.minKey], [lessonId, Dexie.maxKey]).delete();
  await hits.where("[lessonId+fromSeq]").between([lessonId, Dexie.minKey], [lessonId, Dexie.maxKey]).delete();
  await takes.where("lessonId").equals(lessonId).delete();
  await results
    .where("[lessonId+seq+place]")
    .between([lessonId, Dexie.minKey, Dexie.minKey], [lessonId, Dexie.maxKey, Dexie.maxKey])
    .delete();
  await lessons.delete(lessonId);
}

/** A lesson that was shared is written anew, without this student: whole or not at all, since others' playing is in it. */
async function erasePart(
  database: StudioDatabase,
  lessonId: string,
  studentId: string,
  hide: HideName,
): Promise<void> {
  const { events } = await readLesson(database, lessonId);
  const left = withoutStudent(events, studentId, hide);
  const state = lessonState(left);
  const { began } = state;
  const record = lessonRecord(state);
  await told(() =>
    database.transaction("rw", tablesOfLessons(database), async () => {
      await eraseWithin(database, lessonId);
      if (!began || !record) return;
      const rows = rowsOf(lessonId, localDay(began.at, began.zone), left);
      await database.events.bulkPut(rows.events);
      await database.hits.bulkPut(rows.hits);
      await database.takes.bulkPut(rows.takes);
      await database.results.bulkPut(rows.results);
      await database.lessons.put(record);
    }),
  );
}

/** Rows of the student's own that hang on no lesson, and the student's places in groups. */
async function eraseRows(database: StudioDatabase, id: string): Promise<void> {
  const { takes, results, listChanges, groups } = database;
  await told(() =>
    database.transaction("rw", [takes, results, listChanges, groups], async () => {
      for (const table of [takes, results, listChanges])
        await table.where("[studentId+at]").between([id, Dexie.minKey], [id, Dexie.maxKey]).delete();
      const ofStudent = await groups.where("studentIds").equals(id).toArray();
      await groups.bulkPut(
        ofStudent
          .map((group) => asOfNow(groups, groupSchema, group))
          .map((group) => ({ ...group, studentIds: group.studentIds.filter((each) => each !== id) })),
      );
    }),
  );
}

/** The name where others' rows say it; rows that were set aside, and settings, where they speak of the student. */
async function hideNameInRows(database: StudioDatabase, id: string, hide: HideName): Promise<void> {
  const { students, groups, listChanges, events, takes, results, settings, setAside } = database;
  await told(async () => {
    await hideInTable(students, studentSchema, hide, (row) => row.id !== id);
    await hideInTable(groups, groupSchema, hide);
    await hideInTable(listChanges, listChangeSchema, hide);
    await hideInTable(takes, storedTakeSchema, hide);
    await hideInTable(results, storedResultSchema, hide);
    await hideInTable(events, storedEventSchema, hide);
    for (const row of await settings.toArray())
      if (JSON.stringify(row).includes(id)) await settings.delete(row.name);
    for (const { number, row } of await setAside.toArray())
      if (number !== undefined && (rowHidden(row, hide) !== row || JSON.stringify(row).includes(id)))
        await setAside.delete(number);
  });
}

/** Rows of an earlier version are brought up first: names are looked for where this version has them. */
async function hideInTable<Row, Key>(
  table: Table<Row, Key>,
  schema: z.ZodType<Row>,
  hide: HideName,
  isMeant: (row: Row) => boolean = () => true,
): Promise<void> {
  await table
    .filter((row) => {
      const now = asOfNow(table, schema, row);
      return isMeant(now) && rowHidden(now, hide) !== now;
    })
    .modify((row, place) => {
      place.value = rowHidden(asOfNow(table, schema, row), hide);
    });
}

async function hideNameOnShelf(
  { entries }: StudioDatabase,
  hide: HideName,
  keepEntry: KeepEntry,
): Promise<void> {
  for (const { bareNames: _, ...row } of await told(() => entries.toArray())) {
    const entry = asOfNow(entries, shelfEntrySchema, row);
    const after = rowHidden(entry, hide);
    if (after !== entry) await keepEntry(after);
  }
}
