/** The months by name, from January. */
export const MONTHS = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
] as const;

/** A day as it is written on paper: "26 November 2026". */
export function dayWords(day: Date): string {
  return `${day.getDate()} ${MONTHS[day.getMonth()] ?? ""} ${day.getFullYear()}`;
}

/**
 * A day of the calendar.
 *
 * @example
 * dayInWords("2026-03-02") // => "2 March 2026"
 */
export function dayInWords(day: string): string {
  const [year = "", month = "", date = ""] = day.split("-");
  return `${Number(date)} ${MONTHS[Number(month) - 1] ?? month} ${year}`;
}
