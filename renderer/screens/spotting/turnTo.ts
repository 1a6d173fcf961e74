/** From a name to the page where it is played, or taught. */
import { grooveOf } from "../../../engine/catalogue/index.ts";
import type { Spottable } from "../../../engine/rounds/index.ts";
import type { Lesson } from "../../app/lesson.ts";
import { hrefOf } from "../../app/route.ts";

/** Call a Style, with this groove called. */
export function playItNow({ round, shelf }: Pick<Lesson, "round" | "shelf">, { thing }: Spottable): void {
  const { stage } = round.get().at;
  if (stage === "after" || stage === "failed") round.dispatch({ kind: "another-style" });
  const entry = shelf.index.get(thing.id);
  const shelfGroove = entry && grooveOf(entry);
  round.dispatch({ kind: "called", styleId: thing.id, ...(shelfGroove ? { shelfGroove } : {}) });
  window.location.hash = hrefOf("call-a-style");
}

/** The Shelf, open at it: its ring, its staff, its slow sound. */
export function teachIt({ shelfDesk }: Pick<Lesson, "shelfDesk">, { thing, ways }: Spottable): void {
  shelfDesk.open(shelfIdOf(thing, ways[0]?.music.id));
  window.location.hash = hrefOf("shelf");
}

/** The stock stands on the Shelf as well, under ids of its own. */
function shelfIdOf({ kind, id }: Spottable["thing"], firstWay: string | undefined): string {
  if (id.startsWith("own/")) return id;
  return kind === "fill" ? `fill/${id}` : `style/${firstWay ?? id}`;
}
