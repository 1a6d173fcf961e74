import { grooveById, musicOf } from "../../../engine/catalogue/index.ts";
import { type ItemId, itemOf, roundOf } from "../../../engine/memory/index.ts";
import { type Dealt, shownItemSchema } from "../../../engine/rounds/index.ts";
import { BUILT_ROUNDS, hrefOf } from "../../app/route.ts";
import type { Studio } from "../../app/studio.ts";
import type { Shelf } from "../../store/index.ts";
import type { StyleRound } from "../call-a-style/styleRound.ts";
import { framedAt } from "../round/framedAt.ts";
import type { FramedRounds } from "../round/framedRounds.ts";

/** What is asked: in this order; on a bad day nothing else. */
export interface Wanted {
  readonly items: readonly ItemId[];
  readonly nothingElse: boolean;
}

/** The rounds of a lesson that is loaded. */
export interface LessonRounds {
  readonly framed: FramedRounds;
  /** Call a Style at each kit. */
  readonly rounds: readonly [StyleRound, StyleRound];
  readonly shelf: Shelf;
}

/**
 * Turns to the round that asks these items and begins it with them: Call a Style has the first of them called, at the kit
 * whose turn it is. What is on there is ended. Does nothing with items that no round asks.
 *
 * @param wanted its items are of one round.
 */
export async function playItemsIn(
  lesson: LessonRounds,
  { players, book }: Pick<Studio, "players" | "book">,
  { items, nothingElse }: Wanted,
): Promise<void> {
  const [first] = items;
  const round = first && BUILT_ROUNDS.find(({ id }) => id === roundOf(first));
  if (first === undefined || !round) return;
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
