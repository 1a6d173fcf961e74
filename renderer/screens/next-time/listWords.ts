/** What the rows of a Next Time list say. */
import {
  agoWords,
  chanceWords,
  type Day,
  type DealtItem,
  daysBetween,
  evidenceWords,
  type ItemId,
  itemName,
  type ListEntry,
  type OwnNames,
  ROUND_NAMES,
  roundOf,
} from "../../../engine/memory/index.ts";
import { dayWords } from "../../out/print/dayWords.ts";

export interface RowWords {
  readonly name: string;
  /** Which side of it is meant: "by name"; empty for the teacher's own words. */
  readonly aspect: string;
  /** "one in three"; "new"; "not asked yet". */
  readonly chance: string;
  readonly evidence: string;
  /** What was said of it last; empty where nothing was. */
  readonly latest: string;
  /** The round it is asked in; empty where none can. */
  readonly from: string;
  /** How the teacher had a hand in it; empty where not. */
  readonly teacher: string;
}

/** One row, as seen today. */
export function rowWords(entry: ListEntry, today: Day, ownNames: OwnNames): RowWords {
  const { item, chanceForgotten, evidence } = entry;
  const { name, aspect } = itemName(item, ownNames);
  const round = roundOf(item);
  return {
    name: entry.words ?? name,
    aspect,
    chance:
      chanceForgotten === null ? (evidence === null ? "not asked yet" : "new") : chanceWords(chanceForgotten),
    evidence: evidence === null ? "" : evidenceWords(evidence, today),
    latest: evidence?.words ?? "",
    from: round === null ? "" : ROUND_NAMES[round],
    teacher: entry.teacher === null ? "" : entry.teacher === "added" ? "added by you" : "moved by you",
  };
}

/** "Bossa nova, played: chance it is gone: one in three" */
export function dealtWords({ item, why }: DealtItem, ownNames: OwnNames): string {
  return `${fullName(item, ownNames)}: ${why}`;
}

/** Name and side: "Flam Tap, the hands". */
export function fullName(item: ItemId, ownNames: OwnNames): string {
  const { name, aspect } = itemName(item, ownNames);
  return aspect === "" ? name : `${name}, ${aspect}`;
}

const WEEKDAYS = ["Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"] as const;

function dateOf(day: Day): Date {
  const [year = 0, month = 1, date = 1] = day.split("-").map(Number);
  return new Date(year, month - 1, date);
}

/**
 * A day with its weekday.
 *
 * @example
 * lessonDayWords("2026-03-09") // => "Monday, 9 March 2026"
 */
export function lessonDayWords(day: Day): string {
  const date = dateOf(day);
  return `${WEEKDAYS[date.getDay()] ?? ""}, ${dayWords(date)}`;
}

/**
 * How far off the lesson is.
 *
 * @example
 * aheadWords("2026-03-02", "2026-03-09") // => "in 7 days"
 */
export function aheadWords(today: Day, day: Day): string {
  const days = daysBetween(today, day);
  if (days < 0) return agoWords(-days);
  if (days === 0) return "today";
  return days === 1 ? "tomorrow" : `in ${days} days`;
}

/**
 * How many there are of each.
 *
 * @example
 * countWords({ refresh: [one, two], new: [] }) // => "2 to refresh, nothing new"
 */
export function countWords(list: {
  readonly refresh: readonly unknown[];
  readonly new: readonly unknown[];
}): string {
  const refresh = list.refresh.length === 0 ? "nothing" : list.refresh.length;
  const fresh = list.new.length === 0 ? "nothing" : list.new.length;
  return `${refresh} to refresh, ${fresh} new`;
}
