import { type ListenedFor, NOTHING_OF_SHELF } from "../../engine/catalogue/index.ts";
import { parseGrid } from "../../engine/score/index.ts";
import type { TakeState } from "../../engine/session/index.ts";

/** What of the Shelf an earlier take is heard with: the groove that was called; what else was on it then is not kept. */
export function shelfOfThen({ calledGrid }: Pick<TakeState, "calledGrid">): ListenedFor {
  return calledGrid === undefined
    ? NOTHING_OF_SHELF
    : { ...NOTHING_OF_SHELF, grooves: [parseGrid(calledGrid)] };
}
