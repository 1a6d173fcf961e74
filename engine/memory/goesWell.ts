/**
 * Question: what goes well for this student, to be asked on a bad day?
 *
 * What held all through the last day it was asked; the likeliest remembered on this day comes first. A skill is not asked for by itself, and the teacher's own words are not asked at all.
 */
import type { Day } from "./day.ts";
import { type ItemId, itemOf } from "./item.ts";
import { byItem, type Result } from "./result.ts";
import { chanceForgotten, memoryOf } from "./schedule.ts";

export interface GoingWell {
  readonly item: ItemId;
  /** On that day, 0 to 1. */
  readonly chanceForgotten: number;
}

/** @param results of one student. */
export function goesWell(results: readonly Result[], on: Day): readonly GoingWell[] {
  return [...byItem(results)]
    .flatMap(([item, ofItem]): readonly GoingWell[] => {
      const memory = memoryOf(ofItem);
      const lastDay = ofItem.filter(({ day }) => day === memory?.lastDay);
      const held = lastDay.every(({ outcome }) => outcome === "known");
      if (!memory || !held || itemOf(item).kind === "skill" || itemOf(item).kind === "own") return [];
      return [{ item, chanceForgotten: chanceForgotten(memory, on) }];
    })
    .sort((a, b) => a.chanceForgotten - b.chanceForgotten || (a.item < b.item ? -1 : 1));
}
