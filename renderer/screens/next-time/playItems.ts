import { grooveById, musicOf } from "../../../engine/catalogue/index.ts";
import { type ItemId, itemOf, roundOf } from "../../../engine/memory/index.ts";
import { type Dealt, shownItemSchema } from "../../../engine/rounds/index.ts";
import type { Program } from "../../app/program.ts";
import { BUILT_ROUNDS, hrefOf } from "../../app/route.ts";
import type { Studio } from "../../app/studio.ts";
import { framedAt } from "../round/framedAt.ts";

/** What is asked: in this order; on a bad day nothing else. */
export interface Wanted {
  readonly items: readonly ItemId[];
  readonly nothingElse: boolean;
}

/** Whether there is a round here that asks it: not for what is said of playing as a whole. */
export function canBePlayed(item: ItemId): boolean {
  return itemOf(item).kind !== "skill" && BUILT_ROUNDS.some(({ id }) => id === roundOf(item));
}

/**
 * Turns to the round that asks these items and begins it with them: Call a Style has the first of them called, at the kit
 * whose turn it is. What is on there is ended. Does nothing with items that no round asks.
 *
 * @param items of one round.
 */
export async function playItems(
  { lesson: lessonToCome }: Pick<Program, "lesson">,
  { players, book }: Pick<Studio, "players" | "book">,
  { items, nothingElse }: Wanted,
): Promise<void> {
  const [first] = items;
  const round = first && BUILT_ROUNDS.find(({ id }) => id === roundOf(first));
  if (first === undefined || !round) return;
  const lesson = await lessonToCome.load();
  const framed = framedAt(lesson.framed, round.id);
  if (framed) {
    framed.commands().stop?.();
    await book.endRound(players.get().lane);
    framed.anew();
    framed.begin(dealtOf({ items, nothingElse }));
  } else if (itemOf(first).kind === "style") {
    const { rounds, shelf } = lesson;
    const { subject } = itemOf(first);
    await shelf.open();
    const entry = grooveById(subject) ? undefined : shelf.index.get(subject);
    const written = entry && musicOf(entry);
    const shelfGroove = written?.kind === "groove" ? written.music : undefined;
    const style = rounds[players.get().lane === 1 ? 1 : 0];
    style.dispatch({ kind: "another-style" });
    style.dispatch({ kind: "called", styleId: subject, ...(shelfGroove ? { shelfGroove } : {}) });
  }
  window.location.hash = hrefOf(round.id);
}

function dealtOf({ items, nothingElse }: Wanted): Dealt | undefined {
  const shown = items.flatMap((item) => shownItemSchema.safeParse(item).data ?? []);
  return shown.length > 0 ? { items: shown, nothingElse } : undefined;
}
