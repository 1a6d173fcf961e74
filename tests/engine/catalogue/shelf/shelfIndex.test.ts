import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  bareName,
  readBody,
  type ShelfEntry,
  type ShelfFilter,
  ShelfIndex,
  shelfEntry,
  stockEntries,
} from "../../../../engine/catalogue/index.ts";
import { manyEntries } from "./manyEntries.ts";

const pulse = readBody("groove", "metre: 4/4\ntempo: 60-90\nkick | x... |", { id: "a", name: "A" });

function entry(id: string, name: string, alsoNamed: readonly string[] = []): ShelfEntry {
  return shelfEntry(pulse, { id, name, alsoNamed, from: { kind: "written" }, madeAtMs: 0 });
}

const found = (index: ShelfIndex, typed: string, filter: ShelfFilter = {}) =>
  index.find(typed, filter).map(({ name }) => name);

describe("finding by name", () => {
  const stock = new ShelfIndex([
    ...stockEntries(),
    entry("own/1", "Mill wheel", ["the one from lesson three"]),
  ]);

  test.each([
    ["baiao", "Baião"],
    ["BAIÃO", "Baião"],
    ["bos", "Bossa nova"],
    ["nova bos", "Bossa nova"],
    ["bosa nova", "Bossa nova"],
    ["shufle", "Shuffle"],
    ["cha cha", "Cha-cha"],
    ["lesson three", "Mill wheel"],
    ["leson thre", "Mill wheel"],
    ["mill", "Mill wheel"],
    ["the one from the lesson", "Mill wheel"],
  ])("%j finds %s first", (typed, name) => {
    expect(found(stock, typed)[0]).toBe(name);
  });

  test("all words must be there", () => {
    expect(found(stock, "bossa lesson")).toEqual([]);
    expect(found(stock, "nothing of the kind")).toEqual([]);
  });

  test("slips are forgiven only where nothing is found by what was typed", () => {
    const index = new ShelfIndex([entry("own/1", "Stair"), entry("own/2", "Stare")]);
    expect(found(index, "stare")).toEqual(["Stare"]);
    expect(found(index, "stairs")).toEqual(["Stair"]);
  });

  test.each(["  ", "of the", "!"])(
    "%j tells nothing, and gives all, grooves first, in order of name",
    (typed) => {
      const all = stock.find(typed, {});
      expect(all).toHaveLength(stock.size);
      for (const kind of ["groove", "fill"]) {
        const names = all.filter((one) => one.kind === kind).map(({ name }) => bareName(name));
        expect(names.length).toBeGreaterThan(1);
        expect(names).toEqual([...names].sort());
      }
      const firstFill = all.findIndex(({ kind }) => kind === "fill");
      expect(firstFill).toBeGreaterThan(0);
      expect(all.slice(firstFill).map(({ kind }) => kind)).not.toContain("groove");
    },
  );
});

describe("by what it is", () => {
  const all = manyEntries(600);
  const index = new ShelfIndex([...all, ...stockEntries()]);
  const filters: readonly [ShelfFilter, (entry: ShelfEntry) => boolean][] = [
    [{ kind: "phrase" }, ({ kind }) => kind === "phrase"],
    [{ styleId: "samba" }, ({ styleId }) => styleId === "samba"],
    [{ metre: { numerator: 3, denominator: 4 } }, ({ metre }) => metre.numerator === 3],
    [{ level: "steady" }, ({ level }) => level === "steady"],
    [{ tempoBpm: { from: 200, to: 400 } }, ({ tempoBpm }) => tempoBpm.high >= 200],
    [{ tempoBpm: { from: 20, to: 70 } }, ({ tempoBpm }) => tempoBpm.low <= 70],
    [{ ownOnly: true }, ({ from }) => from.kind !== "catalogue"],
  ];

  test.each(filters)("%j", (filter, isMeant) => {
    const passed = index.find("", filter);
    const others = index.all().filter((each) => !passed.includes(each));
    expect(passed.length).toBeGreaterThan(0);
    expect(others.length).toBeGreaterThan(0);
    expect(passed.every(isMeant)).toBe(true);
    expect(others.some(isMeant)).toBe(false);
  });

  test("and by name at once", () => {
    const both = index.find("river", { kind: "phrase", ownOnly: true });
    expect(both.length).toBeGreaterThan(0);
    expect(both.every(({ name, kind }) => name.includes("river") && kind === "phrase")).toBe(true);
  });
});

test("two entries of one name are told, whatever the case", () => {
  const index = new ShelfIndex([entry("own/1", "Mill wheel", ["the round one"])]);
  expect(index.otherOfName("mill WHEEL", null)?.id).toBe("own/1");
  expect(index.otherOfName("The Round One", "own/2")?.id).toBe("own/1");
  expect(index.otherOfName("Mill wheel", "own/1")).toBeUndefined();
  index.remove("own/1");
  expect(index.otherOfName("Mill wheel", null)).toBeUndefined();
});

test("after any changes it finds what one made afresh finds", () => {
  const change = fc.record({
    id: fc.integer({ min: 0, max: 9 }).map((id) => `own/${id}`),
    name: fc.constantFrom("Mill", "mill", "Loft", "Öre", "Ore", "Yard of the mill"),
    gone: fc.boolean(),
  });
  fc.assert(
    fc.property(fc.array(change, { maxLength: 40 }), (changes) => {
      const index = new ShelfIndex();
      const kept = new Map<string, ShelfEntry>();
      for (const { id, name, gone } of changes) {
        if (gone) {
          index.remove(id);
          kept.delete(id);
        } else {
          index.put(entry(id, name));
          kept.set(id, entry(id, name));
        }
      }
      const afresh = new ShelfIndex([...kept.values()]);
      expect(index.all()).toEqual(afresh.all());
      for (const typed of ["mill", "or", "loft yard"])
        expect(new Set(index.find(typed, {}))).toEqual(new Set(afresh.find(typed, {})));
    }),
  );
});
