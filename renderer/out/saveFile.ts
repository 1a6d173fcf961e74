/**
 * The one way a file leaves the page. In the desktop shell the place is chosen in the system's dialog and the shell
 * writes the file there; where the browser has the File System Access API (WICG) it is the same in the browser;
 * elsewhere it is a download. Either way the content is whole before anything is written, and a file appears whole or
 * not at all: the shell and the API write beside the old file and swap them at the end.
 */
import { piecesOf, type ShellDoor, shellDoorOf, writeThroughShell } from "../shell/index.ts";

/** A kind of file, as a dialog names it. */
export interface FileKind {
  /** "MIDI file" */
  readonly name: string;
  /** Media type. */
  readonly type: string;
  /** "mid": without the full stop. */
  readonly ending: string;
}

export const FILE_KINDS = {
  mid: { name: "MIDI file", type: "audio/midi", ending: "mid" },
  musicxml: { name: "MusicXML", type: "application/vnd.recordare.musicxml+xml", ending: "musicxml" },
  csv: { name: "Table, CSV", type: "text/csv", ending: "csv" },
  svg: { name: "Picture, SVG", type: "image/svg+xml", ending: "svg" },
  png: { name: "Picture, PNG", type: "image/png", ending: "png" },
} as const satisfies Record<string, FileKind>;

/** A file that is ready to be saved. */
export interface OutFile {
  /** With its ending. */
  readonly name: string;
  readonly kind: FileKind;
  readonly content: string | Uint8Array<ArrayBuffer> | Blob;
}

export type Saved =
  /** Written where the user chose. */
  | { readonly kind: "saved"; readonly name: string }
  /** Given to the browser, which has a place for downloads or asks for one. */
  | { readonly kind: "handed-over"; readonly name: string }
  /** The user closed the dialog. */
  | { readonly kind: "put-down" }
  | { readonly kind: "failed"; readonly reason: string };

/** The part of a file handle that is used; the API is not in TypeScript's own types. */
interface Writing {
  readonly write: (content: Blob) => Promise<void>;
  readonly close: () => Promise<void>;
  readonly abort: () => Promise<void>;
}
export interface PickedFile {
  readonly name: string;
  readonly createWritable: () => Promise<Writing>;
  readonly getFile: () => Promise<{ readonly size: number }>;
  /** Not in every browser that has the rest. */
  readonly remove?: () => Promise<void>;
}
export type PickPlace = (asked: {
  readonly suggestedName: string;
  readonly types: readonly {
    readonly description: string;
    readonly accept: Record<string, readonly string[]>;
  }[];
}) => Promise<PickedFile>;

/** How the page at hand saves. */
export interface SavingPlace {
  /** Undefined in a browser. */
  readonly door?: ShellDoor | undefined;
  /** Undefined where the browser cannot ask for a place. */
  readonly pick: PickPlace | undefined;
  readonly download: (name: string, content: Blob) => void;
}

/** Saves a file; never throws: what went wrong is part of the answer. */
export async function saveFile(
  { name, kind, content }: OutFile,
  place: SavingPlace = placeOfThisPage(),
): Promise<Saved> {
  const whole = content instanceof Blob ? content : new Blob([content], { type: kind.type });
  if (place.door) return savedThrough(place.door, name, kind, whole);
  if (!place.pick) return handedOver(name, whole, place);
  let picked: PickedFile;
  try {
    picked = await place.pick({
      suggestedName: name,
      types: [{ description: kind.name, accept: { [kind.type]: [`.${kind.ending}`] } }],
    });
  } catch (error) {
    if (nameOf(error) === "AbortError") return { kind: "put-down" };
    // The browser wants a fresh press of a key or button before it opens its dialog: a download needs none.
    if (nameOf(error) === "SecurityError") return handedOver(name, whole, place);
    return { kind: "failed", reason: reasonWords(name, error) };
  }
  return written(picked, whole);
}

async function savedThrough(
  door: ShellDoor,
  name: string,
  { name: kindName, ending }: FileKind,
  content: Blob,
): Promise<Saved> {
  try {
    const written = await writeThroughShell(
      door,
      { place: "chosen", name, kindName, ending },
      piecesOf(content),
    );
    // Only a backup asks for the backup folder.
    return written.kind === "no-folder" ? { kind: "put-down" } : written;
  } catch (error) {
    return { kind: "failed", reason: reasonWords(name, error) };
  }
}

function handedOver(name: string, content: Blob, place: SavingPlace): Saved {
  place.download(name, content);
  return { kind: "handed-over", name };
}

async function written(picked: PickedFile, content: Blob): Promise<Saved> {
  try {
    const writing = await picked.createWritable();
    try {
      await writing.write(content);
      await writing.close();
    } catch (error) {
      // What was there before stays as it was. A stream that has failed already cannot be given up once more.
      await writing.abort().catch(() => undefined);
      throw error;
    }
    return { kind: "saved", name: picked.name };
  } catch (error) {
    return { kind: "failed", reason: `${reasonWords(picked.name, error)}${await leftEmpty(picked)}` };
  }
}

/** The dialog makes an empty file before anything is written: it is taken away again, or at least spoken of. */
async function leftEmpty(picked: PickedFile): Promise<string> {
  try {
    if ((await picked.getFile()).size > 0) return "";
    if (!picked.remove) return " An empty file of that name is left; delete it.";
    await picked.remove();
    return "";
  } catch {
    // The place itself is gone, which the first sentence says already.
    return "";
  }
}

/** Errors of the File System and Web IDL standards, in words. */
function reasonWords(name: string, error: unknown): string {
  switch (nameOf(error)) {
    case "QuotaExceededError":
      return `${name} was not saved: there is no room left. Make room, or choose another place.`;
    case "NotAllowedError":
      return `${name} was not saved: writing there is not allowed. Choose another place, or allow it when asked.`;
    case "NoModificationAllowedError":
    case "InvalidStateError":
      return `${name} was not saved: another program holds it open. Close it there, and save again.`;
    case "NotFoundError":
      return `${name} was not saved: its folder is gone. Choose another place.`;
    default:
      return `${name} was not saved: ${messageOf(error)} Save again, or choose another place.`;
  }
}

function nameOf(error: unknown): string | undefined {
  return error instanceof Error ? error.name : undefined;
}

/** What an error says, as a sentence. */
export function messageOf(error: unknown): string {
  const text = (error instanceof Error ? error.message : String(error)).trim();
  return /[.!?]$/.test(text) ? text : `${text}.`;
}

function placeOfThisPage(): SavingPlace {
  return { door: shellDoorOf(window), pick: pickerOf(window), download: downloadFrom };
}

function pickerOf(page: object): PickPlace | undefined {
  if (!("showSaveFilePicker" in page) || typeof page.showSaveFilePicker !== "function") return undefined;
  const pick = page.showSaveFilePicker;
  return (asked) => pick.call(page, asked);
}

/** Downloads of a large file may be read some time after they began. Our choice. */
const ADDRESS_KEPT_MS = 60_000;

function downloadFrom(name: string, content: Blob): void {
  const address = URL.createObjectURL(content);
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), ADDRESS_KEPT_MS);
}
