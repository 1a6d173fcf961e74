/**
 * WAV files as one channel of samples.
 * Source: Multimedia Programming Interface and Data Specifications 1.0 (IBM & Microsoft 1991), RIFF and its WAVE form;
 * WAVE_FORMAT_EXTENSIBLE names the same two encodings by the first word of its sub-format.
 * Read are PCM of 8, 16, 24 and 32 bits and floats of 32 and 64; several channels are averaged. Chunks that are not known are
 * passed over; a chunk that claims more than the file holds ends with the file, as recorders that were broken off leave it.
 */
import type { Sound } from "../speech/index.ts";

/** Thrown when bytes are no WAV file that can be read; the message says what is wrong. */
export class WavError extends Error {
  override readonly name = "WavError";
}

const PCM = 1;
const FLOAT = 3;
const EXTENSIBLE = 0xfffe;
const FORMAT_BYTES = 16;
const SUB_FORMAT_AT = 24;
export const LOWEST_SAMPLE_RATE = 8_000;
export const HIGHEST_SAMPLE_RATE = 384_000;
/** Half an hour at 48 kHz: more than a phrase by far, and little enough to be held. */
export const MOST_SAMPLES = 48_000 * 60 * 30;

interface Format {
  readonly encoding: number;
  readonly channels: number;
  readonly sampleRate: number;
  readonly bits: number;
}

/**
 * Reads a WAV file.
 *
 * @throws WavError saying what is missing or not understood.
 */
export function readWav(bytes: Uint8Array): Sound {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 12 || tag(bytes, 0) !== "RIFF" || tag(bytes, 8) !== "WAVE")
    throw new WavError("This is not a WAV file: it does not begin with RIFF and WAVE.");
  let format: Format | undefined;
  for (let at = 12; at + 8 <= bytes.length; ) {
    const name = tag(bytes, at);
    const claimed = view.getUint32(at + 4, true);
    const from = at + 8;
    const length = Math.min(claimed, bytes.length - from);
    if (name === "fmt ") format = readFormat(view, from, length);
    if (name === "data") {
      if (!format)
        throw new WavError("The WAV file has sound before it says how it is written (no fmt chunk).");
      return readSamples(view, from, length, format);
    }
    // Chunks begin at even places.
    at = from + claimed + (claimed % 2);
  }
  throw new WavError(`The WAV file has no ${format ? "data" : "fmt"} chunk: it holds no sound.`);
}

function tag(bytes: Uint8Array, at: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + 4));
}

function readFormat(view: DataView, at: number, length: number): Format {
  if (length < FORMAT_BYTES) throw new WavError(`The WAV file’s fmt chunk is cut short at ${length} bytes.`);
  const named = view.getUint16(at, true);
  const encoding =
    named === EXTENSIBLE && length >= SUB_FORMAT_AT + 2 ? view.getUint16(at + SUB_FORMAT_AT, true) : named;
  const channels = view.getUint16(at + 2, true);
  const sampleRate = view.getUint32(at + 4, true);
  const bits = view.getUint16(at + 14, true);
  if (encoding !== PCM && encoding !== FLOAT)
    throw new WavError(`The WAV file is compressed (format ${encoding}): save it as plain PCM.`);
  if (channels < 1) throw new WavError("The WAV file says it has no channel.");
  if (sampleRate < LOWEST_SAMPLE_RATE || sampleRate > HIGHEST_SAMPLE_RATE)
    throw new WavError(
      `The WAV file has ${sampleRate} samples a second: from ${LOWEST_SAMPLE_RATE} to ${HIGHEST_SAMPLE_RATE} are read.`,
    );
  const isKnown = encoding === PCM ? [8, 16, 24, 32].includes(bits) : [32, 64].includes(bits);
  if (!isKnown)
    throw new WavError(
      `The WAV file has ${bits}-bit ${encoding === PCM ? "samples" : "floats"}: PCM of 8, 16, 24 and 32 bits and floats of 32 and 64 are read.`,
    );
  return { encoding, channels, sampleRate, bits };
}

function readSamples(
  view: DataView,
  from: number,
  length: number,
  { encoding, channels, sampleRate, bits }: Format,
): Sound {
  const read = sampleReader(view, encoding, bits);
  const bytesEach = bits / 8;
  const count = Math.floor(length / (bytesEach * channels));
  if (count > MOST_SAMPLES)
    throw new WavError(
      `The WAV file is ${Math.round(count / sampleRate / 60)} minutes long: cut it to a phrase.`,
    );
  const samples = new Float32Array(count);
  for (let at = 0; at < count; at += 1) {
    let sum = 0;
    for (let channel = 0; channel < channels; channel += 1)
      sum += read(from + (at * channels + channel) * bytesEach);
    if (!Number.isFinite(sum)) throw new WavError(`The WAV file holds a sample that is no number, at ${at}.`);
    samples[at] = sum / channels;
  }
  return { samples, sampleRate };
}

function sampleReader(view: DataView, encoding: number, bits: number): (at: number) => number {
  if (encoding === FLOAT)
    return bits === 32 ? (at) => view.getFloat32(at, true) : (at) => view.getFloat64(at, true);
  switch (bits) {
    case 8:
      return (at) => (view.getUint8(at) - 128) / 128;
    case 16:
      return (at) => view.getInt16(at, true) / 2 ** 15;
    case 24:
      return (at) => (view.getUint16(at, true) + view.getInt8(at + 2) * 2 ** 16) / 2 ** 23;
    default:
      return (at) => view.getInt32(at, true) / 2 ** 31;
  }
}
