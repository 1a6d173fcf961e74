/** MIDI files, or a folder of them, chosen in the system's dialog and read. */
import type { Dirent } from "node:fs";
import { readdir, readFile, stat } from "node:fs/promises";
import { basename, join } from "node:path";
import type { OpenDialogOptions } from "electron";
import type { DoorAnswered, DoorAsked } from "../../engine/records/index.ts";
import type { FileDialogs } from "./dialogs.ts";
import { fileTrouble } from "./fileTrouble.ts";

const ENDINGS = ["mid", "midi", "smf"];
const MIDI_NAME = /\.(mid|midi|smf)$/i;

/** Bytes of one file, and of all that are read at once. Our choice: an hour of drums is below 1 MB. */
const MOST_BYTES_A_FILE = 16 * 2 ** 20;
const MOST_BYTES_IN_ALL = 256 * 2 ** 20;

type Chosen = Extract<DoorAnswered<"openMidi">, { kind: "chosen" }>;

/** A file that was found: its path on the disk, and the one it is called by. */
interface Found {
  readonly place: string;
  readonly path: string;
}

export async function openMidi(
  { from }: DoorAsked<"openMidi">,
  dialogs: Pick<FileDialogs, "open">,
): Promise<DoorAnswered<"openMidi">> {
  const places = await dialogs.open(from === "folder" ? folderDialog : filesDialog);
  const [first] = places ?? [];
  if (places === undefined || first === undefined) return { kind: "put-down" };
  if (from === "files")
    return readAll(
      places.map((place) => ({ place, path: basename(place) })),
      0,
    );
  try {
    const all = await filesBelow(first, basename(first));
    const midi = all.filter(({ path }) => MIDI_NAME.test(path));
    return await readAll(midi, all.length - midi.length);
  } catch (error) {
    return { kind: "failed", reason: fileTrouble(`${basename(first)} could not be opened`, error) };
  }
}

const filesDialog: OpenDialogOptions = {
  properties: ["openFile", "multiSelections"],
  filters: [
    { name: "MIDI files", extensions: ENDINGS },
    { name: "All files", extensions: ["*"] },
  ],
};
const folderDialog: OpenDialogOptions = { properties: ["openDirectory"] };

/** Links are not followed: they may lead round in a ring, or out of the folder. */
async function filesBelow(folder: string, path: string): Promise<readonly Found[]> {
  const entries = await readdir(folder, { withFileTypes: true });
  const found: Found[] = [];
  for (const entry of entries.sort(byName)) {
    const next = { place: join(folder, entry.name), path: `${path}/${entry.name}` };
    if (entry.isDirectory()) found.push(...(await filesBelow(next.place, next.path)));
    else if (entry.isFile()) found.push(next);
  }
  return found;
}

function byName(a: Dirent, b: Dirent): number {
  return a.name < b.name ? -1 : 1;
}

/** One that cannot be read does not keep the others from being read. */
async function readAll(found: readonly Found[], passedOver: number): Promise<Chosen> {
  const files: Chosen["files"] = [];
  const leftOut: Chosen["leftOut"] = [];
  let bytesInAll = 0;
  for (const { place, path } of found) {
    try {
      const { size } = await stat(place);
      const tooMuch = whyNotRead(size, bytesInAll);
      if (tooMuch !== undefined) {
        leftOut.push({ path, reason: `${path} ${tooMuch}` });
        continue;
      }
      files.push({ path, bytes: new Uint8Array(await readFile(place)) });
      bytesInAll += size;
    } catch (error) {
      leftOut.push({ path, reason: fileTrouble(`${path} could not be read`, error) });
    }
  }
  return { kind: "chosen", files, leftOut, passedOver };
}

function whyNotRead(bytes: number, bytesInAll: number): string | undefined {
  if (bytes > MOST_BYTES_A_FILE) return "is larger than 16 MB, which is no groove; it was not read.";
  if (bytesInAll + bytes > MOST_BYTES_IN_ALL)
    return "was not read: 256 MB are the most at once. Open it by itself.";
  return undefined;
}
