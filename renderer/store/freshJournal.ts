/**
 * Lets the browser begin a fresh journal of its own, so that a studio outlives a program that was killed while it wrote.
 *
 * Chromium keeps IndexedDB in LevelDB, which writes each change to a journal first. A kill between the two writes of one
 * entry leaves half an entry at its end. The next opening passes over it and writes on behind it; the opening after that
 * takes the whole journal for corrupt, and Chromium then empties the database without a word (google/leveldb issue 1287:
 * "reuse_logs can reuse a log with an incomplete record"). Deleting a database makes it put away the journal and begin
 * another (a deferred deletion compacts, Chromium's `content/browser/indexed_db`), some 30 ms: half an entry in the one
 * before then does no harm. Other browsers lose nothing by it.
 *
 * `tests/e2e/killed.spec.ts` leaves half an entry by intention, so it shows whether this still helps.
 */
import { told } from "./readRows.ts";
import type { StudioDatabase } from "./studioDatabase.ts";

/**
 * To be asked once, when the program is opened, before anything is written. Where there is no storage it does nothing.
 *
 * @throws StoreError when the storage takes nothing; the studio's own database is as it was.
 */
export async function freshJournal({ factory, name }: StudioDatabase): Promise<void> {
  if (!factory) return;
  const nothing = `${name}-journal`;
  await told(async () => {
    (await done(factory.open(nothing))).close();
    await done(factory.deleteDatabase(nothing));
  });
}

function done<Result>(request: IDBRequest<Result>): Promise<Result> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}
