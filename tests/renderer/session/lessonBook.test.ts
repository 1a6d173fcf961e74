import { describe, expect, test, vi } from "vitest";
import { hitCount } from "../../../engine/records/index.ts";
import {
  judgeTake,
  NEW_ROUND,
  type RoundEvent,
  roundAfter,
  type Sitting,
} from "../../../engine/rounds/index.ts";
import { lessonState, localDay, localTime } from "../../../engine/session/index.ts";
import { KitLog } from "../../../renderer/session/kitLog.ts";
import { LessonFollower } from "../../../renderer/session/lessonFollower.ts";
import { Store } from "../../../renderer/session/store.ts";
import {
  lessonOf,
  lessonsOfStudent,
  readLesson,
  resultsOfStudent,
  takesOfGroove,
  takesOfStudent,
} from "../../../renderer/store/index.ts";
import { TestClock, TestLocks, testPlace } from "./lessonPlace.ts";
import { database, hit, opened, rock, sitDown } from "./lessonsPlayed.ts";

describe("what is kept", () => {
  test("a lesson is kept as it happens, and read back the same", async () => {
    const { book, data, place } = await opened();
    book.begin(["bram"]);
    place.clock.pass(2);
    book.log.addHits([hit(1001.5), hit(1001.75)]);
    book.remark("the left hand", { flagged: true });
    place.clock.pass(60);
    book.end();
    await book.writer.write();
    const lessonId = book.log.get().began?.lessonId ?? "";
    const { events } = await readLesson(data, lessonId);
    expect(events).toEqual(book.log.events);
    expect(lessonState(events)).toEqual(book.log.get());
    expect(events[1]).toMatchObject({ kind: "hit", time: 1.5 });
    expect(await lessonsOfStudent(data, "bram")).toEqual([
      expect.objectContaining({ id: lessonId, hits: 2, flags: 1, seconds: 62, day: "2026-03-02" }),
    ]);
  });

  test("nothing is asked to write it: it is in the database by itself", async () => {
    const { book, data } = await opened();
    book.begin(["bram"]);
    for (let index = 0; index < 20; index += 1) book.log.addHits([hit(1000 + index / 10)]);
    await vi.waitFor(async () => expect(await data.hits.count()).toBeGreaterThan(0));
    await vi.waitFor(() => expect(book.writer.unwritten).toEqual([]));
    const lessonId = book.log.get().began?.lessonId ?? "";
    expect((await readLesson(data, lessonId)).events).toEqual(book.log.events);
  });

  test("a strike that comes when the writing is late is written at once", async () => {
    let nowMs = 0;
    const place = testPlace();
    const { book } = await opened({ ...place, writer: { ...place.writer, nowMs: () => nowMs } });
    book.begin(["bram"]);
    await book.writer.write();
    book.log.addHits([hit(1000.5)]);
    expect(book.writer.unwritten).toHaveLength(1);
    // The page was busy for so long that the timer could not fire.
    nowMs = 400;
    book.log.addHits([hit(1000.9)]);
    expect(book.writer.unwritten).toEqual([]);
  });

  test("leaving the window writes what is left", async () => {
    const { book, data, place } = await opened();
    book.begin(["bram"]);
    await book.writer.write();
    book.log.addHits([hit(1000.5)]);
    place.leave();
    await vi.waitFor(async () => expect(await data.hits.count()).toBe(1));
  });

  test("the many small rows of a lesson are joined when it ends: the same strikes", async () => {
    const { book, data } = await opened();
    book.begin(["bram"]);
    for (let index = 0; index < 50; index += 1) {
      book.log.addHits([hit(1000 + index, index % 7 === 0 ? 0.123 : 1), hit(1000.2 + index)]);
      await book.writer.write();
    }
    const before = await data.hits.count();
    book.end();
    await book.writer.write();
    expect(before).toBeGreaterThanOrEqual(50);
    const rows = await data.hits.toArray();
    expect(rows.map(hitCount)).toEqual([100]);
    expect((await readLesson(data, book.log.get().began?.lessonId ?? "")).events).toEqual(book.log.events);
  });

  test("a lesson that begins before the last one is written takes nothing from it", async () => {
    const { book, data } = await opened();
    book.begin(["bram"]);
    book.log.addHits([hit(1000.5)]);
    const first = book.log.events;
    const firstId = book.log.get().began?.lessonId ?? "";
    book.begin(["noor"]);
    await book.writer.write();
    const { events } = await readLesson(data, firstId);
    expect(events).toEqual(first);
    expect(events.at(-1)?.kind).toBe("lesson-ended");
    expect(await lessonsOfStudent(data, "noor")).toHaveLength(1);
  });
});

