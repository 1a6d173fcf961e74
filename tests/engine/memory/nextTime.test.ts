import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  changesInForce,
  changeToUndo,
  daysAfter,
  type ItemId,
  type ListChange,
  listChangeSchema,
  type NextTimeList,
  nextTimeList,
  type Result,
} from "../../../engine/memory/index.ts";
import { aDay, someChanges, someResults } from "./laws.ts";
import { result } from "./results.ts";

/** Asked on 2026-03-02, the lesson after it is a week later. */
const LESSON = "2026-03-09";
const results: readonly Result[] = [
  // Held three times: remembered well.
  result("style:samba", "known", "2026-01-05"),
  result("style:samba", "known", "2026-01-19"),
  result("style:samba", "known", "2026-03-02", 9),
  // Held twice, the last time weeks ago.
  result("style:bossa-nova", "known", "2026-01-05", 1),
  result("style:bossa-nova", "known", "2026-01-19", 1),
  // Held, then missed in the last lesson.
  result("rudiment:flam-tap", "known", "2026-02-23"),
  result("rudiment:flam-tap", "slipped", "2026-03-02"),
  // Never met before.
  result("symbol:fermata", "new", "2026-03-02", 5),
  result("symbol:dotted-quarter-rest", "new", "2026-03-02", 2),
  result("symbol:fermata", "new", "2026-03-02", 7),
];

const MADE = { version: 1, studentId: "ottilie", at: "2026-03-02T18:00:00.000Z", day: "2026-03-02" } as const;

const items = (entries: NextTimeList["refresh"]): readonly ItemId[] => entries.map(({ item }) => item);
const listOf = (changes: readonly ListChange[] = [], more: readonly Result[] = []): NextTimeList =>
  nextTimeList({ results: [...results, ...more], changes, lessonDay: LESSON });

const crossOff = (item: ItemId, id = "a"): ListChange => ({ ...MADE, id, kind: "crossed-off", item });
const move = (
  item: ItemId,
  before: ItemId | null,
  section: "refresh" | "new" = "refresh",
  id = "a",
): ListChange => ({
  ...MADE,
  id,
  kind: "moved",
  item,
  section,
  before,
});
const undo = (changeId: string, id: string, at = "2026-03-02T18:05:00.000Z"): ListChange => ({
  ...MADE,
  id,
  at,
  kind: "undone",
  changeId,
});

describe("derived from results alone", () => {
  test("refresh is what is due, most likely forgotten first; new in the order met", () => {
    const list = listOf();
    expect(items(list.refresh)).toEqual(["rudiment:flam-tap", "style:bossa-nova"]);
    expect(items(list.new)).toEqual(["symbol:dotted-quarter-rest", "symbol:fermata"]);
    expect(list.crossedOff).toEqual([]);
    const [first, second] = list.refresh.map(({ chanceForgotten }) => chanceForgotten ?? 0);
    expect(first).toBeGreaterThan(second ?? 1);
    expect(list.new.map(({ chanceForgotten }) => chanceForgotten)).toEqual([null, null]);
  });

  test("what is remembered well waits until it is due, sooner where more is wanted", () => {
    expect(items(listOf().refresh)).not.toContain("style:samba");
    const later = nextTimeList({ results, lessonDay: "2027-06-07" });
    expect(items(later.refresh)).toContain("style:samba");
    const wanted = (retention: number) =>
      items(nextTimeList({ results, lessonDay: "2026-05-04", retention }).refresh).includes("style:samba");
    expect([wanted(0.97), wanted(0.7)]).toEqual([true, false]);
  });

  test("what slipped last is there even where the model would wait", () => {
    const often = Array.from({ length: 12 }, (_, week) =>
      result("style:polka", "known", daysAfter("2025-01-06", 30 * week)),
    );
    const slipped = result("style:polka", "slipped", "2026-03-02");
    const list = nextTimeList({ results: [...often, slipped], lessonDay: "2026-03-03", retention: 0.7 });
    expect(list.refresh[0]?.chanceForgotten).toBeLessThan(0.3);
    expect(items(list.refresh)).toEqual(["style:polka"]);
  });

  test("once a new item has held it is new no more", () => {
    const list = listOf([], [result("symbol:fermata", "known", "2026-03-03")]);
    expect(items(list.new)).toEqual(["symbol:dotted-quarter-rest"]);
  });

  test("missed again on the day it was new it is still new; in a later lesson it is to be refreshed", () => {
    const atOnce = result("symbol:fermata", "slipped", "2026-03-02", 9);
    expect(items(listOf([], [atOnce]).new)).toContain("symbol:fermata");
    const later = result("symbol:fermata", "slipped", "2026-03-04");
    expect(items(listOf([], [atOnce, later]).new)).not.toContain("symbol:fermata");
    expect(items(listOf([], [atOnce, later]).refresh)).toContain("symbol:fermata");
  });

  test("a student nobody has heard has an empty list", () => {
    const { refresh, new: met } = nextTimeList({ results: [], lessonDay: LESSON });
    expect([refresh, met]).toEqual([[], []]);
  });
});

