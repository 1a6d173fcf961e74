/** Files that leave the page through the desktop shell, piece by piece, so that their size does not matter. */
import { type DoorAnswered, type DoorAsked, MOST_BYTES_AT_ONCE } from "../../engine/records/index.ts";
import type { ShellDoor } from "./door.ts";

export type Written =
  | Extract<DoorAnswered<"endWriting">, { kind: "saved" }>
  /** No backup folder has been chosen yet. */
  | { readonly kind: "no-folder" }
  /** The dialog was closed, or the writing given up on the way. */
  | { readonly kind: "put-down" }
  | { readonly kind: "failed"; readonly reason: string };

export interface OnTheWay {
  /** Gives the writing up: nothing of it stays. */
  readonly signal?: AbortSignal;
  /** Hears how many bytes are written so far. */
  readonly onBytes?: (bytes: number) => void;
}

/**
 * Writes `pieces` where `wanted` says: where the user chooses, or as the next archive of the backup folder. The next
 * piece is asked for when the one before is on the disk, so no more than one is held. Rejects if `pieces` does, or if
 * the shell does not answer; nothing of the file stays then.
 */
export async function writeThroughShell(
  door: ShellDoor,
  wanted: DoorAsked<"beginWriting">,
  pieces: AsyncIterable<Uint8Array>,
  { signal, onBytes }: OnTheWay = {},
): Promise<Written> {
  const begun = await door.ask("beginWriting", wanted);
  if (begun.kind !== "begun") return begun;
  const { id } = begun;
  try {
    let bytes = 0;
    for await (const piece of cut(pieces)) {
      if (signal?.aborted) break;
      const added = await door.ask("addToWriting", { id, bytes: piece });
      if (added.kind === "failed") return added;
      bytes += piece.length;
      onBytes?.(bytes);
    }
    if (!signal?.aborted) return await door.ask("endWriting", { id, bytes });
  } catch (error) {
    await door.ask("giveUpWriting", { id });
    throw error;
  }
  await door.ask("giveUpWriting", { id });
  return { kind: "put-down" };
}

/** The content of a blob, piece by piece. */
export async function* piecesOf(content: Blob): AsyncGenerator<Uint8Array> {
  for (let from = 0; from < content.size; from += MOST_BYTES_AT_ONCE)
    yield new Uint8Array(await content.slice(from, from + MOST_BYTES_AT_ONCE).arrayBuffer());
}

async function* cut(pieces: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array<ArrayBuffer>> {
  for await (const piece of pieces) {
    for (let from = 0; from < piece.length; from += MOST_BYTES_AT_ONCE)
      // A copy of its own: what is sent is sent with all of the memory it is a view of.
      yield new Uint8Array(piece.slice(from, from + MOST_BYTES_AT_ONCE));
  }
}