describe("a take that is not judged when its lesson ends", () => {
  /** A take that was stopped; the round's own judge never answers. */
  async function thoughtOver(place = testPlace()) {
    const { book, data } = await opened(place);
    const seat = sitDown(book);
    await book.begin(["bram"]);
    const hits = seat.strike("rock-eighths", place.clock);
    seat.round.dispatch({ kind: "stopped", hits });
    return { book, data, seat, hits };
  }
  const judgements = ({ log }: { log: { events: readonly { kind: string }[] } }) =>
    log.events.filter(({ kind }) => kind === "judgement").length;

  test("is judged from its strikes first: it is in the lists, in the tally and in the evidence", async () => {
    const { book, data } = await thoughtOver();
    await book.end();
    await book.writer.write();
    expect(book.log.get().stage).toBe("ended");
    expect(book.log.get().rounds[0]?.tally.map(({ item, outcome }) => [item, outcome])).toEqual([
      ["style:rock-eighths", "known"],
    ]);
    expect(await takesOfStudent(data, "bram")).toMatchObject([
      { groove: { id: "rock-eighths" }, hitCount: 48 },
    ]);
    expect(await resultsOfStudent(data, "bram")).toHaveLength(1);
  });

  test("so it is when its round ends because another begins", async () => {
    const { book } = await thoughtOver();
    const next = book.beginRound("back-turned", ["bram"], 0);
    await vi.waitFor(() => expect(book.log.get().rounds[0]?.to).not.toBeNull());
    expect(book.log.get().rounds.map(({ round, to, tally }) => [round, to !== null, tally.length])).toEqual([
      ["call-a-style", true, 1],
      ["back-turned", false, 0],
    ]);
    await book.endRound();
    expect(book.log.get().rounds.find(({ roundId }) => roundId === next)?.to).not.toBeNull();
  });

  test("one that the round itself judges meanwhile is judged once", async () => {
    const place = testPlace();
    let answer = (): void => {};
    const slow = new Promise<void>((done) => {
      answer = done;
    });
    const { book, seat, hits } = await thoughtOver({
      ...place,
      judge: async (take, shelf) => {
        await slow;
        return place.judge(take, shelf);
      },
    });
    const ended = book.end();
    expect(book.log.isOn).toBe(true);
    seat.round.dispatch({
      kind: "judged",
      judgement: judgeTake({ hits, styleId: "rock-eighths", click: null }),
    });
    await ended;
    answer();
    expect(book.log.get().stage).toBe("ended");
    expect(judgements(book)).toBe(1);
    expect(book.log.get().rounds[0]?.tally).toHaveLength(1);
  });

  test("where it cannot be judged the lesson ends without, and that is told until the next one begins", async () => {
    const place = testPlace();
    const { book } = await thoughtOver({
      ...place,
      judge: () => Promise.reject(new Error("Listening stopped.")),
    });
    await book.end();
    await book.writer.write();
    expect(book.log.get().stage).toBe("ended");
    expect(judgements(book)).toBe(0);
    expect(book.writer.get().mishap).toContain("could not be judged: Listening stopped.");
    await book.begin(["noor"]);
    expect(book.writer.get().mishap).toBeNull();
  });

  test("a lesson that begins meanwhile waits for it", async () => {
    const { book, data } = await thoughtOver();
    await book.begin(["noor"]);
    await book.writer.write();
    expect(book.log.get().began?.studentIds).toEqual(["noor"]);
    expect(await takesOfStudent(data, "bram")).toHaveLength(1);
    expect(await lessonsOfStudent(data, "bram")).toMatchObject([{ endedAt: expect.any(String), takes: 1 }]);
  });

  test("one that is still being played counts only where it held", async () => {
    const place = testPlace();
    const { book } = await opened(place);
    const seat = sitDown(book);
    await book.begin(["bram"]);
    seat.strike("bossa-nova", place.clock);
    await book.end();
    expect(judgements(book)).toBe(1);
    expect(book.log.get().rounds[0]?.tally).toEqual([]);
  });
});

