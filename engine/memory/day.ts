/**
 * Calendar days, for a memory that fades from lesson to lesson and not from minute to minute.
 * Source of the count: Richards' algorithm for the proleptic Gregorian calendar, as in ISO 8601.
 */
import { z } from "zod";

/** A day of the studio's calendar, `YYYY-MM-DD` (ISO 8601). */
export const daySchema = z.iso.date();
export type Day = z.infer<typeof daySchema>;

/** Thrown when a text is no day of the calendar. */
export class DayError extends Error {
  override readonly name = "DayError";
}

/**
 * Days since 1970-01-01; negative before it.
 *
 * @throws DayError when the text is no day.
 * @example
 * dayNumber("2000-03-01") // => 11017
 */
export function dayNumber(day: Day): number {
  if (!daySchema.safeParse(day).success)
    throw new DayError(`"${day}" is no day of the calendar. Write it as year-month-day, 2026-03-02.`);
  const [year = 0, month = 0, date = 0] = day.split("-").map(Number);
  // The year begins in March here, so that the leap day is its last and month lengths follow one rule.
  const years = month > 2 ? year : year - 1;
  const months = (month + 9) % 12;
  const leapDays = Math.floor(years / 4) - Math.floor(years / 100) + Math.floor(years / 400);
  const days = Math.floor((153 * months + 2) / 5) + date - 1;
  return 365 * years + leapDays + days - 719_468;
}

/**
 * Days from one to the other; negative when `to` is before `from`.
 *
 * @example
 * daysBetween("2026-02-27", "2026-03-02") // => 3
 */
export function daysBetween(from: Day, to: Day): number {
  return dayNumber(to) - dayNumber(from);
}

/** Of two moments in UTC (ISO 8601, ending in Z): negative when `a` is before `b`, 0 when they are the same moment: fit for `Array.sort`. */
export function compareInstants(a: string, b: string): number {
  // Without the Z a whole second comes before its own parts, and the order of letters is that of time.
  const [left, right] = [a.slice(0, -1), b.slice(0, -1)];
  return left < right ? -1 : left > right ? 1 : 0;
}

/**
 * How long ago, as one says it.
 *
 * @example
 * agoWords(0) // => "today"
 * agoWords(9) // => "a week ago"
 * agoWords(23) // => "3 weeks ago"
 */
export function agoWords(days: number): string {
  if (days < 0) return "after that day";
  if (days === 0) return "today";
  if (days === 1) return "yesterday";
  if (days < 7) return `${days} days ago`;
  if (days < 14) return "a week ago";
  if (days < 60) return `${Math.round(days / 7)} weeks ago`;
  if (days < 700) return `${Math.round(days / 30.44)} months ago`;
  return `${Math.round(days / 365.25)} years ago`;
}

/**
 * The day so many days after 1970-01-01: the other way round from {@link dayNumber}.
 *
 * @example
 * dayOf(11017) // => "2000-03-01"
 */
export function dayOf(number: number): Day {
  const sinceMarch = number + 719_468;
  const era = Math.floor(sinceMarch / 146_097);
  const ofEra = sinceMarch - era * 146_097;
  const yearOfEra = Math.floor(
    (ofEra - Math.floor(ofEra / 1460) + Math.floor(ofEra / 36_524) - Math.floor(ofEra / 146_096)) / 365,
  );
  const ofYear = ofEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const fromMarch = Math.floor((5 * ofYear + 2) / 153);
  const date = ofYear - Math.floor((153 * fromMarch + 2) / 5) + 1;
  const month = fromMarch < 10 ? fromMarch + 3 : fromMarch - 9;
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  return [year, month, date].map((part, at) => String(part).padStart(at === 0 ? 4 : 2, "0")).join("-");
}

/** The day so many days later, or earlier. */
export function daysAfter(day: Day, days: number): Day {
  return dayOf(dayNumber(day) + days);
}

/**
 * The day of the week; Monday is 1, Sunday 7 (ISO 8601).
 *
 * @example
 * weekdayOf("2026-03-02") // => 1
 */
export function weekdayOf(day: Day): number {
  // 1970-01-01 was a Thursday.
  return ((((dayNumber(day) + 3) % 7) + 7) % 7) + 1;
}

/**
 * The next such day of the week after a day, never that day itself; a week later where no weekday is agreed.
 *
 * @example
 * nextLessonDay("2026-03-02", 1) // => "2026-03-09"
 * nextLessonDay("2026-03-02", 3) // => "2026-03-04"
 */
export function nextLessonDay(after: Day, weekday: number | undefined): Day {
  const wait = weekday === undefined ? 7 : ((weekday - weekdayOf(after) + 6 + 7) % 7) + 1;
  return daysAfter(after, wait);
}

/**
 * The lesson a list is made for: today's, where this is the day and it has not been held yet, else the next one.
 *
 * @param lastHeld the day of the latest lesson; `null` before the first.
 * @example
 * lessonAhead("2026-03-02", 1, "2026-02-23") // => "2026-03-02"
 * lessonAhead("2026-03-02", 1, "2026-03-02") // => "2026-03-09"
 */
export function lessonAhead(today: Day, weekday: number | undefined, lastHeld: Day | null): Day {
  return weekday === weekdayOf(today) && lastHeld !== today ? today : nextLessonDay(today, weekday);
}
