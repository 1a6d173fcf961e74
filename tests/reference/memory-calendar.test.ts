/** Our own count of days against ECMAScript's calendar (`Date.UTC`, ECMA-262 section 21.4), day by day. */
import { expect, test } from "vitest";
import { dayNumber, dayOf, daysAfter, nextLessonDay, weekdayOf } from "../../engine/memory/index.ts";

const DAY_MS = 86_400_000;

test("every day from 1890 to 2210, leap days and centuries among them", () => {
  const from = Date.UTC(1890, 0, 1) / DAY_MS;
  const to = Date.UTC(2210, 0, 1) / DAY_MS;
  const wrong: string[] = [];
  for (let number = from; number < to; number += 1) {
    const date = new Date(number * DAY_MS);
    const day = date.toISOString().slice(0, 10);
    const weekday = date.getUTCDay() === 0 ? 7 : date.getUTCDay();
    if (dayNumber(day) !== number || dayOf(number) !== day || weekdayOf(day) !== weekday) wrong.push(day);
  }
  expect(to - from).toBeGreaterThan(116_000);
  expect(wrong).toEqual([]);
});

test.each([
  ["2024-02-28", 1, "2024-02-29"],
  ["2026-02-28", 1, "2026-03-01"],
  ["2000-02-28", 1, "2000-02-29"],
  ["1900-02-28", 1, "1900-03-01"],
  ["2026-01-01", -1, "2025-12-31"],
])("%s and %i days is %s", (day, days, expected) => {
  expect(daysAfter(day, days)).toBe(expected);
});

test("the next lesson is on the weekday agreed, one to seven days on", () => {
  for (const day of ["2026-03-02", "2026-03-07", "2026-12-31"]) {
    for (let weekday = 1; weekday <= 7; weekday += 1) {
      const next = nextLessonDay(day, weekday);
      expect(weekdayOf(next)).toBe(weekday);
      expect(dayNumber(next) - dayNumber(day)).toBeGreaterThanOrEqual(1);
      expect(dayNumber(next) - dayNumber(day)).toBeLessThanOrEqual(7);
    }
    expect(nextLessonDay(day, undefined)).toBe(daysAfter(day, 7));
  }
});
