import { Dexie } from "dexie";
import { IDBFactory, IDBKeyRange } from "fake-indexeddb";
import { expect, test } from "vitest";
import { LessonBook } from "../../../renderer/session/lessonBook.ts";
import { freshJournal, StudioDatabase } from "../../../renderer/store/index.ts";
import { testPlace } from "../session/lessonPlace.ts";

const studioIn = (indexedDB: IDBFactory) => new StudioDatabase("studio", { indexedDB, IDBKeyRange });
const namesIn = async (indexedDB: IDBFactory) => (await indexedDB.databases()).map(({ name }) => name);

test("nothing of it stays, and the studio is as it was", async () => {
  const factory = new IDBFactory();
  const studio = studioIn(factory);
  await studio.settings.put({ name: "kept", value: 1 });
  await freshJournal(studio);
  expect(await namesIn(factory)).toEqual(["studio"]);
  expect(await studio.settings.toArray()).toEqual([{ name: "kept", value: 1 }]);
});

test("what a killed program left of it goes the next time", async () => {
  const factory = new IDBFactory();
  const left = new Dexie("studio-journal", { indexedDB: factory, IDBKeyRange });
  left.version(1).stores({ nothing: "id" });
  await left.open();
  left.close();
  expect(await namesIn(factory)).toEqual(["studio-journal"]);
  await freshJournal(studioIn(factory));
  expect(await namesIn(factory)).toEqual([]);
});

test("where it cannot be made, that is told, and a lesson that was broken off is found all the same", async () => {
  const factory = new IDBFactory();
  const before = new LessonBook(studioIn(factory), testPlace());
  await before.open();
  await before.begin(["bram"]);
  await before.writer.write();
  const open = factory.open.bind(factory);
  factory.open = (name, version) => {
    if (name === "studio-journal") throw new DOMException("The disk is full.", "QuotaExceededError");
    return open(name, version);
  };
  const book = new LessonBook(studioIn(factory), testPlace());
  expect(await book.open()).toMatchObject({ kind: "open", lessonId: before.log.get().began?.lessonId });
  expect(book.writer.get().mishap).toContain("no room left on this computer");
});
