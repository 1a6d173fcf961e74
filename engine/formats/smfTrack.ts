/**
 * The events of one track of a Standard MIDI File: those that mean something to a kit, its tempos and its metres. The rest
 * is read over without being kept, so that a large file costs no more than its strikes.
 * Source: Standard MIDI Files 1.0, RP-001; channel messages: MIDI 1.0 Detailed Specification.
 */
import type { MidiMessage } from "../kit/index.ts";
import type { Metre } from "../score/index.ts";
import { SmfError } from "./smfChunks.ts";

/** Something in a track, with its tick from the track's start. */
export type TrackEvent =
  | { readonly tick: number; readonly kind: "message"; readonly message: MidiMessage }
  | { readonly tick: number; readonly kind: "tempo"; readonly microsecondsPerQuarter: number }
  | { readonly tick: number; readonly kind: "metre"; readonly metre: Metre };

/** A variable-length quantity has at most four bytes (RP-001). */
const QUANTITY_BYTES = 4;
/** Denominators up to 64: nobody writes shorter beats. Our choice. */
const MOST_DENOMINATOR_POWER = 6;
const META = { end: 0x2f, tempo: 0x51, timeSignature: 0x58 };

/**
 * Reads a track, to its end or its end-of-track event.
 *
 * @param room how many events may still be kept.
 * @throws SmfError with a sentence that says what is wrong with it.
 */
export function trackEvents(bytes: Uint8Array, room: number): readonly TrackEvent[] {
  const events: TrackEvent[] = [];
  const reader = new TrackReader(bytes);
  for (let event = reader.next(); event !== "end"; event = reader.next()) {
    if (event === "other") continue;
    if (events.length >= room) {
      throw new SmfError("The file holds more strikes than a day of playing. Cut it into shorter files.");
    }
    events.push(event);
  }
  return events;
}

class TrackReader {
  readonly #bytes: Uint8Array;
  #at = 0;
  #tick = 0;
  #running: number | undefined;

  constructor(bytes: Uint8Array) {
    this.#bytes = bytes;
  }

  next(): TrackEvent | "other" | "end" {
    if (this.#at >= this.#bytes.length) return "end";
    this.#tick += this.#quantity("a delta time");
    const first = this.#byte();
    if (first === 0xff) return this.#meta();
    if (first === 0xf0 || first === 0xf7) {
      this.#skip(this.#quantity("the length of a message"));
      return "other";
    }
    if (first >= 0xf0) {
      throw new SmfError(`The file is broken (a message ${first.toString(16)} has no place in a file).`);
    }
    if (first >= 0x80) this.#running = first;
    else this.#at -= 1;
    if (this.#running === undefined) {
      throw new SmfError("The file is broken (a track begins with data that belong to no message).");
    }
    return this.#channelMessage(this.#running);
  }

  #channelMessage(status: number): TrackEvent | "other" {
    const channel = status & 0x0f;
    const first = this.#dataByte();
    const kind = status >> 4;
    // Program change and channel pressure have one data byte.
    if (kind === 0xc || kind === 0xd) return "other";
    const message = channelMessage(kind, channel, first, this.#dataByte());
    return message ? { tick: this.#tick, kind: "message", message } : "other";
  }

  #meta(): TrackEvent | "other" | "end" {
    const type = this.#byte();
    const length = this.#quantity("the length of a meta event");
    const from = this.#at;
    this.#skip(length);
    const data = this.#bytes.subarray(from, from + length);
    if (type === META.end) return "end";
    if (type === META.tempo) return { tick: this.#tick, kind: "tempo", ...tempoOf(data) };
    if (type === META.timeSignature) return { tick: this.#tick, kind: "metre", metre: metreOf(data) };
    return "other";
  }

  #byte(): number {
    const byte = this.#bytes[this.#at];
    if (byte === undefined) throw new SmfError("The file is broken (a track ends within a message).");
    this.#at += 1;
    return byte;
  }

  #dataByte(): number {
    const byte = this.#bytes[this.#at];
    if (byte === undefined || byte > 127) {
      throw new SmfError("The file is broken: a message in it has a data byte that is missing or above 127.");
    }
    this.#at += 1;
    return byte;
  }

  #skip(length: number): void {
    if (this.#at + length > this.#bytes.length) {
      throw new SmfError("The file is broken (a track ends within a message).");
    }
    this.#at += length;
  }

  #quantity(what: string): number {
    let value = 0;
    for (let count = 0; count < QUANTITY_BYTES; count += 1) {
      const byte = this.#byte();
      value = value * 128 + (byte & 0x7f);
      if (byte < 0x80) return value;
    }
    throw new SmfError(`The file is broken: ${what} in it has more than four bytes.`);
  }
}

function channelMessage(
  kind: number,
  channel: number,
  first: number,
  second: number,
): MidiMessage | undefined {
  switch (kind) {
    case 0x8:
      return { kind: "note-off", channel, note: first };
    case 0x9:
      // MIDI 1.0: a note-on of velocity 0 is a note-off.
      return second === 0
        ? { kind: "note-off", channel, note: first }
        : { kind: "note-on", channel, note: first, velocity: second };
    case 0xa:
      return { kind: "key-pressure", channel, note: first, pressure: second };
    case 0xb:
      return { kind: "control", channel, controller: first, value: second };
    default:
      return undefined;
  }
}

function tempoOf(data: Uint8Array): { readonly microsecondsPerQuarter: number } {
  const [high = 0, middle = 0, low = 0] = data;
  if (data.length !== 3) throw new SmfError("The file is broken (a tempo in it has not three bytes).");
  const microsecondsPerQuarter = (high << 16) + (middle << 8) + low;
  if (microsecondsPerQuarter === 0) throw new SmfError("The file gives a tempo in which no time passes.");
  return { microsecondsPerQuarter };
}

function metreOf(data: Uint8Array): Metre {
  const [numerator = 0, power = 0] = data;
  if (data.length < 2 || numerator === 0 || power > MOST_DENOMINATOR_POWER) {
    throw new SmfError(
      `The file gives a time signature that is none (${numerator} over the ${power}th power of 2).`,
    );
  }
  return { numerator, denominator: 2 ** power };
}
