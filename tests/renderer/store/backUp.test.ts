import { IDBFactory, IDBKeyRange } from "fake-indexeddb";
import fc from "fast-check";
import { beforeEach, describe, expect, test } from "vitest";
import { ArchiveError, type ArchiveRow, writeArchive } from "../../../engine/formats/index.ts";
import { lessonState, type SessionEvent } from "../../../engine/session/index.ts";
import {
  backUp,
  bytesOfFile,
  countRows,
  joinChunks,
  previewArchive,
  readLesson,
  restoreArchive,
  Shelf,
  StoreError,
  StudioDatabase,
  sha256,
  studentsOf,
  takesOfStudent,
  unwrittenRows,
  writeEvents,
} from "../../../renderer/store/index.ts";
import { ABOUT, collected, inPieces, STUDIO_ROWS } from "../../engine/formats/archive/studio.ts";
import { anyLesson } from "../../engine/session/lessons.ts";

let factory = new IDBFactory();
beforeEach(() => {
  factory = new IDBFactory();
});
const database = (name = "studio") => new StudioDatabase(name, { indexedDB: factory, IDBKeyRange });
const OPTIONS = { madeAt: "2026-03-05T08:00:00.000Z", program: "0.1.0" };
const lesson: readonly SessionEvent[] =
  fc.sample(anyLesson, { seed: 7, numRuns: 12 }).toSorted((a, b) => b.length - a.length)[0] ?? [];
const lessonId = "2026-03-02T15:30:00.000Z~a1";

/** A studio with one of everything, its lesson written a few events at a time. */
async function filled(name?: string): Promise<StudioDatabase> {
  const data = database(name);
  await restoreArchive(data, writeArchive(ABOUT, STUDIO_ROWS, sha256), "stay");
  for (let from = 0; from < lesson.length; from += 10)
    await writeEvents(data, lessonState(lesson.slice(0, from + 10)), lesson.slice(from, from + 10));
  return data;
}

async function allRows(data: StudioDatabase): Promise<unknown> {
  // Strikes are read with their lesson; settings are of this computer, and in no archive.
  const apart = new Set(["setAside", "hits", "settings"]);
  const tables = data.tables.filter(({ name }) => !apart.has(name));
  const rows = await Promise.all(tables.map(async (table) => [table.name, await table.toArray()]));
  return { rows, lesson: (await readLesson(data, lessonId)).events };
}

test("a studio that is backed up and put back elsewhere is the same", async () => {
  const data = await filled();
  const bytes = await collected(backUp(data, OPTIONS));
  const preview = await previewArchive(inPieces(bytes));
  expect(preview).toMatchObject({
    rows: await countRows(data),
    nicknames: ["Bram"],
    lessons: { first: "2026-03-02", last: "2026-03-02" },
    broken: 0,
  });
  const elsewhere = database("elsewhere");
  const restored = await restoreArchive(elsewhere, inPieces(bytes), "stay");
  expect(restored).toEqual({ put: preview.rows, left: 0, setAside: 0 });
  expect(await allRows(elsewhere)).toEqual(await allRows(data));
  expect((await readLesson(elsewhere, lessonId)).events).toEqual(lesson);
  const shelf = new Shelf(elsewhere);
  await shelf.open();
  expect(shelf.index.get("own/1")?.name).toBe("Mill wheel");
});

test("more rows than a page are all there", async () => {
  const data = database();
  const rows = Array.from({ length: 1203 }, (_, index): ArchiveRow => {
    const [student] = STUDIO_ROWS;
    if (student?.table !== "students") throw new Error("The first row is the student.");
    return { table: "students", row: { ...student.row, id: `student${index}` } };
  });
  await restoreArchive(data, writeArchive(ABOUT, rows, sha256), "stay");
  const preview = await previewArchive(backUp(data, OPTIONS));
  expect(preview.tables).toEqual({ students: 1203 });
});

test("what is there stays, or gives way, as was chosen", async () => {
  const bytes = await collected(backUp(await filled(), OPTIONS));
  const data = await filled("other");
  const [bram] = await studentsOf(data);
  if (!bram) throw new Error("Bram is missing.");
  await data.students.put({ ...bram, nickname: "Bramwell" });
  await restoreArchive(data, inPieces(bytes), "stay");
  expect((await studentsOf(data)).map(({ nickname }) => nickname)).toEqual(["Bramwell"]);
  await restoreArchive(data, inPieces(bytes), "give-way");
  expect((await studentsOf(data)).map(({ nickname }) => nickname)).toEqual(["Bram"]);
});

