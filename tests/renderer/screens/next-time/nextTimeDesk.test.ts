import { describe, expect, test } from "vitest";
import { acrossFrom, downFrom, upFrom } from "../../../../engine/memory/index.ts";
import { NextTimeDesk } from "../../../../renderer/screens/next-time/nextTimeDesk.ts";
import { inStudio, type NextTimePlace } from "../../../../renderer/screens/next-time/nextTimePlace.ts";
import { StoreError, type StudioDatabase } from "../../../../renderer/store/index.ts";
import { summaryOf } from "../../../engine/session/lessons.ts";
import { BRAM, BRAMS, emptyStudio, making, NOOR, row, studioOf } from "./studio.ts";

async function opened(database?: StudioDatabase, made = making()): Promise<NextTimeDesk> {
  const desk = new NextTimeDesk(inStudio(database ?? (await studioOf([NOOR, BRAM], BRAMS))), made);
  await desk.read();
  return desk;
}

function items(desk: NextTimeDesk) {
  const list = desk.get().open?.list;
  return {
    refresh: list?.refresh.map(({ item }) => item),
    new: list?.new.map(({ item }) => item),
    off: list?.crossedOff.map(({ item }) => item),
  };
}

const AT_FIRST = {
  refresh: ["sticking:flam-tap", "style:bossa-nova"],
  new: ["symbol:dotted-quarter-rest"],
  off: [],
};

test("before anything is read it waits; then the first student's list lies open, for the lesson ahead", async () => {
  const desk = new NextTimeDesk(inStudio(await studioOf([NOOR, BRAM], BRAMS)), making());
  expect(desk.get()).toMatchObject({ students: null, open: null });
  await desk.read();
  expect(desk.get().open?.student.nickname).toBe("Bram");
  // Monday's lesson was held today: the next is a week on.
  expect(desk.get().open?.lessonDay).toBe("2026-03-09");
  expect(items(desk)).toEqual(AT_FIRST);
  expect(desk.get().chosen).toBe("sticking:flam-tap");
});

test("no students: nothing is open, and nothing is wrong", async () => {
  const desk = await opened(emptyStudio());
  expect(desk.get()).toMatchObject({ students: [], open: null, trouble: null });
});

test("who no longer comes is not among them", async () => {
  const desk = await opened(await studioOf([NOOR, { ...BRAM, archived: true }], BRAMS));
  expect(desk.get().students?.map(({ nickname }) => nickname)).toEqual(["Noor"]);
  expect(items(desk)).toEqual({ refresh: [], new: [], off: [] });
});

test("another student has another list", async () => {
  const desk = await opened();
  await desk.choose("noor");
  expect(desk.get().open?.student.id).toBe("noor");
  expect(items(desk).refresh).toEqual([]);
  await desk.choose("nobody");
  expect(desk.get().open?.student.id).toBe("noor");
});

test("moved, crossed off, put back, added: each is kept, and seen by whoever reads the list again", async () => {
  const database = await studioOf([BRAM], BRAMS);
  const made = making();
  const desk = await opened(database, made);
  await desk.move("style:bossa-nova", upFrom);
  expect(items(desk).refresh).toEqual(["style:bossa-nova", "sticking:flam-tap"]);
  await desk.crossOff("sticking:flam-tap");
  expect(items(desk)).toEqual({ ...AT_FIRST, refresh: ["style:bossa-nova"], off: ["sticking:flam-tap"] });
  expect(desk.get().said).toBe("Flam Tap is crossed off. Undo brings it back.");
  expect(desk.get().chosen).toBe("symbol:dotted-quarter-rest");
  await desk.add("style:tango", "new");
  await desk.addWords("Bring the brushes", "refresh");
  const again = await opened(database, made);
  expect(again.get().open?.list).toEqual(desk.get().open?.list);
  expect(again.get().open?.list.refresh.at(-1)).toMatchObject({
    words: "Bring the brushes",
    teacher: "added",
  });
  expect(items(again).new).toEqual(["symbol:dotted-quarter-rest", "style:tango"]);
  await again.putBack("sticking:flam-tap");
  expect(items(again).refresh).toContain("sticking:flam-tap");
  expect(await database.listChanges.count()).toBe(5);
});

test("undo takes back one after the other, and says what", async () => {
  const desk = await opened();
  await desk.move("sticking:flam-tap", downFrom);
  await desk.move("style:bossa-nova", acrossFrom);
  await desk.undo();
  expect(desk.get().said).toBe("Undone: Bossa nova moved.");
  expect(items(desk).refresh).toEqual(["style:bossa-nova", "sticking:flam-tap"]);
  await desk.undo();
  expect(items(desk)).toEqual(AT_FIRST);
  await desk.undo();
  expect(items(desk)).toEqual(AT_FIRST);
});

