import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  CEILING,
  FIRST_VOLUME,
  underCeiling,
  VOLUME_STEPS,
  volumeGain,
  volumeWords,
} from "../../../renderer/audio/volume.ts";

describe("the volume", () => {
  test("a step is three decibels, and nought is silent", () => {
    expect(volumeGain(0)).toBe(0);
    for (let step = 2; step <= VOLUME_STEPS; step += 1)
      expect(20 * Math.log10(volumeGain(step) / volumeGain(step - 1))).toBeCloseTo(3, 9);
  });

  test("starts at least 24 dB below full scale", () => {
    expect(20 * Math.log10(volumeGain(FIRST_VOLUME))).toBeLessThanOrEqual(-24);
  });

  test.each([
    [0, "silent"],
    [1, "quietest"],
    [4, "quiet"],
    [6, "medium"],
    [9, "loud"],
    [10, "loudest"],
  ])("%i is said: %s", (step, words) => {
    expect(volumeWords(step)).toBe(words);
  });
});

describe("the ceiling", () => {
  test("no sample gets over it, however large", () => {
    fc.assert(
      fc.property(fc.double({ min: -1000, max: 1000, noNaN: true }), (sample) => {
        expect(Math.abs(underCeiling(sample))).toBeLessThanOrEqual(CEILING);
      }),
    );
  });

  test("leaves small samples as they are", () => {
    expect(underCeiling(0.2)).toBe(0.2);
    expect(underCeiling(-0.35)).toBe(-0.35);
  });

  test("bends smoothly: louder in is never softer out", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 10, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (a, more) => {
          expect(underCeiling(a + more)).toBeGreaterThanOrEqual(underCeiling(a));
        },
      ),
    );
  });
});
