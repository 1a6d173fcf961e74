import { type ItemId, itemOf, roundOf } from "../../../engine/memory/index.ts";
import type { Program } from "../../app/program.ts";
import { BUILT_ROUNDS } from "../../app/route.ts";
import type { Studio } from "../../app/studio.ts";
import { playItemsIn, type Wanted } from "./playItemsIn.ts";

/** Whether there is a round here that asks it: not for what is said of playing as a whole. */
export function canBePlayed(item: ItemId): boolean {
  return itemOf(item).kind !== "skill" && BUILT_ROUNDS.some(({ id }) => id === roundOf(item));
}

/** Loads the lesson where it is not yet, and does as {@link playItemsIn}. */
export async function playItems(
  { lesson }: Pick<Program, "lesson">,
  studio: Pick<Studio, "players" | "book">,
  wanted: Wanted,
): Promise<void> {
  await playItemsIn(await lesson.load(), studio, wanted);
}
