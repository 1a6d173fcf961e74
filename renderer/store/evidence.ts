/** The results of rounds, as memory asks for them, and what the teacher changed on the lists made from them. */
import { Dexie } from "dexie";
import { type ListChange, listChangeSchema } from "../../engine/memory/index.ts";
import { type StoredResult, storedResultSchema, type WasMet } from "../../engine/records/index.ts";
import type { ItemId } from "../../engine/session/index.ts";
import { readRows, told } from "./readRows.ts";
import type { StudioDatabase } from "./studioDatabase.ts";

/** All of a student's results, oldest first. */
export async function resultsOfStudent(
  database: StudioDatabase,
  studentId: string,
): Promise<readonly StoredResult[]> {
  const rows = await told(() =>
    database.results
      .where("[studentId+at]")
      .between([studentId, Dexie.minKey], [studentId, Dexie.maxKey])
      .toArray(),
  );
  return (await readRows(database, database.results, storedResultSchema, rows)).values;
}

/**
 * Whether students had met an item before a lesson: any result of an earlier one, or of a later one that was given
 * meanwhile. The lesson's own results do not count.
 *
 * @throws StoreError
 */
export async function metBefore(
  database: StudioDatabase,
  lessonId: string,
  studentIds: readonly string[],
): Promise<WasMet> {
  const met = new Map<string, ReadonlySet<ItemId>>();
  for (const id of studentIds) {
    const results = await resultsOfStudent(database, id);
    met.set(id, new Set(results.filter((result) => result.lessonId !== lessonId).map(({ item }) => item)));
  }
  return (studentId, item) => met.get(studentId)?.has(item) ?? false;
}

/** A student's results about one item, oldest first. */
export async function resultsOfItem(
  database: StudioDatabase,
  studentId: string,
  item: ItemId,
): Promise<readonly StoredResult[]> {
  const rows = await told(() =>
    database.results
      .where("[studentId+item+at]")
      .between([studentId, item, Dexie.minKey], [studentId, item, Dexie.maxKey])
      .toArray(),
  );
  return (await readRows(database, database.results, storedResultSchema, rows)).values;
}

/** What the teacher changed on a student's list, in order. */
export async function listChangesOf(
  database: StudioDatabase,
  studentId: string,
): Promise<readonly ListChange[]> {
  const rows = await told(() =>
    database.listChanges
      .where("[studentId+at]")
      .between([studentId, Dexie.minKey], [studentId, Dexie.maxKey])
      .toArray(),
  );
  return (await readRows(database, database.listChanges, listChangeSchema, rows)).values;
}

/** Keeps one more change; changes are never rewritten. @throws StoreError */
export async function keepListChange(database: StudioDatabase, change: ListChange): Promise<void> {
  await told(() => database.listChanges.add(listChangeSchema.parse(change)));
}
