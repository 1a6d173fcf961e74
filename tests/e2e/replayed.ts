/** Lessons for tests of Replay: played by the real engine, written as the real rows, put into the studio of a page. */
import { expect, type Page } from "@playwright/test";
import { lessonRecord, rowsOf, type Student } from "../../engine/records/index.ts";
import { lessonState, localDay, type SessionEvent } from "../../engine/session/index.ts";

export const BRAM: Student = {
  version: 1,
  id: "bram",
  nickname: "Bram",
  level: "steady",
  hand: "right",
  notes: "",
  archived: false,
  addedAt: "2026-01-01T10:00:00.000Z",
};

/** Rows by table; bytes as text in base 64, since a page is handed plain data, and numbers one by one take it many times as long. */
type Rows = Readonly<Record<string, readonly object[]>>;

function rowsOfLesson(events: readonly SessionEvent[]): Rows {
  const state = lessonState(events);
  const record = lessonRecord(state);
  if (!state.began || !record) throw new Error("A lesson begins with its beginning.");
  const rows = rowsOf(record.id, localDay(record.at, record.zone), events);
  const hits = rows.hits.map((chunk) => ({ ...chunk, bytes: Buffer.from(chunk.bytes).toString("base64") }));
  return { lessons: [record], events: rows.events, hits, takes: rows.takes, results: rows.results };
}

/** Where a lesson, or a moment of it, is in the program: to be turned to. */
export function linkTo(events: readonly SessionEvent[], seconds?: number): string {
  const [began] = events;
  if (began?.kind !== "lesson-began") throw new Error("A lesson begins with its beginning.");
  return `#/replay/${encodeURIComponent(began.lessonId)}${seconds === undefined ? "" : `/${seconds}`}`;
}

/** Puts lessons into the studio, as they would be there had they been played on this computer. */
export async function keepLessons(
  page: Page,
  lessons: readonly (readonly SessionEvent[])[],
  students: readonly Student[] = [BRAM],
): Promise<void> {
  await page.goto("./#/replay");
  await expect(page.getByText(/^No lesson is kept here yet\./)).toBeVisible();
  for (const rows of [{ students }, ...lessons.map(rowsOfLesson)]) {
    await page.evaluate(async (all) => {
      const database = await new Promise<IDBDatabase>((resolve, reject) => {
        const opening = indexedDB.open("throneside");
        opening.onsuccess = () => resolve(opening.result);
        opening.onerror = () => reject(opening.error);
      });
      const writing = database.transaction(Object.keys(all), "readwrite");
      for (const [table, those] of Object.entries(all))
        for (const row of those)
          writing
            .objectStore(table)
            .put(
              "bytes" in row
                ? { ...row, bytes: Uint8Array.from(atob(String(row.bytes)), (each) => each.charCodeAt(0)) }
                : row,
            );
      await new Promise<void>((resolve, reject) => {
        writing.oncomplete = () => resolve();
        writing.onabort = () => reject(writing.error);
      });
      database.close();
    }, rows as Rows);
  }
}