test("keys in quick succession are as many changes, each from the list the one before left", async () => {
  const desk = await opened();
  await Promise.all([
    desk.move("sticking:flam-tap", downFrom),
    desk.crossOff("style:bossa-nova"),
    desk.undo(),
    desk.undo(),
  ]);
  expect(items(desk)).toEqual(AT_FIRST);
  expect(desk.get().open?.evidence.changes).toHaveLength(4);
});

test("where there is nowhere to move to, nothing is kept", async () => {
  const desk = await opened();
  await desk.move("sticking:flam-tap", upFrom);
  await desk.putBack("sticking:flam-tap");
  await desk.crossOff("style:tango");
  expect(desk.get().open?.evidence.changes).toEqual([]);
});

test("for another day, and with more wanted, it is another list; what is wanted is kept", async () => {
  const database = await studioOf([BRAM], BRAMS);
  const desk = await opened(database);
  desk.forDay("2027-03-08");
  expect(items(desk).refresh).toContain("style:samba");
  desk.forDay("2026-04-06");
  await desk.want(0.97);
  expect(items(desk).refresh).toContain("style:samba");
  expect((await opened(database)).get().retention).toBe(0.97);
  await desk.want(0.7);
  expect(items(desk).refresh).not.toContain("style:samba");
});

test("what takes show of the skills is on the list too, with the studio's own names", async () => {
  const database = await studioOf([BRAM], []);
  const summary = summaryOf("take-1", {
    studentId: "bram",
    spreadMs: 90,
    called: { id: "own/3", name: "The one from March" },
  });
  await database.takes.add({ version: 2, day: "2026-03-02", ...summary });
  const desk = await opened(database);
  expect(items(desk).refresh).toContain("skill:time");
  expect(desk.get().open?.evidence.ownNames.get("style:own/3")).toBe("The one from March");
});

test.each([
  // 40 ms of spread is steady in the first year's band, and not in Bram's of today.
  ["the band of the level then", "first-year", false],
  ["the band of today where the level then was not kept", null, true],
] as const)("an old take is looked at in %s", async (_, level, isMissed) => {
  const database = await studioOf([{ ...BRAM, level: "working" }], []);
  const summary = summaryOf("take-1", { studentId: "bram", spreadMs: 40, level });
  await database.takes.add({ version: 2, day: "2026-01-02", ...summary });
  const desk = await opened(database);
  const latest = desk.get().open?.evidence.results.find(({ item }) => item === "skill:time");
  expect(latest?.outcome).toBe(isMissed ? "slipped" : "known");
});

test("what another window adds is seen, for the day that was asked for", async () => {
  const database = await studioOf([BRAM], BRAMS);
  const desk = await opened(database);
  desk.forDay("2026-03-16");
  const changed = new Promise<void>((resolve) => {
    desk.subscribe(() => {
      if (items(desk).refresh?.includes("style:tango")) resolve();
    });
  });
  const stop = desk.follow();
  await database.results.add(row("style:tango", "slipped", "2026-03-02", 7));
  await changed;
  stop();
  expect(desk.get().open?.lessonDay).toBe("2026-03-16");
});

describe("where the storage fails", () => {
  const failing = (how: Partial<NextTimePlace>): NextTimePlace => ({ ...inStudio(emptyStudio()), ...how });
  const refuse = (sentence: string) => () => Promise.reject(new StoreError(sentence));

  test("it is told, and the page can be read again", async () => {
    let isBroken = true;
    const students = () => (isBroken ? refuse("Cannot be read.")() : Promise.resolve([NOOR]));
    const desk = new NextTimeDesk(failing({ students }), making());
    await desk.read();
    expect(desk.get()).toMatchObject({ students: null, trouble: "Cannot be read." });
    isBroken = false;
    await desk.read();
    expect(desk.get().trouble).toBeNull();
    expect(desk.get().open?.student.id).toBe("noor");
  });

  test("a change that is not kept is not seen", async () => {
    const place = inStudio(await studioOf([BRAM], BRAMS));
    const desk = new NextTimeDesk({ ...place, keep: refuse("There is no room left.") }, making());
    await desk.read();
    await desk.crossOff("style:bossa-nova");
    expect(desk.get().trouble).toBe("There is no room left.");
    expect(items(desk)).toEqual(AT_FIRST);
  });

  test("what is no fault of the storage is not swallowed", async () => {
    const desk = new NextTimeDesk(
      failing({ students: () => Promise.reject(new TypeError("a slip")) }),
      making(),
    );
    await expect(desk.read()).rejects.toThrow("a slip");
  });
});
