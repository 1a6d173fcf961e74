import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  acrossFrom,
  crossingOff,
  type Destination,
  downFrom,
  findItems,
  type ItemId,
  type ListChange,
  lessonAhead,
  nextTimeList,
  placeOnList,
  upFrom,
} from "../../../engine/memory/index.ts";
import { aDay, anItem, someResults } from "./laws.ts";

function moved(item: ItemId, to: Destination): ListChange {
  return {
    version: 1,
    id: "move",
    studentId: "ottilie",
    at: "2030-01-01T00:00:00.000Z",
    day: "2030-01-01",
    kind: "moved",
    item,
    ...to,
  };
}

describe("laws of moving, on the list that then comes out", () => {
  test.each([
    ["up", upFrom, -1],
    ["down", downFrom, 1],
  ] as const)(
    "%s is one place in the same part, others keep their order; at the edge there is no way",
    (_, from, step) => {
      fc.assert(
        fc.property(someResults, aDay, anItem, (results, lessonDay, item) => {
          const list = nextTimeList({ results, lessonDay });
          const place = placeOnList(list, item);
          const to = from(list, item);
          const last = place ? list[place.section].length - 1 : 0;
          expect(to === null).toBe(place === null || place.at === (step < 0 ? 0 : last));
          if (!to || !place) return;
          const after = nextTimeList({ results, lessonDay, changes: [moved(item, to)] });
          expect(placeOnList(after, item)).toEqual({ section: place.section, at: place.at + step });
          const others = (of: typeof list) =>
            of[place.section].map((each) => each.item).filter((each) => each !== item);
          expect(others(after)).toEqual(others(list));
        }),
      );
    },
  );

  test("across is first in the other part, and back again", () => {
    fc.assert(
      fc.property(someResults, aDay, anItem, (results, lessonDay, item) => {
        const list = nextTimeList({ results, lessonDay });
        const place = placeOnList(list, item);
        const to = acrossFrom(list, item);
        expect(to === null).toBe(place === null);
        if (!to || !place) return;
        const after = nextTimeList({ results, lessonDay, changes: [moved(item, to)] });
        expect(placeOnList(after, item)).toEqual({ section: to.section, at: 0 });
        expect(to.section).not.toBe(place.section);
        expect(acrossFrom(after, item)?.section).toBe(place.section);
      }),
    );
  });
});

test("the crossing-off that holds is found, not one that was taken back", () => {
  const made = { version: 1, studentId: "ottilie", day: "2026-03-02" } as const;
  const off: ListChange = {
    ...made,
    id: "a",
    at: "2026-03-02T18:00:00.000Z",
    kind: "crossed-off",
    item: "style:samba",
  };
  const back: ListChange = {
    ...made,
    id: "b",
    at: "2026-03-02T18:01:00.000Z",
    kind: "undone",
    changeId: "a",
  };
  expect(crossingOff([off], "style:samba")?.id).toBe("a");
  expect(crossingOff([off, back], "style:samba")).toBeUndefined();
  expect(crossingOff([off], "style:tango")).toBeUndefined();
});

test("items are found by part of a name, without accents, those met and those of the stock", () => {
  expect(findItems("baiao", [])).toContain("style:baiao");
  expect(findItems("flam", ["sticking:flam-tap"])).toContain("sticking:flam-tap");
  expect(findItems("sa", [])[0]).toBe("style:samba");
  expect(findItems("steady", [])).toContain("skill:time");
  expect(findItems("  ", [])).toEqual([]);
  expect(findItems("a", []).length).toBe(6);
  expect(findItems("nothing of the kind", [])).toEqual([]);
});

test.each([
  ["the weekday has come, and no lesson yet", "2026-03-02", 1, "2026-02-23", "2026-03-02"],
  ["no lesson ever", "2026-03-02", 1, null, "2026-03-02"],
  ["today's lesson is over", "2026-03-02", 1, "2026-03-02", "2026-03-09"],
  ["between lessons", "2026-03-04", 1, "2026-03-02", "2026-03-09"],
  ["no weekday agreed", "2026-03-02", undefined, "2026-03-02", "2026-03-09"],
] as const)("the lesson ahead: %s", (_, today, weekday, lastHeld, day) => {
  expect(lessonAhead(today, weekday, lastHeld)).toBe(day);
});
