/**
 * Standard MIDI Files in.
 * Source: Standard MIDI Files 1.0, RP-001 (MIDI Manufacturers Association 1996).
 */
import { type MidiEvent, parseMidi } from "midi-file";
import type { MidiMessage } from "../kit/index.ts";
import { FOUR_FOUR, type Metre } from "../score/index.ts";
import type { Bpm, Seconds } from "../units/index.ts";

/** Thrown when a file is not a Standard MIDI File, is cut off, or has no tracks. */
export class SmfError extends Error {
  override readonly name = "SmfError";
}

/** A message with its moment, tempo changes applied. */
export interface TimedMessage {
  readonly time: Seconds;
  readonly message: MidiMessage;
}

export interface SmfFile {
  readonly format: number;
  /** All tracks together, in order of time; at one moment in order of track and of place in it. */
  readonly events: readonly TimedMessage[];
  /** Every tempo the file says, from time 0; 120 a minute where it says none. */
  readonly tempos: readonly { readonly time: Seconds; readonly tempoBpm: Bpm }[];
  /** Every time signature the file says, from time 0; 4/4 where it says none. */
  readonly metres: readonly { readonly time: Seconds; readonly metre: Metre }[];
}

const DEFAULT_TEMPO_MICROSECONDS = 500_000;
/** RP-001: the largest number a variable-length quantity may hold; it has four bytes. */
const LONGEST_DELTA_TICKS = 0x0fffffff;

/**
 * Reads a file of type 0, 1 or 2, with any division, ticks per quarter note or SMPTE. The tracks of type 2, which
 * are pieces of their own, are laid on one another from time 0, as those of type 1 are.
 *
 * @throws SmfError with a sentence that says what is wrong with the file.
 */
export function readSmf(bytes: Uint8Array): SmfFile {
  const { header, tracks } = parsed(bytes);
  const merged = tracks.flatMap((track) => {
    let tick = 0;
    return track.map((event) => {
      if (event.deltaTime < 0 || event.deltaTime > LONGEST_DELTA_TICKS)
        throw new SmfError("The file is broken: a delta time in it has more than four bytes.");
      tick += event.deltaTime;
      return { tick, event };
    });
  });
  merged.sort((a, b) => a.tick - b.tick);

  const events: TimedMessage[] = [];
  const tempos: { time: Seconds; tempoBpm: Bpm }[] = [];
  const metres: { time: Seconds; metre: Metre }[] = [];
  let tick = 0;
  let time = 0;
  let secondsPerTick = tickSeconds(header, DEFAULT_TEMPO_MICROSECONDS);
  for (const { tick: eventTick, event } of merged) {
    time += (eventTick - tick) * secondsPerTick;
    tick = eventTick;
    if (event.type === "setTempo") {
      if (!(event.microsecondsPerBeat > 0))
        throw new SmfError("The file gives a tempo in which no time passes.");
      secondsPerTick = tickSeconds(header, event.microsecondsPerBeat);
      tempos.push({ time, tempoBpm: 60_000_000 / event.microsecondsPerBeat });
    } else if (event.type === "timeSignature") {
      metres.push({ time, metre: { numerator: event.numerator, denominator: event.denominator } });
    } else {
      const message = messageOf(event);
      if (message) events.push({ time, message });
    }
  }
  if (tempos[0]?.time !== 0) tempos.unshift({ time: 0, tempoBpm: 60_000_000 / DEFAULT_TEMPO_MICROSECONDS });
  if (metres[0]?.time !== 0) metres.unshift({ time: 0, metre: FOUR_FOUR });
  return { format: header.format, events, tempos, metres };
}

