/** When lessons are, in words and in minutes of the day. */
import type { LessonDay } from "../../../engine/records/index.ts";

/** ISO 8601: Monday is 1. */
export const WEEKDAYS = [
  { id: "1", name: "Monday" },
  { id: "2", name: "Tuesday" },
  { id: "3", name: "Wednesday" },
  { id: "4", name: "Thursday" },
  { id: "5", name: "Friday" },
  { id: "6", name: "Saturday" },
  { id: "7", name: "Sunday" },
] as const;

export function weekdayName(weekday: number): string {
  return WEEKDAYS.find(({ id }) => Number(id) === weekday)?.name ?? "no day";
}

/**
 * Minutes since midnight of a time of the day.
 *
 * @example
 * minutesOfTime("15:30") // => 930
 */
export function minutesOfTime(time: string): number {
  const [hours = 0, minutes = 0] = time.split(":").map(Number);
  return hours * 60 + minutes;
}

/**
 * When a lesson ends. One that goes past midnight ends in the small hours.
 *
 * @example
 * endOf({ weekday: 1, from: "23:45", minutes: 30 }) // => "00:15"
 */
export function endOf({ from, minutes }: LessonDay): string {
  const end = (minutesOfTime(from) + minutes) % (24 * 60);
  return `${two(Math.floor(end / 60))}:${two(end % 60)}`;
}

/**
 * A lesson day as it stands in a list.
 *
 * @example
 * lessonDayWords({ weekday: 2, from: "15:30", minutes: 30 }) // => "Tuesday, 15:30 to 16:00"
 */
export function lessonDayWords(day: LessonDay | undefined): string {
  return day ? `${weekdayName(day.weekday)}, ${day.from} to ${endOf(day)}` : "no fixed day";
}

function two(number: number): string {
  return String(number).padStart(2, "0");
}
