import { IDBFactory, IDBKeyRange } from "fake-indexeddb";
import { beforeEach, describe, expect, test, vi } from "vitest";
import { readBody, type ShelfEntry, shelfEntry, stockEntries } from "../../../engine/catalogue/index.ts";
import { Shelf, StoreError, StudioDatabase } from "../../../renderer/store/index.ts";

const pulse = readBody("groove", "metre: 4/4\ntempo: 60-90\nkick | x... |", { id: "a", name: "A" });
const STOCK = stockEntries().length;

function entry(id: string, name: string, alsoNamed: readonly string[] = []): ShelfEntry {
  return shelfEntry(pulse, { id, name, alsoNamed, from: { kind: "written" }, madeAtMs: 1 });
}

let factory = new IDBFactory();
beforeEach(() => {
  factory = new IDBFactory();
});
const database = () => new StudioDatabase("studio", { indexedDB: factory, IDBKeyRange });
async function opened(): Promise<Shelf> {
  const shelf = new Shelf(database());
  await shelf.open();
  return shelf;
}

test("holds the stock at once, and says when what was kept is read", async () => {
  const shelf = new Shelf(database());
  expect(shelf.get().stage).toBe("loading");
  expect(shelf.index.size).toBe(STOCK);
  await shelf.open();
  expect(shelf.get()).toMatchObject({ stage: "ready", trouble: null, setAside: 0 });
});

test("what is kept, changed and put away is so when the program is opened again", async () => {
  const shelf = await opened();
  const wheel = entry("own/1", "Mill wheel");
  await shelf.keep(wheel);
  await shelf.keep(entry("own/2", "Loft"));
  await shelf.keep({ ...wheel, name: "Water wheel" });
  await shelf.putAway(entry("own/2", "Loft"));
  const again = await opened();
  expect(again.index.size).toBe(STOCK + 1);
  expect(again.index.get("own/1")).toEqual({ ...wheel, name: "Water wheel" });
  expect(again.index.all()).toEqual(shelf.index.all());
});

test("more than is read at once is read whole", async () => {
  const rows = Array.from({ length: 1201 }, (_, index) => entry(`own/${index}`, `Mill ${index}`));
  await database().entries.bulkPut(rows.map((row) => ({ ...row, bareNames: [row.name] })));
  expect((await opened()).index.size).toBe(STOCK + 1201);
});

describe("a name that is taken", () => {
  test.each([
    ["mill WHEEL", 'The Shelf already has a groove called "Mill wheel".'],
    ["Lesson three", 'called "Mill wheel", also called "Lesson three".'],
    ["Bossa nova", 'The Shelf already has a groove called "Bossa nova".'],
  ])("%s is refused in a sentence, and nothing is changed", async (name, sentence) => {
    const shelf = await opened();
    await shelf.keep(entry("own/1", "Mill wheel", ["lesson three"]));
    await expect(shelf.keep(entry("own/2", name))).rejects.toThrow(sentence);
    await expect(shelf.keep(entry("own/2", "Loft", [name]))).rejects.toThrow(StoreError);
    expect((await opened()).index.get("own/2")).toBeUndefined();
    expect(shelf.index.get("own/2")).toBeUndefined();
  });

  test("by another window is told as well", async () => {
    const [here, there] = [await opened(), await opened()];
    await there.keep(entry("own/1", "Mill wheel"));
    await expect(here.keep(entry("own/2", "Mill wheel"))).rejects.toThrow("already has a groove called");
  });

  test("is free again when its entry is put away, and that one can then not come back", async () => {
    const shelf = await opened();
    const first = entry("own/1", "Mill wheel");
    await shelf.keep(first);
    await shelf.putAway(first);
    await shelf.keep(entry("own/2", "Mill wheel"));
    await expect(shelf.keep(first)).rejects.toThrow("already has");
  });
});

test("rows that cannot be read are set aside as they are, and the others are read", async () => {
  const shelf = await opened();
  await shelf.keep(entry("own/1", "Mill wheel"));
  const broken = { ...entry("own/2", "Loft"), bareNames: ["loft"], metre: "four" };
  const raw = database();
  await raw.table("entries").put(broken);
  await raw.table("entries").put({ id: "own/3" });
  const again = await opened();
  expect(again.get()).toMatchObject({ stage: "ready", setAside: 2 });
  expect(again.index.get("own/1")?.name).toBe("Mill wheel");
  expect(again.index.get("own/2")).toBeUndefined();
  const aside = await raw.setAside.toArray();
  expect(aside.map(({ row }) => row)).toEqual([broken, { id: "own/3" }]);
  expect(aside[0]?.why).toContain("metre");
  // Once is enough.
  expect((await opened()).get().setAside).toBe(2);
  expect(await raw.setAside.count()).toBe(2);
});

test("rows that a newer program wrote are left where they are, and that is said", async () => {
  const raw = database();
  await raw.table("entries").put({ ...entry("own/1", "Mill wheel"), version: 2, bareNames: ["mill wheel"] });
  const shelf = await opened();
  expect(shelf.get()).toMatchObject({ stage: "ready", setAside: 0 });
  expect(shelf.get().trouble).toContain("1 entry was written by a newer version");
  expect(await raw.entries.count()).toBe(1);
  await expect(shelf.keep(entry("own/2", "Mill wheel"))).rejects.toThrow("already has");
});

describe("when the storage fails", () => {
  test("for want of room, nothing is half-written, and it is said", async () => {
    const store = database();
    const shelf = new Shelf(store);
    await shelf.open();
    await shelf.keep(entry("own/1", "Mill wheel"));
    const put = vi.spyOn(store.entries, "put").mockImplementation(() => {
      throw new DOMException("The disk is full.", "QuotaExceededError");
    });
    await expect(shelf.keep(entry("own/2", "Loft"))).rejects.toThrow(
      "There is no room left on this computer",
    );
    await expect(shelf.keep(entry("own/1", "Other name"))).rejects.toThrow("Nothing of this was kept");
    put.mockRestore();
    expect(shelf.index.get("own/1")?.name).toBe("Mill wheel");
    const again = await opened();
    expect(again.index.get("own/1")?.name).toBe("Mill wheel");
    expect(again.index.get("own/2")).toBeUndefined();
    await shelf.keep(entry("own/2", "Loft"));
    expect((await opened()).index.get("own/2")?.name).toBe("Loft");
  });

  test("altogether, the stock is still there and the reason is said", async () => {
    const refusing = Object.create(factory, {
      open: {
        value: () => {
          throw new DOMException("Denied.", "SecurityError");
        },
      },
    });
    const shelf = new Shelf(new StudioDatabase("studio", { indexedDB: refusing, IDBKeyRange }));
    await shelf.open();
    expect(shelf.get().stage).toBe("unkept");
    expect(shelf.get().trouble).toContain("cannot be used");
    expect(shelf.index.size).toBe(STOCK);
    await expect(shelf.keep(entry("own/1", "Mill wheel"))).rejects.toThrow(StoreError);
    expect(shelf.index.get("own/1")).toBeUndefined();
  });
});
