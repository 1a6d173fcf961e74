/** Question: how does each thing that was asked stand when the round is over? As it was answered last. */
import type { Shown } from "../../../engine/rounds/index.ts";

/** Whether what was missed had been met before is the lesson's to tell: slipped or new, on Desk and on Next Time. */
export const SHOWN_HEADINGS = [
  ["held", "Held"],
  ["missed", "Missed"],
  ["faded", "Known from somewhere"],
  ["not-met", "New"],
] as const satisfies readonly (readonly [Shown["outcome"], string])[];

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

/** From so many things on of which the same is said, it is said once. Our choice. */
const SAID_ONCE_FROM = 4;

/** Things of which the same is said. */
export interface SaidOf {
  readonly words: string;
  readonly items: readonly Shown["item"][];
}

/** Things in their order; many of which the same is said stand together, where the first of them does. */
export function saidTogether(standing: readonly Shown[]): readonly SaidOf[] {
  const said = new Map<string, Shown["item"][]>();
  for (const { item, words } of standing) said.set(words, [...(said.get(words) ?? []), item]);
  return [...said].flatMap(([words, items]) =>
    words !== "" && items.length >= SAID_ONCE_FROM
      ? [{ words, items }]
      : items.map((item) => ({ words, items: [item] })),
  );
}
