import { IDBFactory, IDBKeyRange } from "fake-indexeddb";
import { beforeEach, describe, expect, test } from "vitest";
import { parseGrid } from "../../../../engine/score/index.ts";
import type { Chosen } from "../../../../renderer/screens/shelf/import/chosenFiles.ts";
import { endWords } from "../../../../renderer/screens/shelf/import/ImportPage.tsx";
import {
  type FileRead,
  type FileReader,
  nameOf,
  ShelfImport,
} from "../../../../renderer/screens/shelf/import/shelfImport.ts";
import { Shelf, StudioDatabase } from "../../../../renderer/store/index.ts";

const music = parseGrid("groove: a\nname: A\nmetre: 4/4\ntempo: 60-90\nkick | x... |");
const found: FileRead = { kind: "found", as: "groove", music, bar: 3 };

/** A reader that answers as it is told, `atOnce` files at a time. */
class TestReader implements FileReader {
  readonly atOnce = 3;
  readonly read: (path: string) => Promise<FileRead>;
  stopped = 0;
  constructor(read: (path: string) => Promise<FileRead>) {
    this.read = read;
  }
  stop(): void {
    this.stopped += 1;
  }
}

const files = (...paths: readonly string[]): Chosen => ({
  passedOver: 0,
  files: paths.map((path) => ({ path, file: async () => new File(["x"], path) })),
});

let shelf: Shelf;
beforeEach(async () => {
  shelf = new Shelf(new StudioDatabase("studio", { indexedDB: new IDBFactory(), IDBKeyRange }));
  await shelf.open();
});
let made = 0;
const making = {
  id: () => {
    made += 1;
    return `own/${made}`;
  },
  nowMs: () => 7,
};
const importing = (read: (path: string) => Promise<FileRead>) => {
  const reader = new TestReader(read);
  return { reader, desk: new ShelfImport(shelf, reader, making) };
};
const own = () => shelf.index.find("", { ownOnly: true });

test("every file is kept by itself, under its name and with its bar; those of one name get numbers", async () => {
  const { desk } = importing(async (path) => (path === "b/two.mid" ? { ...found, as: "phrase" } : found));
  await desk.start(files("a/one.mid", "b/one.mid", "b/two.mid", "c/one.mid"));
  expect(desk.get()).toMatchObject({ stage: "ended", done: 4, grooves: 3, phrases: 1, failures: [] });
  expect(own().map(({ name, kind }) => `${name} ${kind}`)).toEqual([
    "one groove",
    "one, 2 groove",
    "one, 3 groove",
    "two phrase",
  ]);
  expect(own()[0]?.from).toEqual({ kind: "imported", file: "a/one.mid", bar: 3 });
});

test("what fails is told with its reason, and the others go on", async () => {
  const { desk } = importing(async (path) =>
    path === "bad.mid" ? { kind: "failed", reason: "It is cut off." } : found,
  );
  const gone = { path: "gone.mid", file: () => Promise.reject(new Error("NotFound")) };
  const { files: others } = files("bad.mid", "good.mid");
  await desk.start({ passedOver: 2, files: [gone, ...others] });
  const { failures, grooves, done } = desk.get();
  expect({ grooves, done }).toEqual({ grooves: 1, done: 3 });
  expect(failures.map(({ path }) => path).sort()).toEqual(["bad.mid", "gone.mid"]);
  expect(failures.find(({ path }) => path === "gone.mid")?.reason).toContain("could not be opened");
});

test("a file that is there already is not kept a second time", async () => {
  const { desk } = importing(async () => found);
  await desk.start(files("one.mid"));
  await desk.start(files("one.mid", "two.mid"));
  expect(own().map(({ name }) => name)).toEqual(["one", "two"]);
  expect(desk.get().failures).toEqual([
    { path: "one.mid", reason: 'It is on the Shelf already, as "one". Put that one away to import it anew.' },
  ]);
});

test("cancelled, nothing more is kept, and what was kept is counted", async () => {
  const paths = Array.from({ length: 50 }, (_, index) => `take ${index}.mid`);
  const { desk, reader } = importing(async () => found);
  const forget = desk.subscribe(() => {
    if (desk.get().grooves === 5) desk.cancel();
  });
  await desk.start(files(...paths));
  forget();
  const { stage, isCancelled, grooves } = desk.get();
  expect({ stage, isCancelled }).toEqual({ stage: "ended", isCancelled: true });
  expect(reader.stopped).toBe(1);
  expect(own()).toHaveLength(grooves);
  expect(grooves).toBeLessThan(50);
  // The rest comes with the next try.
  await desk.start(files(...paths));
  expect(own()).toHaveLength(50);
});

describe("in words", () => {
  const state = { stage: "ended", done: 3, total: 3, failures: [], trouble: null } as const;
  test.each([
    [{ grooves: 1, phrases: 0, passedOver: 0, isCancelled: false }, "1 groove was kept."],
    [
      { grooves: 2, phrases: 1, passedOver: 1, isCancelled: false },
      "2 grooves and 1 phrase were kept. 1 other file was passed over.",
    ],
    [
      { grooves: 0, phrases: 0, passedOver: 0, isCancelled: true },
      "Cancelled: 0 grooves were kept, each of them whole.",
    ],
    [
      { grooves: 0, phrases: 0, passedOver: 3, isCancelled: false, total: 0 },
      "There was no MIDI file among them. 3 other files were passed over.",
    ],
  ])("%j", (change, words) => {
    expect(endWords({ ...state, ...change })).toBe(words);
  });
});

test.each([
  ["lessons/mill_wheel-2.mid", "mill wheel-2"],
  ["a.b.MIDI", "a.b"],
  ["___.mid", "Imported"],
  [`${"x".repeat(10_000)}.mid`, "x".repeat(120)],
  ["two\nlines.mid", "two lines"],
])("%s is called %s", (path, name) => {
  expect(nameOf(path)).toBe(name);
});