describe("the teacher's changes", () => {
  test("crossing off takes it away, until it is asked again", () => {
    const off = crossOff("style:bossa-nova");
    expect(items(listOf([off]).refresh)).toEqual(["rudiment:flam-tap"]);
    expect(items(listOf([off]).crossedOff)).toEqual(["style:bossa-nova"]);
    const again = listOf([off], [result("style:bossa-nova", "slipped", "2026-03-03")]);
    expect(items(again.refresh)).toContain("style:bossa-nova");
    expect(again.crossedOff).toEqual([]);
  });

  test("moving puts it before another, into the other part, or at the end", () => {
    expect(items(listOf([move("style:bossa-nova", "rudiment:flam-tap")]).refresh)).toEqual([
      "style:bossa-nova",
      "rudiment:flam-tap",
    ]);
    expect(items(listOf([move("style:bossa-nova", "symbol:fermata", "new")]).new)).toEqual([
      "symbol:dotted-quarter-rest",
      "style:bossa-nova",
      "symbol:fermata",
    ]);
    expect(items(listOf([move("rudiment:flam-tap", null)]).refresh)).toEqual([
      "style:bossa-nova",
      "rudiment:flam-tap",
    ]);
    expect(listOf([move("rudiment:flam-tap", null)]).refresh[1]?.teacher).toBe("moved");
  });

  test("a place holds until the next lesson that brings results", () => {
    const moved = move("style:bossa-nova", "rudiment:flam-tap");
    const after = listOf([moved], [result("style:tango", "new", "2026-03-09")]);
    expect(items(after.refresh)).toEqual(["rudiment:flam-tap", "style:bossa-nova"]);
  });

  test("adding puts an item there, with the teacher's own words where it has no name, until it is asked", () => {
    const added: ListChange = {
      ...MADE,
      id: "a",
      kind: "added",
      item: "own:a",
      words: "Bring the brushes",
      section: "new",
    };
    const [entry] = listOf([added]).new.slice(-1);
    expect(entry).toEqual({
      item: "own:a",
      chanceForgotten: null,
      evidence: null,
      teacher: "added",
      words: "Bring the brushes",
    });
    const style: ListChange = { ...added, item: "style:tango", words: null, section: "refresh" };
    expect(items(listOf([style]).refresh)).toContain("style:tango");
    const asked = listOf([style], [result("style:tango", "known", "2026-03-03")]);
    expect(asked.refresh.find(({ item }) => item === "style:tango")?.teacher).toBeNull();
  });

  test("adding what was crossed off puts it back", () => {
    const back: ListChange = {
      ...MADE,
      id: "b",
      kind: "added",
      item: "style:bossa-nova",
      words: null,
      section: "refresh",
    };
    const list = listOf([crossOff("style:bossa-nova"), back]);
    expect(items(list.refresh)).toContain("style:bossa-nova");
    expect(list.crossedOff).toEqual([]);
  });

  test("each can be undone, and the undoing too", () => {
    const off = crossOff("style:bossa-nova", "a");
    const undone = undo("a", "b");
    const redone = undo("b", "c", "2026-03-02T18:06:00.000Z");
    expect(listOf([off, undone])).toEqual(listOf());
    expect(listOf([off, undone, redone])).toEqual(listOf([off]));
    expect(changeToUndo([off, undone])).toBeUndefined();
    expect(changeToUndo([off, undone, redone])?.id).toBe("a");
  });

  test("an undoing holds though the clock was set back before it", () => {
    const early = undo("a", "b", "2026-03-01T09:00:00.000Z");
    expect(listOf([crossOff("style:bossa-nova", "a"), early])).toEqual(listOf());
  });

  test("what is kept of a change is checked", () => {
    expect(listChangeSchema.parse(crossOff("style:samba"))).toEqual(crossOff("style:samba"));
    const wrong = { ...crossOff("style:samba"), item: "recipe:pancakes" };
    expect(listChangeSchema.safeParse(wrong).success).toBe(false);
    expect(listChangeSchema.safeParse({ ...crossOff("style:samba"), version: 2 }).success).toBe(false);
  });
});

