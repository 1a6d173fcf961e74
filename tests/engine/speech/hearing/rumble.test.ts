import { expect, test } from "vitest";
import { rumbleApart } from "../../../../engine/speech/hearing/rumble.ts";
import { seededChance } from "../../../../engine/units/index.ts";

function meanSquare(samples: Float32Array): number {
  return samples.reduce((sum, sample) => sum + sample * sample, 0) / samples.length;
}

function sine(hz: number, sampleRate: number, seconds = 4): Float32Array {
  return Float32Array.from({ length: seconds * sampleRate }, (_, at) =>
    Math.sin((2 * Math.PI * hz * at) / sampleRate),
  );
}

test.each([8000, 16_000, 48_000])(
  "at %i samples a second the two parts have the power of the whole",
  (rate) => {
    const chance = seededChance(rate);
    const samples = Float32Array.from({ length: 4 * rate }, () => chance() - 0.5);
    const { rumble, above } = rumbleApart({ samples, sampleRate: rate });
    expect((meanSquare(rumble.samples) + meanSquare(above.samples)) / meanSquare(samples)).toBeCloseTo(1, 2);
  },
);

test.each([22_050, 48_000])("at %i samples a second rumble is what lies below every voice", (rate) => {
  const low = rumbleApart({ samples: sine(15, rate), sampleRate: rate });
  expect(meanSquare(low.rumble.samples)).toBeCloseTo(0.5, 2);
  expect(meanSquare(low.above.samples)).toBeLessThan(0.001);
  const deepVoice = rumbleApart({ samples: sine(90, rate), sampleRate: rate });
  expect(meanSquare(deepVoice.rumble.samples)).toBeLessThan(0.004);
  expect(meanSquare(deepVoice.above.samples)).toBeCloseTo(0.5, 2);
});

test("a constant offset is no rumble", () => {
  const { rumble, above } = rumbleApart({ samples: new Float32Array(16_000).fill(0.2), sampleRate: 16_000 });
  expect(meanSquare(rumble.samples)).toBeLessThan(1e-12);
  expect(meanSquare(above.samples)).toBeLessThan(1e-12);
});
