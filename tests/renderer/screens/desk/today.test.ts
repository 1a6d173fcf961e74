import { expect, test } from "vitest";
import type { LessonRecord, Student } from "../../../../engine/records/index.ts";
import { comingLater, linesOfDay, nextOf } from "../../../../renderer/screens/desk/today.ts";
import { endOf, lessonDayWords } from "../../../../renderer/screens/roster/lessonTimes.ts";

function student(id: string, weekday: number, from: string, change: Partial<Student> = {}): Student {
  return {
    version: 1,
    id,
    nickname: id,
    level: "steady",
    hand: "right",
    notes: "",
    lessonDay: { weekday, from, minutes: 30 },
    archived: false,
    addedAt: "2026-01-01T10:00:00.000Z",
    ...change,
  };
}

function held(studentId: string): LessonRecord {
  return {
    version: 1,
    id: `2026-03-02T14:00:00.000Z~${studentId}`,
    studentIds: [studentId],
    at: "2026-03-02T14:00:00.000Z",
    zone: "Europe/Vienna",
    day: "2026-03-02",
    endedAt: "2026-03-02T14:30:00.000Z",
    seconds: 1800,
    rounds: 1,
    takes: 1,
    hits: 1,
    flags: 0,
  };
}

const BRAM = student("Bram", 1, "16:30");
const OTTILIE = student("Ottilie", 1, "16:00");
const NOOR = student("Noor", 3, "09:00");
const GONE = student("Gone", 1, "08:00", { archived: true });
const ALL = [BRAM, OTTILIE, NOOR, GONE];

test("today's lessons are in order of time, without those of other days and of the archive", () => {
  expect(linesOfDay(ALL, [], 1).map(({ student: { id } }) => id)).toEqual(["Ottilie", "Bram"]);
});

test.each([
  ["15:00", [], "Ottilie"],
  ["16:10", [], "Ottilie"],
  ["16:31", [], "Bram"],
  // Nobody is ahead any more: the first that was not held is still offered.
  ["23:00", [], "Ottilie"],
  ["15:00", ["Ottilie"], "Bram"],
  ["15:00", ["Ottilie", "Bram"], undefined],
] as const)("at %s, with %j held, next is %s", (time, ids, next) => {
  const lines = linesOfDay(ALL, ids.map(held), 1);
  expect(nextOf(lines, time)?.student.id).toBe(next);
});

test("after today comes the nearest day first, over the end of the week too", () => {
  expect(comingLater(ALL, 1).map(({ student: { id }, daysAhead }) => [id, daysAhead])).toEqual([["Noor", 2]]);
  expect(comingLater(ALL, 6).map(({ student: { id }, daysAhead }) => [id, daysAhead])).toEqual([
    ["Ottilie", 2],
    ["Bram", 2],
    ["Noor", 4],
  ]);
});

test("a lesson past midnight ends in the small hours", () => {
  expect(endOf({ weekday: 5, from: "23:45", minutes: 30 })).toBe("00:15");
  expect(lessonDayWords({ weekday: 5, from: "23:45", minutes: 30 })).toBe("Friday, 23:45 to 00:15");
  expect(lessonDayWords(undefined)).toBe("no fixed day");
});
