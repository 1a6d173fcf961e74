/** What a window does once its first page stands, if the desktop shell is around it. */
import type { Program } from "../app/program.ts";
import { shellDoorOf } from "./door.ts";
import { startInShell } from "./inShell.ts";
import { stayInLesson } from "./sameLesson.ts";

/**
 * Goes on with the lesson a crash broke off, and does what else there is to do in the shell. A browser's page is opened
 * anew by its user only, and asks. What goes wrong is told to `tell`; nothing of it keeps a lesson from going on.
 */
export async function settleIn(
  program: Pick<Program, "studio" | "lesson">,
  page: Pick<Window, "sessionStorage">,
  tell: (error: unknown) => void,
): Promise<void> {
  try {
    const door = shellDoorOf(page);
    if (!door) return;
    const { book, brokenOff } = await program.studio.load();
    const goOn = async (): Promise<void> => {
      // What records a lesson has to be there before it goes on.
      await program.lesson.load();
      await brokenOff.goOn();
    };
    stayInLesson(book, { get: brokenOff.get, subscribe: brokenOff.subscribe, goOn }, page.sessionStorage);
    await startInShell(door, program, tell);
  } catch (error) {
    tell(error);
  }
}
