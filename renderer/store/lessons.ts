/** What is asked of the lessons that are kept. Each question is answered from an index; broken rows are set aside. */
import { Dexie } from "dexie";
import {
  hitChunkSchema,
  type LessonRecord,
  lessonSchema,
  type StoredTake,
  storedEventSchema,
  storedTakeSchema,
  unpackHits,
} from "../../engine/records/index.ts";
import type { SessionEvent } from "../../engine/session/index.ts";
import { readRows, setAside, told } from "./readRows.ts";
import type { StudioDatabase } from "./studioDatabase.ts";

/** All that is kept of one lesson, in order. */
export interface LessonRead {
  readonly events: readonly SessionEvent[];
  /** Rows that could not be read and were set aside now, and rows of a newer version of the program. */
  readonly setAside: number;
  readonly newer: number;
}

/** A student's lessons, newest first. */
export async function lessonsOfStudent(
  database: StudioDatabase,
  studentId: string,
  most = Number.POSITIVE_INFINITY,
): Promise<readonly LessonRecord[]> {
  // Under one student the index is in the order of ids, which is that of time.
  const found = database.lessons.where("studentIds").equals(studentId).reverse();
  const rows = await told(() => (Number.isFinite(most) ? found.limit(most) : found).toArray());
  return (await readRows(database, database.lessons, lessonSchema, rows)).values;
}

/** The lessons of a day of the studio's calendar, in order. */
export async function lessonsOfDay(database: StudioDatabase, day: string): Promise<readonly LessonRecord[]> {
  const rows = await told(() => database.lessons.where("day").equals(day).sortBy("id"));
  return (await readRows(database, database.lessons, lessonSchema, rows)).values;
}

/** The latest lesson of each student who has had one. */
export async function latestLessons(
  database: StudioDatabase,
  studentIds: readonly string[],
): Promise<ReadonlyMap<string, LessonRecord>> {
  const rows = await told(() =>
    database.transaction("r", database.lessons, () =>
      Promise.all(studentIds.map((id) => database.lessons.where("studentIds").equals(id).last())),
    ),
  );
  const read = await readRows(
    database,
    database.lessons,
    lessonSchema,
    rows.filter((row) => row !== undefined),
  );
  const byId = new Map(read.values.map((lesson) => [lesson.id, lesson]));
  return new Map(
    studentIds.flatMap((id, index) => {
      const lesson = byId.get(rows[index]?.id ?? "");
      return lesson ? [[id, lesson] as const] : [];
    }),
  );
}

/** The lesson as lists show it; `undefined` when there is none of that id. */
export async function lessonOf(
  database: StudioDatabase,
  lessonId: string,
): Promise<LessonRecord | undefined> {
  const row = await told(() => database.lessons.get(lessonId));
  if (row === undefined) return undefined;
  return (await readRows(database, database.lessons, lessonSchema, [row])).values[0];
}

/**
 * The events of a lesson, in order, strikes among them: for {@link lessonState}.
 *
 * @param afterSeq only those after this one: a page that follows a lesson asks for what is new.
 */
export async function readLesson(
  database: StudioDatabase,
  lessonId: string,
  afterSeq = 0,
): Promise<LessonRead> {
  const [eventRows, chunkRows] = await told(() =>
    database.transaction("r", database.events, database.hits, () =>
      Promise.all([
        database.events
          .where("[lessonId+seq]")
          .between([lessonId, afterSeq + 1], [lessonId, Dexie.maxKey])
          .toArray(),
        // A chunk begins with its first strike; one that begins earlier may still hold later ones.
        afterSeq === 0
          ? database.hits
              .where("[lessonId+fromSeq]")
              .between([lessonId, 0], [lessonId, Dexie.maxKey])
              .toArray()
          : database.hits
              .where("[lessonId+fromSeq]")
              .between([lessonId, 0], [lessonId, Dexie.maxKey])
              .filter(({ toSeq }) => toSeq > afterSeq)
              .toArray(),
      ]),
    ),
  );
  const others = await readRows(database, database.events, storedEventSchema, eventRows);
  const chunks = await readRows(database, database.hits, hitChunkSchema, chunkRows);
  const hits: SessionEvent[] = [];
  const broken: { readonly row: unknown; readonly why: string }[] = [];
  for (const chunk of chunks.values) {
    try {
      for (const event of unpackHits(chunk)) if (event.seq > afterSeq) hits.push(event);
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      broken.push({ row: chunk, why: error.message });
    }
  }
  await setAside(database, database.hits, broken);
  return {
    events: inOrder([...others.values.map(({ event }) => event), ...hits]),
    setAside: others.setAside + chunks.setAside + broken.length,
    newer: others.newer + chunks.newer,
  };
}

/** Events in order, each once: where a restored row overlaps one that was there, strikes stand in both. */
export function inOrder<Event extends Pick<SessionEvent, "seq">>(events: readonly Event[]): readonly Event[] {
  const sorted = [...events].sort((a, b) => a.seq - b.seq);
  return sorted.filter(({ seq }, index) => seq !== sorted[index - 1]?.seq);
}

/** A student's takes, newest first. */
export async function takesOfStudent(
  database: StudioDatabase,
  studentId: string,
  most = Number.POSITIVE_INFINITY,
): Promise<readonly StoredTake[]> {
  const found = database.takes
    .where("[studentId+at]")
    .between([studentId, Dexie.minKey], [studentId, Dexie.maxKey])
    .reverse();
  const rows = await told(() => (Number.isFinite(most) ? found.limit(most) : found).toArray());
  return (await readRows(database, database.takes, storedTakeSchema, rows)).values;
}

/** A student's takes of one groove, by its id, oldest first: to be laid side by side over the months. */
export async function takesOfGroove(
  database: StudioDatabase,
  studentId: string,
  grooveId: string,
): Promise<readonly StoredTake[]> {
  const rows = await told(() =>
    database.takes
      .where("[studentId+groove.id+at]")
      .between([studentId, grooveId, Dexie.minKey], [studentId, grooveId, Dexie.maxKey])
      .toArray(),
  );
  return (await readRows(database, database.takes, storedTakeSchema, rows)).values;
}

/** The takes of a lesson, in order. */
export async function takesOfLesson(
  database: StudioDatabase,
  lessonId: string,
): Promise<readonly StoredTake[]> {
  const rows = await told(() => database.takes.where("lessonId").equals(lessonId).sortBy("fromSeconds"));
  return (await readRows(database, database.takes, storedTakeSchema, rows)).values;
}
