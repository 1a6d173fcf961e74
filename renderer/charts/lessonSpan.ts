/** The calendar under charts of lessons: from the first of a month to the last of one, and where its months begin. */
import { type Day, dayNumber, type Month, monthOf } from "../../engine/memory/index.ts";

/** Days are counted as `dayNumber` does. */
export interface LessonSpan {
  readonly from: number;
  /** The day after the last. */
  readonly to: number;
  /** Of every month that is named, its first day; in order. */
  readonly ticks: readonly number[];
}

/** A year at most: more lessons than that are too narrow to be told apart. Our choice. */
export const MOST_MONTHS = 12;
/** More names than these run into one another under a small chart. */
const MOST_NAMES = 6;

/**
 * The months of some lessons, the latest {@link MOST_MONTHS} where there are more; `null` where there are no lessons.
 *
 * @param days in any order.
 */
export function lessonSpan(days: readonly Day[]): LessonSpan | null {
  const [first, last] = [days.toSorted().at(0), days.toSorted().at(-1)];
  if (first === undefined || last === undefined) return null;
  const end = monthAfter(monthOf(last), 1);
  const latest = Array.from({ length: MOST_MONTHS }, (_, at) => monthAfter(end, at - MOST_MONTHS));
  const months = latest.filter((month) => month >= monthOf(first));
  const step = Math.ceil(months.length / MOST_NAMES);
  return {
    from: firstOf(months[0] ?? end),
    to: firstOf(end),
    ticks: months.filter((_, at) => at % step === 0).map(firstOf),
  };
}

function firstOf(month: Month): number {
  return dayNumber(`${month}-01`);
}

/**
 * The month so many months later, or earlier.
 *
 * @example
 * monthAfter("2026-03", -12) // => "2025-03"
 */
export function monthAfter(month: Month, count: number): Month {
  const [year = 0, number = 1] = month.split("-").map(Number);
  const at = 12 * year + number - 1 + count;
  return `${String(Math.floor(at / 12)).padStart(4, "0")}-${String((at % 12) + 1).padStart(2, "0")}`;
}