describe("a round of Call a Style", () => {
  test("its takes, what was said of them and what that shows are in the log, the lists and the evidence", async () => {
    const { book, data, place } = await opened();
    const seat = sitDown(book);
    book.begin(["bram"]);
    for (let take = 0; take < 2; take += 1) seat.playTake("rock-eighths", place.clock);
    book.end();
    await book.writer.write();
    const state = book.log.get();
    expect(state.rounds).toHaveLength(1);
    expect(state.rounds[0]?.takes.map(({ hitCount: count }) => count)).toEqual([48, 48]);
    const takes = await takesOfStudent(data, "bram");
    expect(takes.map(({ at }) => at)).toEqual(["2026-03-02T15:30:10.000Z", "2026-03-02T15:30:00.000Z"]);
    expect(takes[0]).toMatchObject({
      groove: { id: "rock-eighths" },
      hitCount: 48,
      voiceAccuracy: 1,
      leanMs: null,
    });
    expect(takes[0]?.tempoBpm).toBeCloseTo(100, 1);
    expect(await takesOfGroove(data, "bram", "rock-eighths")).toEqual([...takes].reverse());
    const results = await resultsOfStudent(data, "bram");
    expect(results.map(({ item, outcome }) => [item, outcome])).toEqual([
      ["style:rock-eighths", "known"],
      ["style:rock-eighths", "known"],
    ]);
    expect((await lessonOf(data, state.began?.lessonId ?? ""))?.takes).toBe(2);
  });

  test("without a lesson nothing is recorded", async () => {
    const { book, data, place } = await opened();
    const kit = new KitLog();
    const round = new Store<Sitting, RoundEvent>(NEW_ROUND, roundAfter);
    book.record(kit, round);
    round.dispatch({ kind: "started", click: null });
    kit.append([{ source: "kit", live: true, event: { kind: "hit", hit: hit(place.clock.seconds) } }]);
    await book.writer.write();
    expect(book.log.events).toEqual([]);
    expect(await data.hits.count()).toBe(0);
  });

  test("a piece that is read at once counts as played from then on", async () => {
    const { book, place } = await opened();
    const kit = new KitLog();
    const round = new Store<Sitting, RoundEvent>(NEW_ROUND, roundAfter);
    book.record(kit, round);
    book.begin(["bram"]);
    place.clock.pass(5);
    round.dispatch({ kind: "started", click: null });
    const hits = rock(place.clock.seconds - 9.3);
    kit.append(
      hits.map((each) => ({ source: "demonstration", live: false, event: { kind: "hit", hit: each } })),
    );
    round.dispatch({ kind: "stopped", hits });
    const [take] = book.log.get().rounds[0]?.takes ?? [];
    expect(take).toMatchObject({ hitCount: 48, from: 5 });
    expect(take?.to).toBeCloseTo(14.3, 6);
  });
});

