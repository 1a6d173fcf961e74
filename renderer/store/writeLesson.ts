/** Writing a lesson down, a few events at a time; each time whole or not at all. */
import { Dexie } from "dexie";
import { z } from "zod";
import {
  type HitChunk,
  type HitEvent,
  hitChunkSchema,
  hitCount,
  type LessonRecord,
  lessonRecord,
  lessonSchema,
  packHits,
  readRow,
  rowsOf,
  stepsOf,
  unpackHits,
} from "../../engine/records/index.ts";
import { idSchema, type LessonState, localDay, type SessionEvent } from "../../engine/session/index.ts";
import { inOrder } from "./lessons.ts";
import { readRows, told } from "./readRows.ts";
import type { StudioDatabase } from "./studioDatabase.ts";

/** Strikes to a chunk, once a lesson's many small ones are joined. Our choice: a few minutes of playing, 74 kB. */
const STRIKES_TO_A_CHUNK = 4096;
/** Lessons that were not ended are looked for among the latest. Our choice. */
const LATEST_LESSONS = 20;
/**
 * The setting that names the lesson that is on: where the calendar of the computer was set back, it is not among the latest.
 */
const LESSON_ON = "lesson.on";
const lessonOnSchema = z.object({ value: idSchema });

/**
 * Writes events of a lesson. Written again, they are the same rows.
 *
 * @param events in order of `seq`, none left out since the last time.
 * @param state of the lesson after them.
 * @throws StoreError; then nothing of them is written.
 */
export async function writeEvents(
  database: StudioDatabase,
  state: LessonState,
  events: readonly SessionEvent[],
): Promise<void> {
  const { began } = state;
  if (!began || events.length === 0) return;
  const strikes = events.filter((event): event is HitEvent => event.kind === "hit");
  // A batch of strikes alone, the usual one, is one row of one table.
  if (strikes.length === events.length) {
    await told(() => database.hits.put(packHits(began.lessonId, strikes)));
    return;
  }
  const record = lessonRecord(state);
  const rows = rowsOf(began.lessonId, localDay(began.at, began.zone), events);
  const { events: eventTable, hits, takes, results, lessons, settings } = database;
  await told(() =>
    database.transaction("rw", [eventTable, hits, takes, results, lessons, settings], async () => {
      await eventTable.bulkPut(rows.events);
      if (rows.hits.length > 0) await hits.bulkPut(rows.hits);
      if (rows.takes.length > 0) await takes.bulkPut(rows.takes);
      if (rows.results.length > 0) await results.bulkPut(rows.results);
      if (record) await lessons.put(record);
      if (state.stage === "ended") {
        const on = await settings.get(LESSON_ON);
        if (on?.value === began.lessonId) await settings.delete(LESSON_ON);
      } else if (events.some(({ kind }) => kind === "lesson-began"))
        await settings.put({ name: LESSON_ON, value: began.lessonId });
    }),
  );
}

/**
 * Joins the small chunks a lesson was written in, so that it is read at once: the same strikes in fewer rows.
 *
 * @returns how many rows there are now.
 * @throws StoreError; then the rows are as they were.
 */
export async function joinChunks(database: StudioDatabase, lessonId: string): Promise<number> {
  const { hits } = database;
  return told(() =>
    database.transaction("rw", hits, async () => {
      const rows = await hits
        .where("[lessonId+fromSeq]")
        .between([lessonId, 0], [lessonId, Dexie.maxKey])
        .toArray();
      const small = rows.filter((chunk) => hitCount(chunk) < STRIKES_TO_A_CHUNK);
      if (small.length < 2) return rows.length;
      const strikes = readable(small);
      if (!strikes) return rows.length;
      const joined = inGroups(strikes).map((group) => packHits(lessonId, group));
      await hits.bulkDelete(small.map(({ fromSeq }): [string, number] => [lessonId, fromSeq]));
      await hits.bulkPut(joined);
      return rows.length - small.length + joined.length;
    }),
  );
}

/** The strikes of all chunks, in order; `null` where one cannot be read: then it is left for whoever reads the lesson. */
function readable(rows: readonly HitChunk[]): readonly HitEvent[] | null {
  const strikes: HitEvent[] = [];
  try {
    for (const row of rows) {
      const reading = readRow(hitChunkSchema, row, stepsOf("hits"));
      if (reading.kind !== "read") return null;
      strikes.push(...unpackHits(reading.value));
    }
    return inOrder(strikes);
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

function inGroups(strikes: readonly HitEvent[]): readonly (readonly HitEvent[])[] {
  const groups: (readonly HitEvent[])[] = [];
  for (let from = 0; from < strikes.length; from += STRIKES_TO_A_CHUNK)
    groups.push(strikes.slice(from, from + STRIKES_TO_A_CHUNK));
  return groups;
}

/** The lessons that have not ended, the one begun last before the others. */
export async function unendedLessons(database: StudioDatabase): Promise<readonly LessonRecord[]> {
  const [latest, setting] = await told(() =>
    Promise.all([
      database.lessons.orderBy("id").reverse().limit(LATEST_LESSONS).toArray(),
      database.settings.get(LESSON_ON),
    ]),
  );
  const on = lessonOnSchema.safeParse(setting).data?.value;
  const begunLast = on === undefined ? undefined : await told(() => database.lessons.get(on));
  const rows = begunLast ? [begunLast, ...latest.filter(({ id }) => id !== on)] : latest;
  const { values } = await readRows(database, database.lessons, lessonSchema, rows);
  return values.filter(({ endedAt }) => endedAt === null);
}