describe("laws", () => {
  test("results and changes may come in any order", () => {
    fc.assert(
      fc.property(
        someResults.chain((all) =>
          fc.tuple(fc.constant(all), fc.shuffledSubarray(all, { minLength: all.length })),
        ),
        someChanges.chain((all) =>
          fc.tuple(fc.constant(all), fc.shuffledSubarray([...all], { minLength: all.length })),
        ),
        aDay,
        ([results, mixedResults], [changes, mixedChanges], lessonDay) => {
          expect(nextTimeList({ results: mixedResults, changes: mixedChanges, lessonDay })).toEqual(
            nextTimeList({ results, changes, lessonDay }),
          );
        },
      ),
    );
  });

  test("no item stands on the list twice, and nothing comes from nowhere", () => {
    fc.assert(
      fc.property(someResults, someChanges, aDay, (results, changes, lessonDay) => {
        const list = nextTimeList({ results, changes, lessonDay });
        const all = items([...list.refresh, ...list.new, ...list.crossedOff]);
        expect(new Set(all).size).toBe(all.length);
        const met = new Set<ItemId>([
          ...results.map(({ item }) => item),
          ...changesInForce(changes).map(({ item }) => item),
        ]);
        for (const item of all) expect(met).toContain(item);
      }),
    );
  });

  test("without changes, refresh never gets likelier to be remembered further up", () => {
    fc.assert(
      fc.property(someResults, aDay, (results, lessonDay) => {
        const chances = nextTimeList({ results, lessonDay }).refresh.map(
          ({ chanceForgotten }) => chanceForgotten ?? 0,
        );
        expect(chances).toEqual(chances.toSorted((a, b) => b - a));
      }),
    );
  });

  test("one item's results never change another's chance", () => {
    fc.assert(
      fc.property(someResults, aDay, (results, lessonDay) => {
        const alone = results.filter(({ item }) => item === "style:samba");
        const chanceIn = (of: readonly Result[]) =>
          nextTimeList({ results: of, lessonDay }).refresh.find(({ item }) => item === "style:samba")
            ?.chanceForgotten;
        expect(chanceIn(results)).toBe(chanceIn(alone));
      }),
    );
  });

  test("undoing everything gives the derived list", () => {
    fc.assert(
      fc.property(someResults, someChanges, aDay, (results, changes, lessonDay) => {
        const all: ListChange[] = [...changes];
        for (let latest = changeToUndo(all); latest; latest = changeToUndo(all)) {
          const at = `2030-01-01T00:00:00.${String(all.length).padStart(3, "0")}Z`;
          all.push({ ...MADE, kind: "undone", id: `undo-${all.length}`, at, changeId: latest.id });
        }
        expect(nextTimeList({ results, changes: all, lessonDay })).toEqual(
          nextTimeList({ results, lessonDay }),
        );
      }),
    );
  });
});