test("strikes that stand in rows of another size are each there once", async () => {
  const small = await collected(backUp(await filled(), OPTIONS));
  const joined = await filled("joined");
  await joinChunks(joined, lessonId);
  await restoreArchive(joined, inPieces(small), "give-way");
  expect((await readLesson(joined, lessonId)).events).toEqual(lesson);
  const large = await collected(backUp(joined, OPTIONS));
  const data = await filled("third");
  await restoreArchive(data, inPieces(large), "stay");
  expect((await readLesson(data, lessonId)).events).toEqual(lesson);
  await joinChunks(data, lessonId);
  expect((await readLesson(data, lessonId)).events).toEqual(lesson);
});

describe("a long way", () => {
  test("is told as it goes", async () => {
    const data = await filled();
    const told: number[] = [];
    const of = await countRows(data);
    await collected(
      backUp(data, { ...OPTIONS, onProgress: (progress) => told.push(progress.rows / progress.of) }),
    );
    expect(told.at(-1)).toBe(1);
    expect(told).toEqual([...told].sort((a, b) => a - b));
    expect(of).toBeGreaterThan(5);
  });

  test("can be broken off, there and back, and gone again", async () => {
    const data = await filled();
    const bytes = await collected(backUp(data, OPTIONS));
    const stop = new AbortController();
    stop.abort(new Error("The teacher changed her mind."));
    const { signal } = stop;
    await expect(collected(backUp(data, { ...OPTIONS, signal }))).rejects.toThrow("changed her mind");
    await expect(previewArchive(inPieces(bytes), { signal })).rejects.toThrow("changed her mind");
    const elsewhere = database("elsewhere");
    await expect(restoreArchive(elsewhere, inPieces(bytes), "stay", { signal })).rejects.toThrow("her mind");
    await restoreArchive(elsewhere, inPieces(bytes), "stay");
    expect(await allRows(elsewhere)).toEqual(await allRows(data));
  });
});

describe("what is broken", () => {
  test("rows that cannot be read go along, as they are, and are set aside where they are put back", async () => {
    const data = await filled();
    const chunk = await data.hits.toCollection().first();
    await data.table("students").put({ version: 1, id: "student2", nickname: "" });
    await data.table("hits").put({ ...chunk, lessonId: "lesson9", bytes: new Uint8Array([1, 2]) });
    const bytes = await collected(backUp(data, OPTIONS));
    const elsewhere = database("elsewhere");
    await restoreArchive(elsewhere, inPieces(bytes), "stay");
    const aside = await elsewhere.setAside.toArray();
    expect(aside.map(({ table }) => table)).toEqual(["students", "hits", "events"]);
    expect(aside[1]?.row).toMatchObject({ lessonId: "lesson9", bytes: [1, 2] });
    expect((await studentsOf(elsewhere)).map(({ id }) => id)).toEqual(["student1"]);
  });

  test("an archive that was changed puts nothing of the changed block back", async () => {
    const bytes = await collected(backUp(await filled(), OPTIONS));
    const at = new TextDecoder().decode(bytes).indexOf("Bram");
    bytes[at] = 66 ^ 1;
    const elsewhere = database("elsewhere");
    await expect(restoreArchive(elsewhere, inPieces(bytes), "stay")).rejects.toThrow(ArchiveError);
    expect(await countRows(elsewhere)).toBe(0);
  });

  test("a full disk is told in a sentence, and the block is put back whole or not at all", async () => {
    const bytes = await collected(backUp(await filled(), OPTIONS));
    const elsewhere = database("elsewhere");
    elsewhere.events.hook("creating", () => {
      throw new DOMException("", "QuotaExceededError");
    });
    const restoring = restoreArchive(elsewhere, inPieces(bytes), "stay");
    await expect(restoring).rejects.toThrow(StoreError);
    await expect(restoring).rejects.toThrow("no room left");
    expect(await elsewhere.students.count()).toBe(0);
  });
});

test("a lesson that no storage takes can be saved as a file, and put back from it", async () => {
  const rows = unwrittenRows(lessonState(lesson), lesson);
  const about = { ...ABOUT, of: { kind: "lessons", lessonIds: [lessonId] } } as const;
  const bytes = await collected(writeArchive(about, rows, sha256));
  const data = database();
  await restoreArchive(data, inPieces(bytes), "stay");
  expect((await readLesson(data, lessonId)).events).toEqual(lesson);
  const summaries = lesson.flatMap((event) => (event.kind === "judgement" ? [event.summary.takeId] : []));
  expect((await takesOfStudent(data, "student1")).map(({ takeId }) => takeId).sort()).toEqual(
    [...new Set(summaries)].sort(),
  );
});

test("a file that was packed with gzip is unpacked on the way", async () => {
  const bytes = await collected(backUp(await filled(), OPTIONS));
  const packed = new Blob([bytes]).stream().pipeThrough(new CompressionStream("gzip"));
  const file = await new Response(packed).blob();
  expect(file.size).toBeLessThan(bytes.length / 2);
  expect(await previewArchive(bytesOfFile(file))).toEqual(
    await previewArchive(bytesOfFile(new Blob([bytes]))),
  );
});
