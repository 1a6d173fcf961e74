/** What the Desk says. */
import { type ListEntry, ROUND_NAMES, roundOf } from "../../../engine/memory/index.ts";
import type { LessonState } from "../../../engine/session/index.ts";
import { weekdayName } from "../roster/lessonTimes.ts";
import type { ComingLater } from "./today.ts";

const ORDINALS = [
  "First",
  "Second",
  "Third",
  "Fourth",
  "Fifth",
  "Sixth",
  "Seventh",
  "Eighth",
  "Ninth",
  "Tenth",
];

/**
 * Which lesson it is.
 *
 * @example
 * whichLesson(8) // => "Eighth lesson"
 * whichLesson(41) // => "Lesson 41"
 */
export function whichLesson(number: number): string {
  return ORDINALS[number - 1] === undefined ? `Lesson ${number}` : `${ORDINALS[number - 1]} lesson`;
}

/**
 * How many minutes it takes, or has taken.
 *
 * @example
 * minutesWords(61) // => "1 minute"
 * minutesWords(12) // => "under a minute"
 */
export function minutesWords(seconds: number): string {
  if (seconds < 60) return "under a minute";
  const minutes = Math.floor(seconds / 60);
  return minutes === 1 ? "1 minute" : `${minutes} minutes`;
}

/**
 * A moment of the lesson, by its own clock.
 *
 * @example
 * lessonClock(192.7) // => "3:12"
 */
export function lessonClock(seconds: number): string {
  const whole = Math.floor(Math.max(0, seconds));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

/** What is due, in short. */
export function dueWords(refresh: number, fresh: number): string {
  if (refresh + fresh === 0) return "nothing is due";
  const parts = [refresh > 0 ? `${refresh} to refresh` : "", fresh > 0 ? `${fresh} new` : ""];
  return parts.filter((part) => part !== "").join(", ");
}

/** "tomorrow at 15:30", "on Tuesday at 15:30". */
export function laterWords({ lessonDay, daysAhead }: ComingLater): string {
  return `${daysAhead === 1 ? "tomorrow" : `on ${weekdayName(lessonDay.weekday)}`} at ${lessonDay.from}`;
}

/** The round an entry of the list is asked in. */
export function fromWords({ item }: ListEntry): string {
  const round = roundOf(item);
  return round === null ? "in your words" : ROUND_NAMES[round];
}

/** The names of several students: "Ottilie and Bram". */
export function namesWords(names: readonly string[]): string {
  if (names.length <= 1) return names[0] ?? "nobody";
  return `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}

/** What a lesson holds so far. */
export function soFarWords({ rounds, hitCount, remarks }: LessonState): string {
  const takes = rounds.reduce((sum, round) => sum + round.takes.length, 0);
  const parts = [
    takes === 1 ? "1 take" : `${takes} takes`,
    hitCount === 1 ? "1 strike" : `${hitCount} strikes`,
    remarks.length === 1 ? "1 remark" : `${remarks.length} remarks`,
  ];
  return `${parts.join(", ")} so far.`;
}
