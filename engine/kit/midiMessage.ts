/**
 * MIDI 1.0 channel messages from bytes.
 * Source: MIDI 1.0 Detailed Specification (MIDI Manufacturers Association 1996).
 */
import type { NoteNumber } from "../units/index.ts";

/** A message the kit cares about. A note-on with velocity 0 arrives here as a note-off, as the standard says. */
export type MidiMessage =
  | {
      readonly kind: "note-on";
      readonly channel: number;
      readonly note: NoteNumber;
      readonly velocity: number;
    }
  | { readonly kind: "note-off"; readonly channel: number; readonly note: NoteNumber }
  | {
      readonly kind: "key-pressure";
      readonly channel: number;
      readonly note: NoteNumber;
      readonly pressure: number;
    }
  | {
      readonly kind: "control";
      readonly channel: number;
      readonly controller: number;
      readonly value: number;
    }
  | { readonly kind: "other" };

/** Reads one channel message; `status` must have its top bit set and the data bytes theirs clear. */
function channelMessage(status: number, first: number, second: number): MidiMessage {
  const channel = status & 0x0f;
  switch (status & 0xf0) {
    case 0x80:
      return { kind: "note-off", channel, note: first };
    case 0x90:
      return second === 0
        ? { kind: "note-off", channel, note: first }
        : { kind: "note-on", channel, note: first, velocity: second };
    case 0xa0:
      return { kind: "key-pressure", channel, note: first, pressure: second };
    case 0xb0:
      return { kind: "control", channel, controller: first, value: second };
    default:
      return { kind: "other" };
  }
}

/** Data bytes after each status nibble 8 to E: program change and channel pressure have one, the rest two. */
function dataByteCount(status: number): number {
  const nibble = status & 0xf0;
  return nibble === 0xc0 || nibble === 0xd0 ? 1 : 2;
}

/**
 * All messages of a byte stream, running status included; system exclusive is skipped, real-time bytes may
 * stand anywhere and change nothing. A stream that is cut off loses only its last, unfinished message.
 *
 * @example
 * readMidiBytes([0x99, 38, 100]) // => [{ kind: "note-on", channel: 9, note: 38, velocity: 100 }]
 */
export function readMidiBytes(bytes: Iterable<number>): readonly MidiMessage[] {
  const messages: MidiMessage[] = [];
  let status = 0;
  let data: number[] = [];
  for (const byte of bytes) {
    if (byte >= 0xf8) continue;
    if (byte >= 0x80) {
      status = byte >= 0xf0 ? 0 : byte;
      data = [];
      continue;
    }
    if (status === 0) continue;
    data.push(byte);
    if (data.length === dataByteCount(status)) {
      messages.push(channelMessage(status, data[0] ?? 0, data[1] ?? 0));
      data = [];
    }
  }
  return messages;
}
