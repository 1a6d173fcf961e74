/**
 * A page that stopped in the middle of a lesson, and was opened again in the same window, goes on with that lesson
 * without asking: the teacher did not end it. After a fresh start of the program it asks, as before.
 */
import type { BrokenOff } from "../session/lessonBook.ts";
import type { Watched } from "../session/store.ts";

const KEPT_AS = "throneside.lesson-on";

/** What is kept as long as the window is, crashes included (`sessionStorage`, as the HTML standard has it). */
export type WindowMemory = Pick<Storage, "getItem" | "setItem" | "removeItem">;

/** The lesson book, as far as it is needed here. */
export interface LessonOn {
  readonly log: Watched<{ readonly began: { readonly lessonId: string } | null }> & {
    readonly isOn: boolean;
  };
}

export interface BrokenOffFound extends Watched<{ readonly found: BrokenOff }> {
  readonly goOn: () => Promise<void>;
}

/**
 * Goes on with the lesson this window was in, once it is found broken off; then keeps in mind which one it is in.
 * Returns the way to stop.
 */
export function stayInLesson(book: LessonOn, brokenOff: BrokenOffFound, memory: WindowMemory): () => void {
  const wasIn = memory.getItem(KEPT_AS);
  let isLookedAt = false;
  const look = (): void => {
    const { found } = brokenOff.get();
    if (isLookedAt || found.kind !== "open") return;
    isLookedAt = true;
    if (found.lessonId === wasIn) void brokenOff.goOn();
  };
  const keep = (): void => {
    const { began } = book.log.get();
    if (book.log.isOn && began) memory.setItem(KEPT_AS, began.lessonId);
    else if (began) memory.removeItem(KEPT_AS);
  };
  const stops = [brokenOff.subscribe(look), book.log.subscribe(keep)];
  look();
  return () => {
    for (const stop of stops) stop();
  };
}
