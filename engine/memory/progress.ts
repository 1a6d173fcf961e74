/**
 * Question: how has it gone over the months, item by item and skill by skill?
 * Counts of what was shown, a month and a lesson at a time; never a mark, never one student beside another.
 */
import { OUTCOMES } from "../session/index.ts";
import type { Day } from "./day.ts";
import { type ItemId, type SkillId, skillOf } from "./item.ts";
import { byDay, byItem, inOrder, type Result } from "./result.ts";

/** `YYYY-MM` of the studio's calendar (ISO 8601). */
export type Month = string;

/** How often each outcome was shown. */
export interface OutcomeCounts {
  readonly known: number;
  readonly slipped: number;
  readonly new: number;
}

export interface MonthFigures extends OutcomeCounts {
  readonly month: Month;
}

/** All that was shown on the day of one lesson. */
export interface LessonFigures extends OutcomeCounts {
  readonly day: Day;
}

export interface Progress {
  /** Every month from the first to the last with a result; months without one are there, with nothing in them. */
  readonly months: readonly MonthFigures[];
  /** Only days on which it was asked, in order. */
  readonly lessons: readonly LessonFigures[];
}

/**
 * @example
 * monthOf("2026-03-02") // => "2026-03"
 */
export function monthOf(day: Day): Month {
  return day.slice(0, 7);
}

/** The months and the lessons of some results. */
export function progressOf(results: readonly Result[]): Progress {
  const lessons = [...byDay(results)].map(([day, shown]) => ({ day, ...counted(shown) }));
  const [first] = lessons;
  const last = lessons.at(-1);
  if (!first || !last) return { months: [], lessons: [] };
  const months = monthsFrom(monthOf(first.day), monthOf(last.day)).map((month) => ({
    month,
    ...together(lessons.filter(({ day }) => monthOf(day) === month)),
  }));
  return { months, lessons };
}

function counted(results: readonly Result[]): OutcomeCounts {
  const counts = { known: 0, slipped: 0, new: 0 };
  for (const { outcome } of results) counts[outcome] += 1;
  return counts;
}

function together(all: readonly OutcomeCounts[]): OutcomeCounts {
  const counts = { known: 0, slipped: 0, new: 0 };
  for (const outcome of OUTCOMES) for (const each of all) counts[outcome] += each[outcome];
  return counts;
}

/** Both months and all between them. */
function monthsFrom(first: Month, last: Month): readonly Month[] {
  const months: Month[] = [];
  const [year = 0, month = 1] = first.split("-").map(Number);
  for (let since = 0; ; since += 1) {
    const count = month - 1 + since;
    const each = `${String(year + Math.floor(count / 12)).padStart(4, "0")}-${String((count % 12) + 1).padStart(2, "0")}`;
    if (each > last) return months;
    months.push(each);
  }
}

/** Each item's months; items in the order first met. */
export function progressByItem(results: readonly Result[]): ReadonlyMap<ItemId, Progress> {
  return new Map([...byItem(results)].map(([item, of]) => [item, progressOf(of)]));
}

/** Each skill's months, from all items that belong to it. */
export function progressBySkill(results: readonly Result[]): ReadonlyMap<SkillId, Progress> {
  const bySkill = new Map<SkillId, Result[]>();
  for (const result of inOrder(results)) {
    const skill = skillOf(result.item);
    if (skill === null) continue;
    const of = bySkill.get(skill);
    if (of) of.push(result);
    else bySkill.set(skill, [result]);
  }
  return new Map([...bySkill].map(([skill, of]) => [skill, progressOf(of)]));
}

/**
 * A month in words: only what there was.
 *
 * @example
 * monthWords({ month: "2026-03", known: 4, slipped: 1, new: 0 }) // => "4 held, 1 missed"
 */
export function monthWords({ known, slipped, new: met }: MonthFigures): string {
  const parts = [
    known > 0 ? `${known} held` : "",
    slipped > 0 ? `${slipped} missed` : "",
    met > 0 ? `${met} new` : "",
  ].filter((part) => part !== "");
  return parts.length === 0 ? "not asked" : parts.join(", ");
}
