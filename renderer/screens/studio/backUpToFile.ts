/**
 * The studio's archive, packed with gzip (RFC 1952), as one file: through the desktop shell, or where the browser puts it
 * ({@link keepArchive}). It is written as it is made, however large the studio is.
 */
import { shellDoorOf, writeThroughShell } from "../../shell/index.ts";
import {
  type ArchiveFile,
  type ArchiveKept,
  type ArchivePlace,
  backUp,
  keepArchive,
  noteBackup,
  type Progress,
  type StudioDatabase,
} from "../../store/index.ts";

/** `trouble`: what went wrong after the file was in its place, as a sentence. */
export type BackedUp = ArchiveKept & { readonly trouble?: string };

export interface BackUpHow {
  /** ISO 8601 in UTC. */
  readonly madeAt: string;
  readonly onProgress: (progress: Progress) => void;
  readonly signal: AbortSignal;
}

const ENDING = "gz";
const KIND_NAME = "Studio archive";
const PROGRAM = "throneside";
const PUT_DOWN: BackedUp = { kind: "put-down" };

/** Backs the studio up where the user says; given up, it is put down. What goes wrong is thrown. */
export async function backUpToFile(database: StudioDatabase, how: BackUpHow): Promise<BackedUp> {
  const name = `throneside, ${how.madeAt.slice(0, 10)}.jsonl.${ENDING}`;
  try {
    const done = await written(name, packed(backUp(database, { ...how, program: PROGRAM })), how.signal);
    if (done.kind !== "put-down") await noteBackup(database, how.madeAt);
    return done;
  } catch (error) {
    if (how.signal.aborted) return PUT_DOWN;
    throw error;
  }
}

/**
 * In the desktop shell, where a backup folder is chosen: the next archive of it. Nothing anywhere else.
 *
 * @throws StoreError, or Error with a sentence.
 */
export async function backUpToFolder(database: StudioDatabase, madeAt: string): Promise<BackedUp> {
  const door = shellDoorOf(window);
  const folder = door && (await door.ask("backups", {}));
  if (!door || folder?.kind !== "folder") return PUT_DOWN;
  const pieces = packed(backUp(database, { madeAt, program: PROGRAM }));
  const done = throughShell(await writeThroughShell(door, { place: "backup", ending: ENDING }, pieces));
  if (done.kind === "saved") await noteBackup(database, madeAt);
  return done;
}

async function written(
  name: string,
  pieces: AsyncGenerator<Uint8Array<ArrayBuffer>>,
  signal: AbortSignal,
): Promise<BackedUp> {
  const door = shellDoorOf(window);
  if (!door) return keepArchive(pieces, name, placeOfThisPage());
  const wanted = { place: "chosen" as const, name, kindName: KIND_NAME, ending: ENDING };
  return throughShell(await writeThroughShell(door, wanted, pieces, { signal }));
}

function throughShell(done: Awaited<ReturnType<typeof writeThroughShell>>): BackedUp {
  if (done.kind === "failed") throw new Error(done.reason);
  if (done.kind !== "saved") return PUT_DOWN;
  return { kind: "saved", name: done.name, ...(done.trouble === null ? {} : { trouble: done.trouble }) };
}

function placeOfThisPage(): ArchivePlace {
  return { pick: pickerOf(window), download };
}

function pickerOf(page: object): ArchivePlace["pick"] {
  if (!("showSaveFilePicker" in page) || typeof page.showSaveFilePicker !== "function") return undefined;
  const pick: (about: unknown) => Promise<ArchiveFile> = page.showSaveFilePicker.bind(page);
  const types = [{ description: KIND_NAME, accept: { "application/gzip": [`.${ENDING}`] } }];
  return (suggestedName) => pick({ suggestedName, types });
}

function download(name: string, content: Blob): void {
  const address = URL.createObjectURL(content);
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  // Downloads of a large file may be read some time after they began. Our choice of a minute.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** Packs as it goes. What goes wrong before the packing comes out of it. */
async function* packed(
  pieces: AsyncGenerator<Uint8Array<ArrayBuffer>>,
): AsyncGenerator<Uint8Array<ArrayBuffer>> {
  const source = new ReadableStream<Uint8Array<ArrayBuffer>>({
    async pull(controller) {
      const { value, done } = await pieces.next();
      if (done) controller.close();
      else controller.enqueue(value);
    },
    async cancel() {
      await pieces.return(undefined);
    },
  });
  const reader = source.pipeThrough(new CompressionStream("gzip")).getReader();
  try {
    for (let piece = await reader.read(); !piece.done; piece = await reader.read())
      yield new Uint8Array(piece.value);
  } finally {
    await reader.cancel();
  }
}
