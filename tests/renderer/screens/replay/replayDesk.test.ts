import { Dexie } from "dexie";
import { IDBFactory, IDBKeyRange } from "fake-indexeddb";
import { describe, expect, test } from "vitest";
import type { Hit } from "../../../../engine/kit/index.ts";
import { lessonState, type SessionEvent } from "../../../../engine/session/index.ts";
import { type OpenLesson, ReplayDesk } from "../../../../renderer/screens/replay/replayDesk.ts";
import { LessonLog } from "../../../../renderer/session/lessonLog.ts";
import { readLesson, StudioDatabase, writeEvents } from "../../../../renderer/store/index.ts";
import { LESSON, playedLesson } from "./playedLesson.ts";

// A live query looks for the browser's own storage, whatever the database was given.
Dexie.dependencies.indexedDB = new IDBFactory();
Dexie.dependencies.IDBKeyRange = IDBKeyRange;

const began = LESSON[0];
const LESSON_ID = began?.kind === "lesson-began" ? began.lessonId : "";

async function kept(events: readonly SessionEvent[]): Promise<StudioDatabase> {
  const database = new StudioDatabase("studio", { indexedDB: new IDBFactory(), IDBKeyRange });
  await writeEvents(database, lessonState(events), events);
  return database;
}

function deskOn(database: StudioDatabase, log = new LessonLog()) {
  let ids = 0;
  const newId = (): string => {
    ids += 1;
    return `new-${ids}`;
  };
  return new ReplayDesk({ database, log, newId });
}

function opened(desk: ReplayDesk): OpenLesson {
  const state = desk.get();
  if (state.stage !== "open") throw new Error(`The lesson is not open: ${JSON.stringify(state)}`);
  return state.lesson;
}

const texts = (desk: ReplayDesk) =>
  opened(desk).moments.whole.remarks.map(({ time, text, flagged }) => ({ time, text, flagged }));
const FIRST = { time: 9.5, text: "Shoulders up.", flagged: true };

describe("opening", () => {
  test("a kept lesson is the lesson that was played, event for event", async () => {
    const desk = deskOn(await kept(LESSON));
    expect(desk.get().stage).toBe("loading");
    await desk.open(LESSON_ID);
    expect(opened(desk).moments.events).toEqual(LESSON);
    expect(opened(desk).moments.whole).toEqual(lessonState(LESSON));
    expect(opened(desk)).toMatchObject({ setAside: 0, newer: 0, trouble: null });
  });

  test("one that is not there is told apart from one that cannot be read", async () => {
    const database = await kept(LESSON);
    const desk = deskOn(database);
    await desk.open("elsewhere");
    expect(desk.get()).toEqual({ stage: "none" });
    await database.events
      .where("lessonId")
      .equals(LESSON_ID)
      .count()
      .catch(() => 0);
    await database.table("events").toCollection().modify({ version: 99 });
    await desk.open(LESSON_ID);
    expect(desk.get()).toMatchObject({ stage: "failed", reason: expect.stringContaining("newer version") });
  });

  test("broken rows are counted, and the rest is shown", async () => {
    const database = await kept(LESSON);
    const remark = LESSON.find(({ kind }) => kind === "remark");
    await database.table("events").update([LESSON_ID, remark?.seq ?? 0], { event: { kind: "remark" } });
    const desk = deskOn(database);
    await desk.open(LESSON_ID);
    expect(opened(desk).setAside).toBe(1);
    expect(texts(desk)).toEqual([]);
    expect(opened(desk).strikes.hits.length).toBeGreaterThan(100);
  });

  test("storage that fails is told in a sentence", async () => {
    const database = await kept(LESSON);
    database.close();
    const desk = deskOn(database);
    await desk.open(LESSON_ID);
    expect(desk.get()).toMatchObject({ stage: "failed", reason: expect.stringMatching(/\w+\.$/) });
  });
});

