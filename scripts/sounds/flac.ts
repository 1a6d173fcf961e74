/**
 * FLAC (RFC 9639), written and read: mono, 16 bits a sample.
 */
import flacLibrary from "libflacjs";
import { Decoder } from "libflacjs/lib/decoder.js";
import { Encoder } from "libflacjs/lib/encoder.js";
import { mergeBuffers } from "libflacjs/lib/utils/data-utils.js";
import { addFLACMetaData } from "libflacjs/lib/utils/flac-utils.js";

/** The smallest files; they are made once. */
const HARDEST_COMPRESSION = 8;
/** The default variant is plain JavaScript and ready at once. */
const library = flacLibrary();

/** The bytes of a FLAC file with these samples (whole numbers of 16 bits). */
export function encodeFlac(samples: Int32Array<ArrayBuffer>, sampleRateHz: number): Uint8Array {
  const encoder = new Encoder(library, {
    sampleRate: sampleRateHz,
    channels: 1,
    bitsPerSample: 16,
    compression: HARDEST_COMPRESSION,
    totalSamples: samples.length,
    verify: true,
  });
  const isEncoded = encoder.encode([samples]) && encoder.encode();
  const { rawData, metadata } = encoder;
  if (!isEncoded || !metadata) throw new Error("The FLAC encoder failed on these samples.");
  // The first piece is written before the length and the checksum are known.
  addFLACMetaData(rawData, metadata, false);
  const bytes = mergeBuffers(
    rawData,
    rawData.reduce((sum, piece) => sum + piece.length, 0),
  );
  encoder.destroy();
  return bytes;
}

/** The samples of a FLAC file that {@link encodeFlac} wrote, as 16-bit whole numbers; its checksum is verified. */
export function decodeFlac(bytes: Uint8Array<ArrayBuffer>): Int16Array {
  const decoder = new Decoder(library, { verify: true });
  const isDecoded = decoder.decode(bytes) && decoder.metadata !== undefined;
  const samples = isDecoded ? decoder.getSamples(false)[0] : undefined;
  decoder.destroy();
  if (!samples) throw new Error("The FLAC file is damaged: it does not decode.");
  return new Int16Array(samples.slice().buffer);
}
