/** Months as they stand over and under figures. */
import type { Day, Month } from "../../engine/memory/index.ts";

const SHORT = ["Jan", "Feb", "March", "April", "May", "June", "July", "Aug", "Sept", "Oct", "Nov", "Dec"];

/**
 * A month without its year.
 *
 * @example
 * monthShort("2026-09") // => "Sept"
 */
export function monthShort(month: Month): string {
  return SHORT[Number(month.split("-")[1]) - 1] ?? "";
}

/**
 * A month with its year.
 *
 * @example
 * monthName("2026-03") // => "March 2026"
 */
export function monthName(month: Month): string {
  return `${monthShort(month)} ${month.split("-")[0]}`;
}

/**
 * A day with its month and year.
 *
 * @example
 * dayName("2026-03-02") // => "2 March 2026"
 */
export function dayName(day: Day): string {
  return `${Number(day.split("-")[2])} ${monthName(day.slice(0, 7))}`;
}
