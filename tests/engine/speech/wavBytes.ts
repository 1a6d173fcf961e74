/** WAV files written byte by byte, for tests. */
import type { Sound } from "../../../engine/speech/index.ts";

export type Encoding = "pcm8" | "pcm16" | "pcm24" | "pcm32" | "float32" | "float64";

const BITS: Readonly<Record<Encoding, number>> = {
  pcm8: 8,
  pcm16: 16,
  pcm24: 24,
  pcm32: 32,
  float32: 32,
  float64: 64,
};

/** One channel as a file of `channels` equal ones. */
export function wavBytes(
  { samples, sampleRate }: Sound,
  encoding: Encoding = "pcm16",
  channels = 1,
  isExtensible = false,
): Uint8Array {
  const bytesEach = BITS[encoding] / 8;
  const dataLength = samples.length * bytesEach * channels;
  const formatLength = isExtensible ? 40 : 16;
  const bytes = new Uint8Array(28 + formatLength + dataLength);
  const view = new DataView(bytes.buffer);
  const tag = (at: number, text: string): void => {
    bytes.set(new TextEncoder().encode(text), at);
  };
  const code = encoding.startsWith("float") ? 3 : 1;
  tag(0, "RIFF");
  view.setUint32(4, bytes.length - 8, true);
  tag(8, "WAVEfmt ");
  view.setUint32(16, formatLength, true);
  view.setUint16(20, isExtensible ? 0xfffe : code, true);
  view.setUint16(22, channels, true);
  view.setUint32(24, sampleRate, true);
  view.setUint32(28, sampleRate * bytesEach * channels, true);
  view.setUint16(32, bytesEach * channels, true);
  view.setUint16(34, BITS[encoding], true);
  if (isExtensible) view.setUint16(44, code, true);
  const dataAt = 20 + formatLength;
  tag(dataAt, "data");
  view.setUint32(dataAt + 4, dataLength, true);
  samples.forEach((sample, index) => {
    for (let channel = 0; channel < channels; channel += 1)
      put(view, dataAt + 8 + (index * channels + channel) * bytesEach, sample, encoding);
  });
  return bytes;
}

function put(view: DataView, at: number, sample: number, encoding: Encoding): void {
  const whole = (bits: number): number =>
    Math.max(-(2 ** (bits - 1)), Math.min(2 ** (bits - 1) - 1, Math.round(sample * 2 ** (bits - 1))));
  switch (encoding) {
    case "pcm8":
      view.setUint8(at, whole(8) + 128);
      return;
    case "pcm16":
      view.setInt16(at, whole(16), true);
      return;
    case "pcm24":
      view.setUint16(at, whole(24) & 0xffff, true);
      view.setInt8(at + 2, whole(24) >> 16);
      return;
    case "pcm32":
      view.setInt32(at, whole(32), true);
      return;
    case "float32":
      view.setFloat32(at, sample, true);
      return;
    case "float64":
      view.setFloat64(at, sample, true);
      return;
  }
}
