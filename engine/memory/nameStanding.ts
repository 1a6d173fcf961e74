/**
 * Question: how likely is it that a student has forgotten the name of something on a day, if the student has met it at all?
 */
import type { Day } from "./day.ts";
import type { ItemId } from "./item.ts";
import type { Result } from "./result.ts";
import { chanceForgotten, memoryOf } from "./schedule.ts";

/** What was played, and never asked by name: its name may be known or not. Our choice. */
const PLAYED_ONLY = 0.5;

/**
 * Chance that the name is forgotten, 0 to 1; `null` where the student never met it, neither by name nor by playing it.
 *
 * @param results of one student by item, as `byItem` gives them.
 * @param played the same thing as it is played.
 */
export function nameStanding(
  results: ReadonlyMap<ItemId, readonly Result[]>,
  { name, played }: { readonly name: ItemId; readonly played: ItemId },
  on: Day,
): number | null {
  const memory = memoryOf(results.get(name) ?? []);
  if (memory) return chanceForgotten(memory, on);
  return results.has(played) ? PLAYED_ONLY : null;
}
