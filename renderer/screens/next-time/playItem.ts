import { grooveById, musicOf } from "../../../engine/catalogue/index.ts";
import { type ItemId, itemOf, roundOf } from "../../../engine/memory/index.ts";
import type { Program } from "../../app/program.ts";
import { BUILT_ROUNDS, type BuiltRound, hrefOf } from "../../app/route.ts";
import type { Studio } from "../../app/studio.ts";
import { START_NOW } from "../round/useFrameKeys.ts";

/**
 * Turns to the round an item is asked in: Call a Style with the groove called, at the kit whose turn it is; another round
 * begins at once.
 */
export async function playItem(
  { lesson }: Pick<Program, "lesson">,
  { players }: Pick<Studio, "players">,
  item: ItemId,
): Promise<void> {
  const { kind, subject } = itemOf(item);
  if (kind === "style") {
    const { rounds, shelf } = await lesson.load();
    await shelf.open();
    const entry = grooveById(subject) ? undefined : shelf.index.get(subject);
    const written = entry && musicOf(entry);
    const shelfGroove = written?.kind === "groove" ? written.music : undefined;
    const round = rounds[players.get().lane === 1 ? 1 : 0];
    round.dispatch({ kind: "another-style" });
    round.dispatch({ kind: "called", styleId: subject, ...(shelfGroove ? { shelfGroove } : {}) });
  }
  const round = roundOf(item);
  const isFramed = round !== null && round !== "call-a-style" && BUILT_ROUNDS.some(({ id }) => id === round);
  window.location.hash = isFramed ? hrefOf(round as BuiltRound, START_NOW) : hrefOf("call-a-style");
}
