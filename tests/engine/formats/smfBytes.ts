/**
 * Standard MIDI Files made byte by byte for the tests, without the library the program reads and writes them with.
 * Source: Standard MIDI Files 1.0, RP-001.
 */

/** A variable-length quantity: seven bits a byte, the highest first, all but the last with the top bit set. */
export function variableLength(value: number): number[] {
  const bytes = [value & 0x7f];
  for (let rest = value >>> 7; rest > 0; rest >>>= 7) bytes.unshift((rest & 0x7f) | 0x80);
  return bytes;
}

export function chunk(name: string, data: readonly number[]): number[] {
  const { length } = data;
  return [
    ...[...name].map((letter) => letter.charCodeAt(0)),
    ...[length >>> 24, (length >>> 16) & 0xff, (length >>> 8) & 0xff, length & 0xff],
    ...data,
  ];
}

/** A header; `division` as its two bytes stand in the file. */
export function header(format: number, tracks: number, division: number): number[] {
  return chunk("MThd", [0, format, 0, tracks, division >> 8, division & 0xff]);
}

export const END_OF_TRACK = [0x00, 0xff, 0x2f, 0x00];

/** A track of events, each with its delta time before it; the end of track is put behind. */
export function track(...events: readonly (readonly number[])[]): number[] {
  return chunk("MTrk", [...events.flat(), ...END_OF_TRACK]);
}

/** A strike on channel 10 after `delta` ticks. */
export function strike(delta: number, note: number, velocity = 100): number[] {
  return [...variableLength(delta), 0x99, note, velocity];
}

export function tempo(delta: number, microseconds: number): number[] {
  return [
    ...variableLength(delta),
    ...[0xff, 0x51, 0x03, (microseconds >> 16) & 0xff, (microseconds >> 8) & 0xff, microseconds & 0xff],
  ];
}

/** @param power the denominator is 2 to this power. */
export function timeSignature(delta: number, numerator: number, power: number): number[] {
  return [...variableLength(delta), 0xff, 0x58, 0x04, numerator, power, 24, 8];
}

export function file(...parts: readonly (readonly number[])[]): Uint8Array {
  return Uint8Array.from(parts.flat());
}
