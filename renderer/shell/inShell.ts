/** What the program does in the desktop shell beyond what it does in a browser. */
import type { Program } from "../app/program.ts";
import { hrefOf } from "../app/route.ts";
import { stayAwake } from "./awake.ts";
import type { ShellDoor } from "./door.ts";
import { openMidi } from "./openMidi.ts";

/** Hears the menu, and keeps the screen on while a lesson is on. What goes wrong is told to `tell`. */
export async function startInShell(
  door: ShellDoor,
  program: Pick<Program, "studio" | "lesson">,
  tell: (error: unknown) => void,
): Promise<void> {
  door.onCommand((command) => {
    switch (command) {
      case "open-midi":
        importMidi(door, program).catch(tell);
        break;
      case "show-backups":
        window.location.hash = hrefOf("studio");
        break;
    }
  });
  const { book } = await program.studio.load();
  stayAwake(book.log, (on) => door.ask("keepAwake", { on }), tell);
}

/** Onto the Shelf, whatever is on the screen. What lies open there stays open. */
async function importMidi(door: ShellDoor, program: Pick<Program, "lesson">): Promise<void> {
  const chosen = await openMidi(door, "files");
  if (chosen === null) return;
  const { shelfDesk, shelfImport } = await program.lesson.load();
  if (shelfDesk.get().view.at === "browse") shelfDesk.import();
  window.location.hash = hrefOf("shelf");
  await shelfImport.start(chosen);
}
