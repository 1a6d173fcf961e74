/** Question: how does each thing that was asked stand when the round is over? As it was answered last. */
import type { Shown } from "../../../engine/rounds/index.ts";

/**
 * Each item once, in the order it was first asked. What was never met before and missed again is new still.
 *
 * @param shown of one player.
 */
export function standingOf(shown: readonly Shown[]): readonly Shown[] {
  const last = new Map<string, Shown>();
  for (const each of shown) {
    const before = last.get(each.item);
    const isNewStill = before?.outcome === "not-met" && each.outcome === "missed";
    last.set(each.item, isNewStill ? { ...each, outcome: "not-met" } : each);
  }
  return [...last.values()];
}
