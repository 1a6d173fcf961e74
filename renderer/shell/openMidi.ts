/** MIDI files chosen in the desktop shell's dialog, as those of the page's own dialog come. */
import type { Chosen } from "../screens/shelf/import/chosenFiles.ts";
import type { ShellDoor } from "./door.ts";

/**
 * The files that were chosen; `null` if the dialog was closed. Those the shell could not read come too, and say why when
 * they are opened. Throws a sentence if nothing could be opened at all.
 */
export async function openMidi(door: ShellDoor, from: "files" | "folder"): Promise<Chosen | null> {
  const answer = await door.ask("openMidi", { from });
  if (answer.kind === "put-down") return null;
  if (answer.kind === "failed") throw new Error(answer.reason);
  const read = answer.files.map(({ path, bytes }) => ({
    path,
    file: async () => new File([new Uint8Array(bytes)], path.split("/").at(-1) ?? path),
  }));
  const unread = answer.leftOut.map(({ path, reason }) => ({
    path,
    file: () => Promise.reject(new Error(reason)),
  }));
  return { files: [...read, ...unread], passedOver: answer.passedOver };
}
