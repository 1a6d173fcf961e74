/** What an earlier version of the program kept or saved, read by this one. */
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { Dexie } from "dexie";
import { IDBFactory, IDBKeyRange } from "fake-indexeddb";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { z } from "zod";
import { ARCHIVE_VERSION } from "../../../engine/formats/index.ts";
import * as records from "../../../engine/records/index.ts";
import {
  previewArchive,
  readLesson,
  readRows,
  restoreArchive,
  StudioDatabase,
  studentsOf,
} from "../../../renderer/store/index.ts";
import { inPieces } from "../../engine/formats/archive/studio.ts";

vi.mock("../../../engine/records/index.ts", async (original) => {
  const actual = await original<typeof records>();
  return { ...actual, stepsOf: vi.fn(actual.stepsOf) };
});

let factory = new IDBFactory();
beforeEach(() => {
  factory = new IDBFactory();
});
afterEach(() => {
  vi.mocked(records.stepsOf).mockReset();
});
const database = () => new StudioDatabase("studio", { indexedDB: factory, IDBKeyRange });

/** One of each version there was, with the rows in it. */
const ARCHIVES = [["studio.v1.jsonl", 28]] as const;

test("there is an archive of every version", () => {
  expect(ARCHIVES).toHaveLength(ARCHIVE_VERSION);
});

test.each(ARCHIVES)("the archive %s is looked into and put back whole", async (name, rows) => {
  const bytes = readFileSync(resolve(import.meta.dirname, "../../fixtures/archive", name));
  expect(await previewArchive(inPieces(bytes))).toMatchObject({
    rows,
    nicknames: ["Bram", "Noor"],
    lessons: { first: "2026-03-02", last: "2026-03-02" },
    broken: 0,
  });
  const data = database();
  expect(await restoreArchive(data, inPieces(bytes), "stay")).toEqual({ put: rows, left: 0, setAside: 0 });
  expect((await studentsOf(data)).map(({ nickname }) => nickname)).toEqual(["Bram", "Noor"]);
  const { events } = await readLesson(data, "2026-03-02T15:30:00.000Z~a1");
  expect(events.map(({ seq }) => seq)).toEqual(Array.from({ length: 16 }, (_, index) => index + 1));
});

/** No row of the program has changed yet: a group that has, in the next version, a room. */
test("a row of an earlier version is brought up as it is read, and stays in its table", async () => {
  const data = database();
  const group = { version: 1, id: "mondays", name: "Mondays", studentIds: ["bram"] } as const;
  await data.groups.bulkPut([group]);
  await data.table("groups").put({ ...group, id: "broken", name: 7 });
  const next = z.object({ version: z.literal(2), id: z.string(), name: z.string(), room: z.string() });
  vi.mocked(records.stepsOf).mockImplementation((table) =>
    table === "groups" ? [(row) => ({ ...row, version: 2, room: "the loft" })] : [],
  );
  const read = await readRows(data, data.groups, next, await data.groups.toArray());
  expect(read).toEqual({
    values: [{ version: 2, id: "mondays", name: "Mondays", room: "the loft" }],
    setAside: 1,
    newer: 0,
  });
  expect(await data.groups.toArray()).toEqual([group]);
  expect((await data.setAside.toArray()).map(({ row }) => row)).toEqual([
    { ...group, id: "broken", name: 7 },
  ]);
});

test("what version 1 of the database kept is there in the next one", async () => {
  const earlier = new Dexie("studio", { indexedDB: factory, IDBKeyRange });
  earlier.version(1).stores({ entries: "id, *bareNames", setAside: "++number, table" });
  await earlier.table("entries").put({ id: "own/1", bareNames: ["mill"], name: "Mill" });
  await earlier.table("setAside").add({ table: "entries", row: { id: "own/2" }, why: "broken" });
  earlier.close();
  const now = database();
  expect(await now.entries.get("own/1")).toMatchObject({ name: "Mill" });
  expect(await now.setAside.count()).toBe(1);
  expect(await now.lessons.count()).toBe(0);
});
