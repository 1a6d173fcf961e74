/** The place for a file that is to be saved: the user says it in the system's dialog, which asks before replacing. */
import { access } from "node:fs/promises";
import { basename, extname, join } from "node:path";
import type { FileDialogs } from "./dialogs.ts";
import { codeOf } from "./fileTrouble.ts";

export type Place =
  | { readonly kind: "chosen"; readonly path: string }
  | { readonly kind: "put-down" }
  | { readonly kind: "failed"; readonly reason: string };

export interface Wanted {
  readonly name: string;
  readonly kindName: string;
  /** Without the full stop. */
  readonly ending: string;
}

/** `folder` is where the dialog begins. */
export async function chosenPlace(
  { name, kindName, ending }: Wanted,
  folder: string,
  dialogs: Pick<FileDialogs, "save">,
): Promise<Place> {
  const path = await dialogs.save({
    // The name comes from the page: only its last part, so that it cannot lead the dialog elsewhere.
    defaultPath: join(folder, basename(name.replaceAll("\\", "/"))),
    filters: [{ name: kindName, extensions: [ending] }],
    properties: ["createDirectory", "showOverwriteConfirmation"],
  });
  if (path === undefined) return { kind: "put-down" };
  if (extname(path).toLowerCase() === `.${ending}`) return { kind: "chosen", path };
  return withEnding(path, ending);
}

/** Not every system's dialog adds the ending; where it did not, it has not asked about the file of the full name either. */
async function withEnding(path: string, ending: string): Promise<Place> {
  const full = `${path}.${ending}`;
  if (!(await isThere(full))) return { kind: "chosen", path: full };
  return {
    kind: "failed",
    reason: `${basename(full)} is there already and was left as it is. To replace it, choose it by its full name.`,
  };
}

async function isThere(path: string): Promise<boolean> {
  try {
    await access(path);
    return true;
  } catch (error) {
    if (codeOf(error) === "ENOENT") return false;
    // It is there, and not ours to read.
    return true;
  }
}
