import { expect, test } from "vitest";
import { atHearingRate, HEARING_RATE } from "../../../../engine/speech/hearing/resample.ts";
import { Spectrum } from "../../../../engine/speech/hearing/spectrum.ts";
import { seededChance } from "../../../../engine/units/index.ts";

test("the fast transform gives what the sum of its definition gives", () => {
  const chance = seededChance(2);
  const samples = Float32Array.from({ length: 50 }, () => chance() - 0.5);
  const spectrum = new Spectrum(50);
  expect(spectrum.size).toBe(64);
  const power = spectrum.power(samples, 0);
  for (let bin = 0; bin <= 32; bin += 1) {
    let re = 0;
    let im = 0;
    samples.forEach((sample, at) => {
      const windowed = sample * (0.5 - 0.5 * Math.cos((2 * Math.PI * (at + 0.5)) / 50));
      re += windowed * Math.cos((2 * Math.PI * bin * at) / 64);
      im -= windowed * Math.sin((2 * Math.PI * bin * at) / 64);
    });
    expect(power[bin]).toBeCloseTo(re * re + im * im, 8);
  }
});

test("a window of nothing is refused", () => {
  expect(() => new Spectrum(1)).toThrow(RangeError);
});

test.each([8_000, 22_050, 44_100, 48_000, 96_000])(
  "a tone keeps its place and its size from %d Hz",
  (sampleRate) => {
    const tone = Float32Array.from({ length: sampleRate / 2 }, (_, at) =>
      Math.sin((2 * Math.PI * 1000 * at) / sampleRate),
    );
    const result = atHearingRate({ samples: tone, sampleRate });
    expect(result.length).toBe(HEARING_RATE / 2);
    for (let at = 400; at < result.length - 400; at += 7)
      expect(result[at]).toBeCloseTo(Math.sin((2 * Math.PI * 1000 * at) / HEARING_RATE), 2);
  },
);

test("what the lower rate cannot hold is taken away, not folded down", () => {
  const tone = Float32Array.from({ length: 24_000 }, (_, at) =>
    Math.sin((2 * Math.PI * 13_000 * at) / 48_000),
  );
  const result = atHearingRate({ samples: tone, sampleRate: 48_000 });
  expect(Math.max(...result.subarray(400, -400).map(Math.abs))).toBeLessThan(0.01);
});
