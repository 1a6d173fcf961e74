import { type ItemId, itemName, itemOf } from "../../../engine/memory/index.ts";
import type { FiveLeft } from "./fiveLeft.ts";

/** What "next" means now. */
export interface NextStyle {
  /** As it stands on a button. */
  readonly words: string;
  readonly act: () => void;
}

/**
 * What "next" means in Call a Style while Five Left has dealt it styles: the next of them is called; after the last, the next
 * round begins. `undefined` where nothing was dealt to it.
 *
 * @param calledId the style that is called now.
 * @param call calls one of those that were dealt.
 */
export function nextStyle(
  fiveLeft: Pick<FiveLeft, "get" | "next">,
  calledId: string | null,
  call: (item: ItemId) => void,
): NextStyle | undefined {
  const state = fiveLeft.get();
  if (state.stage !== "on") return undefined;
  const { deal, names, at: round } = state;
  const dealt = deal.rounds[round];
  if (dealt?.round !== "call-a-style") return undefined;
  const at = dealt.items.findIndex(({ item }) => itemOf(item).subject === calledId);
  const next = dealt.items[at + 1];
  return next
    ? { words: `Next: ${itemName(next.item, names).name}`, act: () => call(next.item) }
    : { words: "Next round", act: () => fiveLeft.next() };
}