describe("clocks", () => {
  test("a calendar that is set back or ahead within a lesson moves nothing in it", async () => {
    const { book, place } = await opened();
    book.begin(["bram"]);
    place.clock.pass(10);
    place.clock.setCalendar("2019-01-01T00:00:00.000Z");
    book.log.addHits([hit(1009)]);
    book.log.pause();
    place.clock.pass(10);
    place.clock.setCalendar("2030-01-01T00:00:00.000Z");
    book.log.resume();
    place.clock.pass(10);
    book.end();
    expect(book.log.get().time).toBe(30);
    expect(book.log.events.map(({ time }) => time)).toEqual([0, 9, 10, 20, 30]);
    expect(book.log.instantOf(30)).toBe("2026-03-02T15:30:30.000Z");
  });

  test.each([
    // Vienna, 29 March 2026: 02:00 becomes 03:00. 25 October 2026: 03:00 becomes 02:00.
    ["in spring", "2026-03-29T00:45:00.000Z", "01:45", "03:15"],
    ["in autumn", "2026-10-25T00:45:00.000Z", "02:45", "02:15"],
  ])("half an hour over the change of the clocks %s is half an hour", async (_, at, from, to) => {
    const clock = new TestClock();
    clock.setCalendar(at);
    const { book, data } = await opened(testPlace(clock));
    book.begin(["bram"]);
    clock.pass(1800);
    book.end();
    await book.writer.write();
    const [lesson] = await lessonsOfStudent(data, "bram");
    const there = (instant: string | null | undefined) => localTime(instant ?? "", lesson?.zone ?? "");
    expect([there(lesson?.at), there(lesson?.endedAt)]).toEqual([from, to]);
    expect(lesson?.seconds).toBe(1800);
  });

  test("a lesson past midnight, over the change of the clocks, is one lesson of one day", async () => {
    const clock = new TestClock();
    clock.setCalendar("2026-03-28T22:45:00.000Z");
    const { book, data, place } = await opened(testPlace(clock));
    book.begin(["bram"]);
    place.clock.pass(4 * 3600);
    book.end();
    await book.writer.write();
    const [lesson] = await lessonsOfStudent(data, "bram");
    expect(lesson).toMatchObject({ day: "2026-03-28", seconds: 14_400, endedAt: "2026-03-29T02:45:00.000Z" });
    expect(localDay(lesson?.endedAt ?? "", lesson?.zone ?? "")).toBe("2026-03-29");
  });
});

test("of two students on two kits each has their own takes, strikes and results", async () => {
  const { book, data, place } = await opened();
  const [first, second] = [sitDown(book, 0), sitDown(book, 1)];
  const lanes = ["bram", "noor"].map((studentId) => ({ studentId, source: "kit" as const }));
  book.begin(["bram", "noor"], lanes);
  first.round.dispatch({ kind: "called", styleId: "rock-eighths" });
  first.round.dispatch({ kind: "started", click: null });
  const from = place.clock.seconds;
  second.playTake("samba", place.clock);
  const hits = rock(from).slice(0, 40);
  first.kit.append(hits.map((each) => ({ source: "kit", live: true, event: { kind: "hit", hit: each } })));
  first.round.dispatch({ kind: "stopped", hits });
  const judgement = judgeTake({ hits, styleId: "rock-eighths", click: null });
  first.round.dispatch({ kind: "judged", judgement });
  book.end();
  await book.writer.write();
  const lessonId = book.log.get().began?.lessonId ?? "";
  const { events } = await readLesson(data, lessonId);
  expect(lessonState(events)).toEqual(book.log.get());
  for (const [id, style, strikes, outcome] of [
    ["bram", "rock-eighths", 40, "known"],
    ["noor", "samba", 48, "new"],
  ] as const) {
    expect(
      (await takesOfStudent(data, id)).map(({ called, hitCount: count }) => [called?.id, count]),
    ).toEqual([[style, strikes]]);
    expect((await resultsOfStudent(data, id)).map((each) => [each.item, each.outcome])).toEqual([
      [`style:${style}`, outcome],
    ]);
    expect(await lessonsOfStudent(data, id)).toEqual([
      expect.objectContaining({ id: lessonId, hits: 88, rounds: 2 }),
    ]);
  }
});

test("a lesson with more strikes than a function takes arguments is kept, and followed", async () => {
  const { book, data } = await opened();
  book.begin(["bram"]);
  const strikes = Array.from({ length: 200_000 }, (_, index) => hit(1000 + index / 200));
  await book.writer.write();
  book.log.addHits([hit(1000)]);
  book.log.addHits(strikes);
  await book.writer.write();
  const follower = new LessonFollower(data);
  follower.follow(book.log.get().began?.lessonId ?? "");
  await vi.waitFor(() =>
    expect([follower.get().trouble, follower.get().lesson.hitCount]).toEqual([null, 200_001]),
  );
  follower.stop();
});

