/** A lesson that was broken off: found again, gone on with, or ended where it was last heard. */
import { describe, expect, test } from "vitest";
import type { Student } from "../../../engine/records/index.ts";
import { lessonState } from "../../../engine/session/index.ts";
import { eraseStudent } from "../../../renderer/screens/roster/eraseStudent.ts";
import {
  keepStudent,
  lessonOf,
  readLesson,
  resultsOfStudent,
  takesOfLesson,
  unendedLessons,
} from "../../../renderer/store/index.ts";
import { TestClock, TestLocks, testPlace } from "./lessonPlace.ts";
import { database, hit, opened, sitDown } from "./lessonsPlayed.ts";

describe("a lesson that was broken off", () => {
  async function brokenOff(locks = new TestLocks()) {
    const data = database();
    const first = await opened(testPlace(new TestClock(), locks), data);
    first.book.begin(["bram"]);
    first.place.clock.pass(5);
    first.book.log.addHits([hit(1004)]);
    await first.book.writer.write();
    return { data, events: first.book.log.events };
  }

  test("is found, and goes on where it was, by the calendar", async () => {
    const { data, events } = await brokenOff();
    const clock = new TestClock();
    clock.seconds = 3;
    clock.setCalendar("2026-03-02T15:31:40.000Z");
    const { book, found } = await opened(testPlace(clock), data);
    expect(found).toMatchObject({ kind: "open", at: "2026-03-02T15:30:00.000Z" });
    if (found.kind !== "open") throw new Error("It was not found.");
    await book.goOn(found.lessonId);
    expect(book.log.get()).toMatchObject({ stage: "running", time: 100, hitCount: 1 });
    book.log.addHits([hit(4)]);
    book.end();
    await book.writer.write();
    const read = await readLesson(data, found.lessonId);
    expect(read.events.slice(0, events.length)).toEqual(events);
    expect(read.events.slice(events.length).map(({ kind, time }) => [kind, time])).toEqual([
      ["taken-up-again", 100],
      ["hit", 101],
      ["lesson-ended", 100],
    ]);
  });

  test("goes on even where the calendar was set back meanwhile", async () => {
    const { data } = await brokenOff();
    const clock = new TestClock();
    clock.setCalendar("2020-01-01T00:00:00.000Z");
    const { book, found } = await opened(testPlace(clock), data);
    if (found.kind !== "open") throw new Error("It was not found.");
    await book.goOn(found.lessonId);
    expect(book.log.get().time).toBe(4);
  });

  test.each([
    // The calendar was wrong while the lesson began, and is right now; or it is wrong now.
    "2033-03-02T15:31:00.000Z",
    "2026-03-03T04:00:00.000Z",
  ])("goes on where it was when the calendar says %s", async (at) => {
    const { data } = await brokenOff();
    const clock = new TestClock();
    clock.setCalendar(at);
    const { book, found } = await opened(testPlace(clock), data);
    if (found.kind !== "open") throw new Error("It was not found.");
    await book.goOn(found.lessonId);
    expect(book.log.get().time).toBe(4);
    clock.pass(60);
    book.end();
    await book.writer.write();
    expect(await lessonOf(data, found.lessonId)).toMatchObject({ seconds: 64 });
  });

  test("is found where the calendar was set back for it, before all lessons there were", async () => {
    const data = database();
    const clock = new TestClock();
    const { book } = await opened(testPlace(clock), data);
    for (let lesson = 0; lesson < 25; lesson += 1) {
      book.begin(["noor"]);
      clock.pass(1800);
    }
    book.end();
    clock.setCalendar("2000-01-01T00:00:00.000Z");
    book.begin(["bram"]);
    await book.writer.write();
    const lessonId = book.log.get().began?.lessonId;
    expect((await opened(testPlace(), data)).found).toMatchObject({ kind: "open", lessonId });
  });

  test("can be left as it was: it ends where it was last heard", async () => {
    const { data } = await brokenOff();
    const { book, found } = await opened(testPlace(), data);
    if (found.kind !== "open") throw new Error("It was not found.");
    await book.leave(found.lessonId);
    expect(await lessonOf(data, found.lessonId)).toMatchObject({
      endedAt: "2026-03-02T15:30:04.000Z",
      seconds: 4,
      hits: 1,
    });
    expect((await opened(testPlace(), data)).found).toEqual({ kind: "none" });
  });

  /** A lesson with a take that was judged, and one that was being played when the program fell. */
  async function brokenOffInARound(second = "rock-eighths") {
    const data = database();
    const { book, place } = await opened(testPlace(), data);
    const seat = sitDown(book);
    book.begin(["bram"]);
    seat.playTake("rock-eighths", place.clock);
    seat.strike(second, place.clock);
    await book.writer.write();
    return { data, lessonId: book.log.get().began?.lessonId ?? "" };
  }
  const outcomes = async (data: ReturnType<typeof database>) =>
    (await resultsOfStudent(data, "bram")).map(({ item, outcome }) => [item, outcome]);

  test("left as it was, its round is tallied, and what was being played is judged from its strikes", async () => {
    const { data, lessonId } = await brokenOffInARound();
    const { book } = await opened(testPlace(), data);
    await book.leave(lessonId);
    const { events } = await readLesson(data, lessonId);
    const state = lessonState(events);
    expect(events.slice(-3).map(({ kind }) => kind)).toEqual(["judgement", "round-ended", "lesson-ended"]);
    expect(state.rounds[0]?.tally).toHaveLength(2);
    expect(
      (await takesOfLesson(data, lessonId)).map(({ voiceAccuracy, seconds }) => [voiceAccuracy, seconds]),
    ).toEqual([
      [1, 10],
      [1, 9.3],
    ]);
    expect(await outcomes(data)).toEqual([
      ["style:rock-eighths", "known"],
      ["style:rock-eighths", "known"],
    ]);
    expect(await lessonOf(data, lessonId)).toMatchObject({ takes: 2, endedAt: "2026-03-02T15:30:19.300Z" });
    expect(await unendedLessons(data)).toEqual([]);
  });

  test("a take that was broken off is held against nobody", async () => {
    const { data, lessonId } = await brokenOffInARound("samba");
    const { book } = await opened(testPlace(), data);
    await book.leave(lessonId);
    expect(await takesOfLesson(data, lessonId)).toHaveLength(2);
    expect(await outcomes(data)).toEqual([["style:rock-eighths", "known"]]);
  });

  test("gone on with, what was being played is judged, and counts in the tally of its round", async () => {
    const { data, lessonId } = await brokenOffInARound();
    const { book, place } = await opened(testPlace(), data);
    const seat = sitDown(book);
    await book.goOn(lessonId);
    seat.playTake("rock-eighths", place.clock);
    book.end();
    await book.writer.write();
    expect(book.log.get().rounds).toHaveLength(1);
    expect(book.log.get().rounds[0]?.takes.map(({ brokenOff }) => brokenOff ?? false)).toEqual([
      false,
      true,
      false,
    ]);
    expect(await outcomes(data)).toHaveLength(3);
    expect((await readLesson(data, lessonId)).events).toEqual(book.log.events);
  });

  test("what cannot be judged is told, and the lesson ends all the same", async () => {
    const { data, lessonId } = await brokenOffInARound();
    const place = { ...testPlace(), judge: () => Promise.reject(new Error("The judge is deaf.")) };
    const { book } = await opened(place, data);
    await expect(book.leave(lessonId)).rejects.toThrow("The judge is deaf.");
    expect(await unendedLessons(data)).toEqual([]);
    expect(await outcomes(data)).toEqual([["style:rock-eighths", "known"]]);
  });

  test("what a student had met in an earlier lesson slips, what nobody had met is new", async () => {
    const data = database();
    const { book, place } = await opened(testPlace(), data);
    const seat = sitDown(book);
    for (const _ of ["earlier", "now"]) {
      book.begin(["bram"]);
      place.clock.pass(1);
      seat.playTake("samba", place.clock);
    }
    await book.writer.write();
    const lessonId = book.log.get().began?.lessonId ?? "";
    const again = await opened(testPlace(), data);
    await again.book.leave(lessonId);
    expect(await outcomes(data)).toEqual([
      ["style:samba", "new"],
      ["style:samba", "slipped"],
    ]);
  });

  test("whose beginning is lost, is closed and not asked about for ever", async () => {
    const { data, lessonId } = await brokenOffInARound();
    await data.events.delete([lessonId, 1]);
    const { book, found } = await opened(testPlace(), data);
    expect(found).toMatchObject({ kind: "open", lessonId });
    await expect(book.goOn(lessonId)).rejects.toThrow("beginning of this lesson cannot be read");
    await book.leave(lessonId);
    expect(await lessonOf(data, lessonId)).toMatchObject({ endedAt: "2026-03-02T15:30:19.300Z" });
    expect((await opened(testPlace(), data)).found).toEqual({ kind: "none" });
  });

  test("with gaps where a student was erased goes on behind the last number, nothing written over or twice", async () => {
    const data = database();
    const first = await opened(testPlace(), data);
    const lanes = ["bram", "noor"].map((studentId) => ({ studentId, source: "kit" as const }));
    first.book.begin(["bram", "noor"], lanes);
    for (const [lane, time] of [0, 1, 1, 0, 1].entries())
      first.book.log.addHits([hit(1000 + time)], lane % 2);
    first.book.log.add({
      kind: "round-began",
      lane: 1,
      roundId: "n",
      round: "call-a-style",
      studentIds: ["noor"],
    });
    first.book.log.addHits([hit(1009)], 0);
    await first.book.writer.write();
    const noor: Student = {
      version: 1,
      id: "noor",
      nickname: "Noor",
      level: "steady",
      hand: "right",
      notes: "",
      archived: false,
      addedAt: "2026-01-01T00:00:00.000Z",
    };
    await keepStudent(data, noor);
    await eraseStudent(data, noor, [], () => Promise.resolve());
    const place = testPlace();
    const { book, found } = await opened(place, data);
    if (found.kind !== "open") throw new Error("It was not found.");
    await book.goOn(found.lessonId);
    expect(book.log.events.at(-1)).toMatchObject({ seq: 9, kind: "taken-up-again" });
    book.log.addHits([hit(place.clock.seconds)]);
    book.end();
    await book.writer.write();
    const { events } = await readLesson(data, found.lessonId);
    expect(events).toEqual(book.log.events);
    expect(events.map(({ seq }) => seq)).toEqual([1, 2, 4, 6, 7, 8, 9, 10, 11, 12]);
    expect(await lessonOf(data, found.lessonId)).toMatchObject({ studentIds: ["bram"], hits: 5 });
  });
});
