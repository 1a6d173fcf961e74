/** Rows that an earlier version of the program kept, when students are made one or erased: they are brought up first. */
import { expect, test } from "vitest";
import { ROW_STEPS } from "../../../../engine/records/index.ts";
import { lessonState } from "../../../../engine/session/index.ts";
import { eraseStudent, lookAtErasing } from "../../../../renderer/screens/roster/eraseStudent.ts";
import { mergeStudents, unmergeStudents } from "../../../../renderer/screens/roster/mergeStudents.ts";
import { readLesson, type StudioDatabase, takesOfStudent } from "../../../../renderer/store/index.ts";
import { allThatIsKept, BRAM, keptStudio, OF_BRAM, OTTILIE, SHARED } from "./keptStudio.ts";

const NOW = { events: ROW_STEPS.events.length + 1, takes: ROW_STEPS.takes.length + 1 };

/** What version 1 kept of a take. */
function withoutLevel<Summary extends object>(summary: Summary): object {
  const { level: _, ...rest } = summary as Summary & { level?: unknown };
  return rest;
}

/** The studio as the first version of the program left it. */
async function studioOfThen(): Promise<StudioDatabase> {
  const database = await keptStudio();
  const { events, takes } = database;
  for (const row of await takes.toArray())
    await database.table("takes").put({ ...withoutLevel(row), version: 1 });
  for (const row of await events.toArray()) {
    const { event } = row;
    const then = event.kind === "judgement" ? { ...event, summary: withoutLevel(event.summary) } : event;
    await database.table("events").put({ ...row, version: 1, event: then });
  }
  return database;
}

const versions = async (database: StudioDatabase, table: "events" | "takes", ids: readonly string[]) =>
  new Set(
    (await database.table<{ version: number }>(table).toArray())
      .filter((row) => ids.some((id) => JSON.stringify(row).includes(id)))
      .map(({ version }) => version),
  );

test("made one, old rows are the other's, in this version; taken back, they are as they were", async () => {
  const database = await studioOfThen();
  const before = await allThatIsKept(database);
  const merged = await mergeStudents(database, BRAM, OTTILIE);
  const { events } = await readLesson(database, SHARED);
  expect(lessonState(events).began?.studentIds).toEqual([BRAM.id]);
  expect(await takesOfStudent(database, BRAM.id)).toHaveLength(4);
  const gonesTakes = merged.takes.map(({ takeId }) => takeId);
  expect(await versions(database, "takes", gonesTakes)).toEqual(new Set([NOW.takes]));
  const rows = await database.events.bulkGet(merged.events.map(({ lessonId, seq }) => [lessonId, seq]));
  expect(new Set(rows.map((row) => row?.version))).toEqual(new Set([NOW.events]));
  expect(await database.setAside.count()).toBe(3);
  await unmergeStudents(database, merged);
  expect(await allThatIsKept(database)).toBe(before);
});

test("erased, nothing of the student is left in old rows, and the others' are whole and of this version", async () => {
  const database = await studioOfThen();
  expect(await lookAtErasing(database, OTTILIE.id)).toMatchObject({ alone: 1, shared: 1, takes: 2 });
  await eraseStudent(database, OTTILIE, [OTTILIE, BRAM], async (entry) => {
    await database.entries.put({ ...entry, bareNames: [entry.name.toLowerCase()] });
  });
  const all = await allThatIsKept(database);
  expect(all).not.toContain(OTTILIE.id);
  expect(all.toLowerCase()).not.toContain("ottilie");
  expect(await takesOfStudent(database, BRAM.id)).toHaveLength(2);
  const { events, setAside } = await readLesson(database, SHARED);
  expect([lessonState(events).stage, setAside]).toEqual(["ended", 0]);
  expect(await versions(database, "events", [SHARED])).toEqual(new Set([NOW.events]));
  // Of another's lesson only what named the student was written anew.
  expect(await versions(database, "events", [OF_BRAM])).toEqual(new Set([1, NOW.events]));
});

test("where others' rows are of a newer version, nothing is erased, and that is said", async () => {
  const database = await studioOfThen();
  await database
    .table("events")
    .put({ version: 99, lessonId: SHARED, seq: 5, event: { kind: "of tomorrow" } });
  const before = await allThatIsKept(database);
  const erasing = eraseStudent(database, OTTILIE, [OTTILIE, BRAM], async () => {});
  await expect(erasing).rejects.toThrow("written by a newer version of the program. Nothing was erased");
  await expect(erasing).rejects.toMatchObject({ name: "StoreError" });
  expect(await allThatIsKept(database)).toBe(before);
});
