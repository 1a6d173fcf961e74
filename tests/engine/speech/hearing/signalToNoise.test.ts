import { describe, expect, test } from "vitest";
import { saidSpans } from "../../../../engine/speech/hearing/saidSpans.ts";
import { signalToNoiseDb } from "../../../../engine/speech/hearing/signalToNoise.ts";
import { OUR_SYLLABLES, type Sound } from "../../../../engine/speech/index.ts";
import { normal, seededChance } from "../../../../engine/units/index.ts";
import { inNoise, phraseByChance, RATE, recorded, SPEAKERS } from "../saidTakes.ts";

const SYLLABLES = OUR_SYLLABLES.syllables.map(({ text }) => text);

function told(sound: Sound): number {
  return signalToNoiseDb(sound, saidSpans(sound));
}

/** How far the ratio told is from the true one, in dB: two phrases of each speaker. */
function errors(colour: "white" | "pink", decibels: number): readonly number[] {
  const chance = seededChance(decibels);
  return SPEAKERS.flatMap((speaker) =>
    Array.from({ length: 2 }, () => {
      const clean = recorded(phraseByChance(SYLLABLES, chance), speaker, chance);
      return told(inNoise(clean, decibels, colour, chance)) - decibels;
    }),
  );
}

describe.each(["white", "pink"] as const)("in %s noise", (colour) => {
  test.each([12, 14, 16, 18])("%i dB are told within one", (decibels) => {
    for (const error of errors(colour, decibels)) expect(Math.abs(error)).toBeLessThan(1);
  });

  // Here the soft ends of syllables are no louder than noise. It decides nothing any more.
  test("26 dB are told within three", () => {
    for (const error of errors(colour, 26)) expect(Math.abs(error)).toBeLessThan(3);
  });
});

/** Half a second of hiss again and again, without rumble of its own, 20 dB below full scale; and quiet between. */
function bursts(length: number, quietSeconds: number): Float32Array {
  const chance = seededChance(9);
  const period = 0.5 + quietSeconds;
  let before = 0;
  return Float32Array.from({ length }, (_, at) => {
    const within = (at / RATE) % period;
    const now = normal(chance);
    const hiss = (0.1 * (now - before)) / Math.SQRT2;
    before = now;
    return within >= quietSeconds ? hiss : 0;
  });
}

test("rumble counts as noise", () => {
  const length = 6 * RATE;
  const rumble = (at: number): number => 0.01 * Math.SQRT2 * Math.sin((2 * Math.PI * 20 * at) / RATE);
  const chance = seededChance(1);
  const samples = bursts(length, 0.5).map((sample, at) => sample + rumble(at) + 0.001 * normal(chance));
  // 0.1² / 2 over 0.01².
  expect(told({ samples, sampleRate: RATE })).toBeCloseTo(16.9, 0);
});

test("a breath into the microphone that rumbles while something is said is no noise", () => {
  const length = 6 * RATE;
  const chance = seededChance(1);
  const breathy = bursts(length, 0.5).map((sample, at) => {
    const breath = sample === 0 ? 0 : 0.03 * Math.sin((2 * Math.PI * 20 * at) / RATE);
    return sample + breath + 0.01 * normal(chance);
  });
  // With the breath as noise it would be 12; without any 17.
  expect(Math.abs(told({ samples: breathy, sampleRate: RATE }) - 17)).toBeLessThan(1);
});

test("long quiet takes 4 dB at most", () => {
  const ratio = (quietSeconds: number): number => {
    const chance = seededChance(2);
    const length = Math.round(3 * (0.5 + quietSeconds) * RATE);
    const samples = bursts(length, quietSeconds).map((sample) => sample + 0.01 * normal(chance));
    return told({ samples, sampleRate: RATE });
  };
  // 0.1² over 0.01² is 20 dB while something is said.
  expect(ratio(0.5)).toBeCloseTo(17, 0);
  expect(ratio(2)).toBeCloseTo(16, 0);
  expect(ratio(4)).toBeCloseTo(16, 0);
});

test("noise alone does not stand out from itself", () => {
  const chance = seededChance(3);
  const samples = Float32Array.from({ length: 3 * RATE }, () => 0.05 * normal(chance));
  expect(signalToNoiseDb({ samples, sampleRate: RATE }, [])).toBeLessThan(2);
});
