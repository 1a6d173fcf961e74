/**
 * Question: what is this student's list for the next lesson?
 *
 * Derived each time from the results, so that nothing can go stale: *refresh* is what was known or missed before and is due
 * (by the chance that it is forgotten on the day of that lesson), or slipped the last time it was asked; *new* is what came
 * up and has not been held, or missed in a later lesson. The teacher's changes lie over that.
 */
import type { Day } from "./day.ts";
import { compareInstants } from "./day.ts";
import { type Evidence, evidenceOf } from "./evidence.ts";
import type { ItemId } from "./item.ts";
import { changesInForce, type ItemChange, type ListChange, type Section } from "./listChange.ts";
import { byItem, type Result } from "./result.ts";
import { chanceForgotten, memoryOf, USUAL_RETENTION } from "./schedule.ts";

export interface ListEntry {
  readonly item: ItemId;
  /** Chance that it is forgotten on the day of the lesson, 0 to 1; `null` where it was never held. */
  readonly chanceForgotten: number | null;
  /** `null` where the teacher added what was never asked. */
  readonly evidence: Evidence | null;
  /** How the teacher had a hand in it. */
  readonly teacher: "added" | "moved" | null;
  /** The teacher's own words, where it was added with some. */
  readonly words: string | null;
}

export interface NextTimeList {
  readonly lessonDay: Day;
  /** Most likely forgotten first, unless moved. */
  readonly refresh: readonly ListEntry[];
  /** In the order first met, unless moved. */
  readonly new: readonly ListEntry[];
  /** Crossed off, and there but for that. */
  readonly crossedOff: readonly ListEntry[];
}

export interface ListQuestion {
  /** Of one student, in any order. */
  readonly results: readonly Result[];
  readonly changes?: readonly ListChange[];
  /** The day of the next lesson. */
  readonly lessonDay: Day;
  /** Wanted chance to recall; see {@link USUAL_RETENTION}. */
  readonly retention?: number;
}

/** The list, with the teacher's changes. */
export function nextTimeList(question: ListQuestion): NextTimeList {
  const { results, changes = [], lessonDay } = question;
  const items = byItem(results);
  const lists = derivedLists(items, question);
  const crossedOff = new Map<ItemId, ListEntry>();
  for (const change of changesInForce(changes)) {
    if (isOvertaken(change, items, results)) continue;
    applyChange(lists, crossedOff, change, items, lessonDay);
  }
  return { lessonDay, refresh: lists.refresh, new: lists.new, crossedOff: [...crossedOff.values()] };
}

type Lists = Record<Section, ListEntry[]>;

function derivedLists(items: ReadonlyMap<ItemId, readonly Result[]>, question: ListQuestion): Lists {
  const { lessonDay, retention = USUAL_RETENTION } = question;
  const lists: Lists = { refresh: [], new: [] };
  for (const [item, results] of items) {
    const entry = entryOf(item, results, lessonDay);
    if (entry.chanceForgotten === null) lists.new.push(entry);
    else if (entry.chanceForgotten >= 1 - retention || slippedLast(results)) lists.refresh.push(entry);
  }
  lists.refresh.sort(
    (a, b) => (b.chanceForgotten ?? 0) - (a.chanceForgotten ?? 0) || (a.item < b.item ? -1 : 1),
  );
  return lists;
}

/** Never held, and missed on no other day than those on which it was new: tried again at once it is still new. */
function isNewYet(results: readonly Result[]): boolean {
  const newDays = new Set(results.filter(({ outcome }) => outcome === "new").map(({ day }) => day));
  return results.every(
    ({ outcome, day }) => outcome === "new" || (outcome === "slipped" && newDays.has(day)),
  );
}

function slippedLast(results: readonly Result[]): boolean {
  return results.at(-1)?.outcome === "slipped";
}

function entryOf(item: ItemId, results: readonly Result[], lessonDay: Day): ListEntry {
  const memory = isNewYet(results) ? null : memoryOf(results);
  return {
    item,
    chanceForgotten: memory && chanceForgotten(memory, lessonDay),
    evidence: evidenceOf(results),
    teacher: null,
    words: null,
  };
}

/**
 * Adding and crossing off hold until the item is asked again: then what was heard counts. A place in the list holds until
 * the next lesson that brings results, because by then the list is another one.
 */
function isOvertaken(
  change: ItemChange,
  items: ReadonlyMap<ItemId, readonly Result[]>,
  results: readonly Result[],
): boolean {
  if (change.kind === "moved") return results.some(({ day }) => day > change.day);
  return (items.get(change.item) ?? []).some(({ at }) => compareInstants(at, change.at) > 0);
}

function applyChange(
  lists: Lists,
  crossedOff: Map<ItemId, ListEntry>,
  change: ItemChange,
  items: ReadonlyMap<ItemId, readonly Result[]>,
  lessonDay: Day,
): void {
  const { item } = change;
  switch (change.kind) {
    case "added": {
      const there = takeOut(lists, item) ?? entryOf(item, items.get(item) ?? [], lessonDay);
      crossedOff.delete(item);
      lists[change.section].push({ ...there, teacher: "added", words: change.words });
      return;
    }
    case "crossed-off": {
      const there = takeOut(lists, item);
      if (there) crossedOff.set(item, there);
      return;
    }
    case "moved": {
      const there = takeOut(lists, item);
      if (!there) return;
      const section = lists[change.section];
      const before = section.findIndex((each) => each.item === change.before);
      section.splice(before < 0 ? section.length : before, 0, {
        ...there,
        teacher: there.teacher ?? "moved",
      });
      return;
    }
  }
}

/** Takes the item off whichever part it stands on. */
function takeOut(lists: Lists, item: ItemId): ListEntry | undefined {
  for (const section of [lists.refresh, lists.new]) {
    const at = section.findIndex((each) => each.item === item);
    if (at >= 0) return section.splice(at, 1)[0];
  }
  return undefined;
}
