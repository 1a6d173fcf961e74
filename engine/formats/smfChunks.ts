/**
 * The chunks of a Standard MIDI File: its header, and the bytes of each of its tracks.
 * Source: Standard MIDI Files 1.0, RP-001 (MIDI Manufacturers Association 1996).
 */

/** Thrown when a file is not a Standard MIDI File, is cut off, has no tracks, or is none that can be read. */
export class SmfError extends Error {
  override readonly name = "SmfError";
}

/** How a file counts time: in parts of a quarter note, or of a second (SMPTE). */
export type Division =
  | { readonly of: "quarter"; readonly ticks: number }
  | { readonly of: "second"; readonly ticks: number };

export interface Chunks {
  readonly format: 0 | 1;
  readonly division: Division;
  readonly tracks: readonly Uint8Array[];
}

/** A take of ten hours has about a million messages of four bytes; what is larger is no take. Our choice. */
const MOST_MEGABYTES = 16;
const CHUNK_HEAD_BYTES = 8;
const HEADER_DATA_BYTES = 6;
/** RP-001: four characters of ASCII. */
const CHUNK_NAME = /^[ -~]{4}$/;

/**
 * Takes a file apart. Chunks of unknown kinds are passed over, as RP-001 asks; so is a false count of tracks in the header.
 *
 * @throws SmfError with a sentence that says what is wrong with the file.
 */
export function chunksOf(bytes: Uint8Array): Chunks {
  if (bytes.length === 0) throw new SmfError("The file is empty.");
  if (bytes.length > MOST_MEGABYTES * 1_000_000) {
    throw new SmfError(
      `The file has ${Math.round(bytes.length / 1_000_000)} megabytes; a take has at most ${MOST_MEGABYTES}. Cut it into shorter files.`,
    );
  }
  if (chunkName(bytes, 0) !== "MThd") {
    throw new SmfError("This is not a Standard MIDI File: it does not begin with MThd.");
  }
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const tracks: Uint8Array[] = [];
  for (let at = 0; at < bytes.length; ) {
    const name = chunkName(bytes, at);
    if (at + CHUNK_HEAD_BYTES > bytes.length) {
      // A few bytes of something else after the last chunk do no harm.
      if ("MTrk".startsWith(name)) throw new SmfError("The file is cut off in the head of a track.");
      break;
    }
    const end = at + CHUNK_HEAD_BYTES + view.getUint32(at + 4);
    const isChunk = name === "MTrk" || (CHUNK_NAME.test(name) && end <= bytes.length);
    // Nor do many, once every track that the header counts is there.
    if (!isChunk && at > 0 && tracks.length >= declaredTracks(view)) break;
    if (!CHUNK_NAME.test(name)) {
      throw new SmfError(`The file is broken: at byte ${at} a track should begin, and none does.`);
    }
    if (end > bytes.length) {
      throw new SmfError(
        `The file is cut off: its ${name} chunk ends ${end - bytes.length} bytes after the file does.`,
      );
    }
    if (at === 0 && end < CHUNK_HEAD_BYTES + HEADER_DATA_BYTES)
      throw new SmfError("The file’s header is too short.");
    if (name === "MTrk") tracks.push(bytes.subarray(at + CHUNK_HEAD_BYTES, end));
    at = end;
  }
  if (tracks.length === 0) throw new SmfError("The file holds no track.");
  return { format: formatOf(view), division: divisionOf(view), tracks };
}

function chunkName(bytes: Uint8Array, at: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + 4));
}

/** The header's count of tracks; only a header that is whole may be asked. */
function declaredTracks(view: DataView): number {
  return view.getUint16(CHUNK_HEAD_BYTES + 2);
}

function formatOf(view: DataView): 0 | 1 {
  const format = view.getUint16(CHUNK_HEAD_BYTES);
  if (format === 0 || format === 1) return format;
  throw new SmfError(
    format === 2
      ? "This is a MIDI file of type 2, which holds several pieces side by side. Save each of them as type 0 or 1."
      : `This is a MIDI file of type ${format}, which the standard does not know. Save it as type 0 or 1.`,
  );
}

function divisionOf(view: DataView): Division {
  const division = view.getUint16(CHUNK_HEAD_BYTES + 4);
  if ((division & 0x8000) === 0) {
    if (division === 0) throw new SmfError("The file’s header gives no division of time.");
    return { of: "quarter", ticks: division };
  }
  const rate = 256 - (division >> 8);
  const ticksPerFrame = division & 0xff;
  if (ticksPerFrame === 0) throw new SmfError("The file’s header gives no division of time.");
  // RP-001: "29" stands for 30 drop frame, which runs at 30000/1001 frames a second.
  return { of: "second", ticks: (rate === 29 ? 30_000 / 1001 : rate) * ticksPerFrame };
}