describe("remarks", () => {
  test("added, worded anew, flagged, taken back: each is undone in turn, and all of it is in the log", async () => {
    const database = await kept(LESSON);
    const desk = deskOn(database);
    await desk.open(LESSON_ID);
    const before = texts(desk);
    const id = desk.newRemarkId();
    await desk.remark({ remarkId: id, now: { time: 20, lane: 0, text: "Good count-in", flagged: false } });
    await desk.remark({ remarkId: id, now: { time: 20, lane: 0, text: "Good count-in!", flagged: true } });
    await desk.remark({ remarkId: "m1", now: null });
    expect(texts(desk)).toEqual([{ time: 20, text: "Good count-in!", flagged: true }]);
    await desk.undo();
    expect(texts(desk)).toEqual([FIRST, { time: 20, text: "Good count-in!", flagged: true }]);
    await desk.undo();
    expect(texts(desk)).toEqual([FIRST, { time: 20, text: "Good count-in", flagged: false }]);
    await desk.undo();
    await desk.undo();
    expect(texts(desk)).toEqual(before);
    expect(opened(desk).undo).toEqual([]);
    const { events } = await readLesson(database, LESSON_ID);
    expect(events.slice(0, LESSON.length)).toEqual(LESSON);
    expect(events.slice(LESSON.length).map(({ kind }) => kind)).toEqual([
      "remark",
      "remark",
      "remark-withdrawn",
      "remark",
      "remark",
      "remark-withdrawn",
    ]);
    expect(lessonState(events)).toEqual(opened(desk).moments.whole);
  });

  test("the lesson is as long as it was, and its list knows the flag", async () => {
    const database = await kept(LESSON);
    const desk = deskOn(database);
    await desk.open(LESSON_ID);
    const { seconds } = opened(desk).moments;
    const row = await database.lessons.get(LESSON_ID);
    await desk.remark({ remarkId: "m2", now: { time: 1, lane: 0, text: "", flagged: true } });
    expect(opened(desk).moments.seconds).toBe(seconds);
    expect(await database.lessons.get(LESSON_ID)).toEqual({ ...row, flags: 2 });
  });

  test("what another window wrote meanwhile keeps its place", async () => {
    const database = await kept(LESSON);
    const [one, other] = [deskOn(database), deskOn(database)];
    await one.open(LESSON_ID);
    await other.open(LESSON_ID);
    await other.remark({ remarkId: "theirs", now: { time: 2, lane: 0, text: "theirs", flagged: false } });
    await one.remark({ remarkId: "ours", now: { time: 3, lane: 0, text: "ours", flagged: false } });
    expect(texts(one).map(({ text }) => text)).toEqual(["theirs", "ours", FIRST.text]);
    const { events } = await readLesson(database, LESSON_ID);
    expect(events.map(({ seq }) => seq)).toEqual(events.map((_, index) => index + 1));
  });

  test("two at once come one after the other", async () => {
    const database = await kept(LESSON);
    const desk = deskOn(database);
    await desk.open(LESSON_ID);
    await Promise.all(
      [1, 2, 3].map((time) =>
        desk.remark({ remarkId: `r${time}`, now: { time, lane: 0, text: `${time}`, flagged: false } }),
      ),
    );
    expect(texts(desk).map(({ text }) => text)).toEqual(["1", "2", "3", FIRST.text]);
    expect(opened(desk).undo.length).toBe(3);
  });

  test("of a lesson that is on elsewhere they are refused, with the reason", async () => {
    const open = playedLesson({ at: "2026-03-03T15:30:00.000Z", takes: [], ended: false });
    const id = open[0]?.kind === "lesson-began" ? open[0].lessonId : "";
    const desk = deskOn(await kept(open));
    await desk.open(id);
    expect(desk.canRemark(opened(desk))).toBe(false);
    await desk.remark({ remarkId: "r", now: { time: 1, lane: 0, text: "x", flagged: false } });
    expect(opened(desk).trouble).toContain("in another window");
    expect(texts(desk)).toEqual([]);
    expect(opened(desk).undo).toEqual([]);
  });

  test("of the lesson that is on in this window they go through its log", async () => {
    let now = 100;
    const log = new LessonLog({ now: () => now, instant: () => "2026-03-03T15:30:00.000Z" });
    log.begin({ lessonId: "on", studentIds: [], lanes: [{ studentId: null, source: "kit" }], zone: "UTC" });
    const database = await kept([...log.events]);
    const desk = deskOn(database, log);
    await desk.open("on");
    now = 130;
    await desk.remark({ remarkId: "r", now: { time: 4, lane: 0, text: "x", flagged: false } });
    expect(log.get().remarks).toEqual([{ remarkId: "r", time: 4, lane: 0, text: "x", flagged: false }]);
    expect(texts(desk)).toEqual([{ time: 4, text: "x", flagged: false }]);
  });
});

describe("a lesson that is on", () => {
  const struck = (time: number): Hit => ({ time, voice: "snare", zone: "head", velocity: 0.5, pad: 38 });

  function lessonOn() {
    let now = 100;
    const log = new LessonLog({ now: () => now, instant: () => "2026-03-03T15:30:00.000Z" });
    const pass = (seconds: number): void => {
      now += seconds;
    };
    log.begin({ lessonId: "on", studentIds: [], lanes: [{ studentId: null, source: "kit" }], zone: "UTC" });
    return { log, pass, now: () => now };
  }

  const strikesSeen = (desk: ReplayDesk) => opened(desk).strikes.hits.length;

  test("in this window is open with all of it, also what is not yet written, and goes on", async () => {
    const { log, pass, now } = lessonOn();
    const database = await kept([...log.events]);
    pass(2);
    log.addHits([struck(now())]);
    const desk = deskOn(database, log);
    await desk.open("on");
    expect(opened(desk)).toMatchObject({ on: "here" });
    expect(strikesSeen(desk)).toBe(1);
    pass(3);
    log.addHits([struck(now() - 1), struck(now())]);
    await expect.poll(() => strikesSeen(desk)).toBe(3);
    expect(opened(desk).moments.whole).toEqual(log.get());
    expect(opened(desk).lanes[0]?.strikes.hits).toHaveLength(3);
    log.end();
    await expect.poll(() => opened(desk).on).toBeNull();
    expect(opened(desk).moments.whole.stage).toBe("ended");
    desk.close();
  });

  test("in another window comes in as that one writes it, up to its end", async () => {
    const other = lessonOn();
    const database = await kept([...other.log.events]);
    const desk = deskOn(database);
    await desk.open("on");
    expect(opened(desk)).toMatchObject({ on: "elsewhere" });
    let written = other.log.events.length;
    const write = async (): Promise<void> => {
      await writeEvents(database, other.log.get(), other.log.events.slice(written));
      written = other.log.events.length;
    };
    other.pass(2);
    other.log.addHits([struck(other.now())]);
    await write();
    await expect.poll(() => strikesSeen(desk)).toBe(1);
    other.log.end();
    await write();
    await expect.poll(() => opened(desk).on).toBeNull();
    expect(opened(desk).moments.whole).toEqual(other.log.get());
    expect(desk.canRemark(opened(desk))).toBe(true);
  });

  test("is let go when the page is left", async () => {
    const { log, pass, now } = lessonOn();
    const desk = deskOn(await kept([...log.events]), log);
    await desk.open("on");
    desk.close();
    const before = desk.get();
    pass(1);
    log.addHits([struck(now())]);
    // What would be shown is shown within this.
    await new Promise((resolve) => setTimeout(resolve, 600));
    expect(desk.get()).toBe(before);
  });
});
