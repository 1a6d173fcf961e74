import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { decodeFlac, encodeFlac } from "../../../scripts/sounds/flac.ts";
import { equalTempered } from "../../../scripts/sounds/generalMidiKit.ts";
import { pitchHz, rateFor } from "../../../scripts/sounds/pitch.ts";
import { fromDecibels, peakOf, shaped, sixteenBit } from "../../../scripts/sounds/shape.ts";

const RATE_HZ = 44_100;

function sine(hertz: number, seconds: number, amplitude = 0.5): Float32Array {
  return Float32Array.from(
    { length: Math.round(seconds * RATE_HZ) },
    (_, index) => amplitude * Math.sin((2 * Math.PI * hertz * index) / RATE_HZ),
  );
}

const cents = (a: number, b: number): number => 1200 * Math.log2(a / b);

describe("shaped", () => {
  test("brings the peak to −1 dB and cuts what is below −60 dB of full scale", () => {
    const samples = Float32Array.from([0, 0.0001, 0.2, -0.5, 0.1, 0.0004, 0]);
    const result = shaped(samples);
    expect(result.length).toBe(3);
    expect(peakOf(result)).toBeCloseTo(fromDecibels(-1), 6);
  });

  test("refuses silence", () => {
    expect(() => shaped(new Float32Array(10))).toThrow("nothing but silence");
  });
});

// ISO 16: A4 = 440 Hz. The table of check values: MIDI 1.0 note numbers and frequencies.
test.each([
  [36, 65.4064],
  [43, 97.9989],
  [57, 220],
  [69, 440],
  [127, 12543.854],
])("key %i sounds at %f Hz", (key, hertz) => {
  expect(equalTempered(key)).toBeCloseTo(hertz, 3);
});

describe("pitch", () => {
  test.each([65.4, 98, 164.8, 220])("of a steady %f Hz is heard within a tenth of a cent", (hertz) => {
    expect(Math.abs(cents(pitchHz(sine(hertz, 0.6), RATE_HZ), hertz))).toBeLessThan(0.1);
  });

  test("the strongest partial counts, not the lowest", () => {
    const strong = sine(150, 0.5);
    const mixed = sine(70, 0.5, 0.2).map((sample, index) => sample + (strong[index] ?? 0));
    expect(pitchHz(mixed, RATE_HZ)).toBeCloseTo(150, 0);
  });

  test("the rate brings a tone to its target", () => {
    expect(rateFor(sine(80, 1), RATE_HZ, 100)).toBeCloseTo(1.25, 4);
  });
});

test("FLAC gives back every sample", () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: -32_768, max: 32_767 }), { minLength: 1, maxLength: 9000 }),
      (values) => {
        const samples = Int32Array.from(values);
        expect([...decodeFlac(new Uint8Array(encodeFlac(samples, RATE_HZ)))]).toEqual(values);
      },
    ),
    { numRuns: 20 },
  );
});

test("a FLAC file that is cut short, or changed in the middle, is refused", () => {
  const bytes = new Uint8Array(encodeFlac(sixteenBit(sine(200, 0.2)), RATE_HZ));
  expect(() => decodeFlac(bytes.slice(0, 20))).toThrow("damaged");
  const changed = bytes.with(Math.floor(bytes.length / 2), 0xaa);
  expect(() => decodeFlac(changed)).toThrow("damaged");
});