describe("two windows", () => {
  test("one writes, the other follows it and takes over when it goes", async () => {
    const locks = new TestLocks();
    const one = await opened(testPlace(new TestClock(), locks));
    const two = await opened(testPlace(new TestClock(), locks), database(one.data.factory));
    expect(one.book.writer.get().stage).toBe("writing");
    expect(two.book.writer.get().stage).toBe("following");
    one.book.begin(["bram"]);
    one.book.log.addHits([hit(1000.5)]);
    await one.book.writer.write();
    const lessonId = one.book.log.get().began?.lessonId ?? "";
    const follower = new LessonFollower(two.data);
    follower.follow(lessonId);
    await vi.waitFor(() =>
      expect([follower.get().trouble, follower.get().lesson.hitCount]).toEqual([null, 1]),
    );
    one.book.log.addHits([hit(1001)]);
    one.book.remark("good");
    await one.book.writer.write();
    await vi.waitFor(() => expect(follower.get().lesson).toEqual(one.book.log.get()));
    expect(follower.events).toEqual(one.book.log.events);
    follower.stop();
    await one.book.writer.release();
    await vi.waitFor(() => expect(two.book.writer.get().stage).toBe("writing"));
  });

  test("a window that follows writes nothing", async () => {
    const locks = new TestLocks();
    const one = await opened(testPlace(new TestClock(), locks));
    const two = await opened(testPlace(new TestClock(), locks), database(one.data.factory));
    two.book.begin(["noor"]);
    await two.book.writer.write();
    expect(await two.data.events.count()).toBe(0);
    expect(two.book.writer.unwritten).toHaveLength(1);
  });
});

describe("where the storage takes nothing", () => {
  test("it is told with what to do, nothing is lost, and it is written when there is room", async () => {
    const { book, data } = await opened();
    let isFull = true;
    const refuse = () => {
      if (isFull) throw new DOMException("The disk is full.", "QuotaExceededError");
    };
    data.hits.hook("creating", refuse);
    data.events.hook("creating", refuse);
    book.begin(["bram"]);
    book.log.addHits([hit(1000.5)]);
    await book.writer.write();
    expect(book.writer.get().trouble).toMatch(
      /no room left.*held in this window.*save the lesson as a file/s,
    );
    expect(book.writer.unwritten).toEqual(book.log.events);
    book.log.addHits([hit(1001)]);
    isFull = false;
    await book.writer.write();
    expect(book.writer.get().trouble).toBeNull();
    expect((await readLesson(data, book.log.get().began?.lessonId ?? "")).events).toEqual(book.log.events);
  });

  test("rows that cannot be read are set aside as they are, newer ones stay, and the rest is read", async () => {
    const { book, data } = await opened();
    book.begin(["bram"]);
    for (let index = 0; index < 3; index += 1) {
      book.log.addHits([hit(1000 + index)]);
      book.remark(`remark ${index}`);
      await book.writer.write();
    }
    const lessonId = book.log.get().began?.lessonId ?? "";
    await data.table("events").put({ version: 1, lessonId, seq: 3, event: "gnawed by mice" });
    await data.table("events").put({ version: 4, lessonId, seq: 5, event: { kind: "of tomorrow" } });
    const chunk = await data.hits.where("[lessonId+fromSeq]").equals([lessonId, 6]).first();
    await data.table("hits").put({ ...chunk, voices: [] });
    const read = await readLesson(data, lessonId);
    expect(read).toMatchObject({ setAside: 2, newer: 1 });
    expect(read.events.map(({ seq }) => seq)).toEqual([1, 2, 4, 7]);
    const aside = await data.setAside.toArray();
    expect(aside.map(({ table }) => table).sort()).toEqual(["events", "hits"]);
    expect(aside.find(({ table }) => table === "events")?.row).toMatchObject({ event: "gnawed by mice" });
    expect(await readLesson(data, lessonId)).toMatchObject({ setAside: 0, newer: 1 });
    expect(await data.events.get([lessonId, 5])).toMatchObject({ version: 4 });
  });
});
