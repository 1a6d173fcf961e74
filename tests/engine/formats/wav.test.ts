import fc from "fast-check";
import { expect, test } from "vitest";
import { readWav, WavError } from "../../../engine/formats/index.ts";
import { type Encoding, wavBytes } from "../speech/wavBytes.ts";

const SOUND = { samples: Float32Array.from([0, 0.5, -0.5, 0.25, -1, 0.999]), sampleRate: 22_050 };

test.each([
  ["pcm8", 1 / 128],
  ["pcm16", 1 / 2 ** 15],
  ["pcm24", 1e-6],
  ["pcm32", 1e-7],
  ["float32", 0],
  ["float64", 0],
] as const satisfies readonly (readonly [Encoding, number])[])(
  "%s is read to its own exactness",
  (encoding, within) => {
    for (const channels of [1, 2])
      for (const isExtensible of [false, true]) {
        const read = readWav(wavBytes(SOUND, encoding, channels, isExtensible));
        expect(read.sampleRate).toBe(22_050);
        expect(read.samples.length).toBe(SOUND.samples.length);
        read.samples.forEach((sample, at) => {
          expect(Math.abs(sample - (SOUND.samples[at] ?? Number.NaN))).toBeLessThanOrEqual(within);
        });
      }
  },
);

function changed(change: (view: DataView, bytes: Uint8Array) => void): Uint8Array {
  const bytes = wavBytes(SOUND);
  change(new DataView(bytes.buffer), bytes);
  return bytes;
}

test.each([
  ["nothing at all", new Uint8Array(0), "not a WAV file"],
  ["a MIDI file", Uint8Array.from([0x4d, 0x54, 0x68, 0x64, 0, 0, 0, 6, 0, 0, 0, 1, 0, 96]), "not a WAV file"],
  ["only its beginning", wavBytes(SOUND).subarray(0, 12), "no fmt chunk"],
  ["no sound", wavBytes(SOUND).subarray(0, 36), "no data chunk"],
  ["a compressed file", changed((view) => view.setUint16(20, 85, true)), "compressed (format 85)"],
  ["no channel", changed((view) => view.setUint16(22, 0, true)), "no channel"],
  ["a rate that is none", changed((view) => view.setUint32(24, 11, true)), "11 samples a second"],
  ["odd bits", changed((view) => view.setUint16(34, 12, true)), "12-bit samples"],
] as const)("%s is told", (_, bytes, why) => {
  expect(() => readWav(bytes)).toThrow(WavError);
  expect(() => readWav(bytes)).toThrow(why);
});

test("a float that is no number is told", () => {
  const bytes = wavBytes({ samples: Float32Array.from([0, Number.NaN]), sampleRate: 8000 }, "float32");
  expect(() => readWav(bytes)).toThrow("no number, at 1");
});

test("a recording that was broken off is read as far as it goes", () => {
  const bytes = changed((view) => view.setUint32(40, 0xffffffff, true));
  expect(readWav(bytes).samples.length).toBe(SOUND.samples.length);
});

test("law: whatever bytes change, it is read or told, never anything else", () => {
  const whole = wavBytes(SOUND, "float32", 2, true);
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.nat(whole.length - 1), fc.nat(255)), { maxLength: 8 }),
      fc.nat(whole.length),
      (changes, length) => {
        const bytes = whole.slice(0, length);
        for (const [at, value] of changes) if (at < bytes.length) bytes[at] = value;
        try {
          const { samples, sampleRate } = readWav(bytes);
          expect(sampleRate).toBeGreaterThanOrEqual(8000);
          expect(samples.every(Number.isFinite)).toBe(true);
        } catch (error) {
          if (!(error instanceof WavError)) throw error;
        }
      },
    ),
    { numRuns: 2000 },
  );
});