function parsed(bytes: Uint8Array): ReturnType<typeof parseMidi> {
  if (bytes.length === 0) throw new SmfError("The file is empty.");
  if (chunkName(bytes, 0) !== "MThd") {
    throw new SmfError("This is not a Standard MIDI File: it does not begin with MThd.");
  }
  try {
    const midi = parseMidi(headerAndTracks(bytes));
    if (midi.tracks.length === 0) throw new SmfError("The file holds no track.");
    return midi;
  } catch (cause) {
    if (cause instanceof SmfError) throw cause;
    // The reader throws plain strings on some broken files.
    const reason = cause instanceof Error ? cause.message : String(cause);
    throw new SmfError(`The file is broken (${reason}).`, { cause });
  }
}

const CHUNK_HEAD_BYTES = 8;
const HEADER_DATA_BYTES = 6;
/** RP-001: four characters of ASCII. */
const CHUNK_NAME = /^[ -~]{4}$/;

function chunkName(bytes: Uint8Array, at: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + 4));
}

/** The header's count of tracks; only a header that is whole may be asked. */
function declaredTracks(view: DataView): number {
  return view.getUint16(CHUNK_HEAD_BYTES + 2);
}

/**
 * The file with its header and tracks only: RP-001 asks readers to pass over chunks they do not know, and the
 * parsing library neither does that nor notices a file that was cut off.
 */
function headerAndTracks(bytes: Uint8Array): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const kept: Uint8Array[] = [];
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
    if (!isChunk && at > 0 && kept.length > declaredTracks(view)) break;
    if (!CHUNK_NAME.test(name)) {
      throw new SmfError(`The file is broken: at byte ${at} a track should begin, and none does.`);
    }
    if (end > bytes.length) {
      throw new SmfError(
        `The file is cut off: its ${name} chunk ends ${end - bytes.length} bytes after the file does.`,
      );
    }
    if (at === 0 && end < CHUNK_HEAD_BYTES + HEADER_DATA_BYTES)
      throw new SmfError("The file's header is too short.");
    if (at === 0 || name === "MTrk") kept.push(bytes.subarray(at, end));
    at = end;
  }
  const header = kept[0];
  if (!header || kept.length < 2) throw new SmfError("The file holds no track.");
  const whole = joined(kept);
  // The header's count of tracks is not always true; the tracks that are there are what counts.
  new DataView(whole.buffer).setUint16(CHUNK_HEAD_BYTES + 2, kept.length - 1);
  return whole;
}

function joined(chunks: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(chunks.reduce((length, chunk) => length + chunk.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
}

function tickSeconds(
  header: ReturnType<typeof parseMidi>["header"],
  microsecondsPerQuarter: number,
): Seconds {
  if (header.framesPerSecond && header.ticksPerFrame) {
    // RP-001: "29" stands for 30 drop frame, which runs at 30000/1001 frames a second.
    const framesPerSecond = header.framesPerSecond === 29 ? 30_000 / 1001 : header.framesPerSecond;
    return 1 / (framesPerSecond * header.ticksPerFrame);
  }
  if (!header.ticksPerBeat) throw new SmfError("The file's header gives no division of time.");
  return microsecondsPerQuarter / 1_000_000 / header.ticksPerBeat;
}

function messageOf(event: MidiEvent): MidiMessage | undefined {
  switch (event.type) {
    case "noteOn":
      return {
        kind: "note-on",
        channel: event.channel,
        note: sevenBits(event.noteNumber),
        velocity: sevenBits(event.velocity),
      };
    case "noteOff":
      return { kind: "note-off", channel: event.channel, note: sevenBits(event.noteNumber) };
    case "noteAftertouch":
      return {
        kind: "key-pressure",
        channel: event.channel,
        note: sevenBits(event.noteNumber),
        pressure: sevenBits(event.amount),
      };
    case "controller":
      return {
        kind: "control",
        channel: event.channel,
        controller: sevenBits(event.controllerType),
        value: sevenBits(event.value),
      };
    default:
      return undefined;
  }
}

/** A data byte, which the parsing library does not check: in a message that is cut off it is missing. */
function sevenBits(value: number): number {
  if (Number.isInteger(value) && value >= 0 && value <= 127) return value;
  throw new SmfError("The file is broken: a message in it has a data byte that is missing or above 127.");
}
