import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { VOICES, ZONES } from "../../../engine/kit/index.ts";
import { DYNAMIC_VELOCITY } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { KIT_VOICES } from "../../../renderer/audio/kitVoices.ts";
import { KIT_MANIFEST } from "../../../renderer/audio/recordedKit.ts";
import {
  MOST_VARIATION,
  NO_VARIATION,
  recordingKey,
  stops,
  strokeSound,
  variation,
} from "../../../renderer/audio/strokeSound.ts";

const recording = { key: 36, rate: 1, levelDb: 0 };
const sounds = new Map(KIT_MANIFEST.sounds.map((sound) => [sound.key, sound]));

describe("every voice", () => {
  test.each(VOICES.flatMap((voice) => ZONES.map((zone) => ({ voice, zone }))))(
    "$voice struck on the $zone has a recording",
    ({ voice, zone }) => {
      expect(sounds.has(recordingKey({ voice, zone }))).toBe(true);
    },
  );

  // General MIDI System Level 1, percussion key map.
  test.each([
    ["kick", "head", 36],
    ["snare", "head", 38],
    ["snare", "rim", 40],
    ["cross-stick", "rim", 37],
    ["hi-hat-closed", "whole", 42],
    ["hi-hat-pedal", "pedal", 44],
    ["hi-hat-open", "whole", 46],
    ["ride", "bell", 53],
    ["crash-left", "whole", 49],
    ["crash-right", "whole", 57],
    ["cowbell", "whole", 56],
  ] as const)("%s on the %s is key %i", (voice, zone, key) => {
    expect(recordingKey({ voice, zone })).toBe(key);
  });

  test("takes another recording where one is named", () => {
    expect(recordingKey({ voice: "floor-tom", zone: "head", key: 41 })).toBe(41);
  });

  test("of the drum set has a recording of its own; stand-ins are marked", () => {
    const standIns = VOICES.filter((voice) => KIT_VOICES[voice].standsIn);
    expect(standIns).toContain("bongo");
    for (const voice of ["kick", "snare", "high-tom", "mid-tom", "floor-tom", "ride", "splash"] as const)
      expect(standIns).not.toContain(voice);
  });
});

test("the toms of the set are a low, a middle and a high one in tune: E2, A sharp 2, E3", () => {
  const tunedTo = (["floor-tom", "mid-tom", "high-tom"] as const).map(
    (voice) => sounds.get(recordingKey({ voice }))?.tunedTo,
  );
  expect(tunedTo).toEqual([40, 46, 52]);
});

test("all six toms are tuned to C2 E2 G2 A sharp 2 C sharp 3 E3", () => {
  expect(KIT_MANIFEST.sounds.flatMap(({ tunedTo }) => tunedTo ?? [])).toEqual([36, 40, 43, 46, 49, 52]);
});

test("the right crash is three semitones down, and on the other side", () => {
  const left = strokeSound({ voice: "crash-left", velocity: 1 }, recording, NO_VARIATION);
  const right = strokeSound({ voice: "crash-right", velocity: 1 }, recording, NO_VARIATION);
  expect(right.rate / left.rate).toBeCloseTo(2 ** (-3 / 12), 9);
  expect(left.pan).toBeLessThan(-0.5);
  expect(right.pan).toBeGreaterThan(0.5);
});

describe("touch", () => {
  test("the hardest stroke is played as recorded", () => {
    expect(strokeSound({ voice: "kick", velocity: 1 }, recording, NO_VARIATION)).toEqual({
      key: 36,
      rate: 1,
      gain: 1,
      cutoffHz: 18_000,
      pan: 0,
    });
  });

  test("a ghost is softer and duller than a plain stroke, that than an accent", () => {
    const of = (velocity: number) => strokeSound({ voice: "snare", velocity }, recording, NO_VARIATION);
    const [ghost, plain, accent] = (["ghost", "plain", "accent"] as const).map((dynamic) =>
      of(DYNAMIC_VELOCITY[dynamic]),
    );
    expect(20 * Math.log10(ghost?.gain ?? 0)).toBeCloseTo(-18.06, 2);
    expect(ghost?.cutoffHz).toBeCloseTo(18_000 / 8, 6);
    expect(plain?.cutoffHz).toBeGreaterThan((ghost?.cutoffHz ?? 0) * 2);
    expect(accent?.gain).toBeGreaterThan((plain?.gain ?? 0) * 1.5);
  });

  test("harder is never softer nor duller, for any voice", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...VOICES),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (voice, a, b) => {
          const soft = strokeSound({ voice, velocity: Math.min(a, b) }, recording, NO_VARIATION);
          const hard = strokeSound({ voice, velocity: Math.max(a, b) }, recording, NO_VARIATION);
          expect(hard.gain).toBeGreaterThanOrEqual(soft.gain);
          expect(hard.cutoffHz).toBeGreaterThanOrEqual(soft.cutoffHz);
        },
      ),
    );
  });

  test.each([-1, 2])("a velocity of %d is held to the range", (velocity) => {
    const { gain, cutoffHz } = strokeSound({ voice: "kick", velocity }, recording, NO_VARIATION);
    expect(gain).toBe(velocity < 0 ? 0 : 1);
    expect(cutoffHz).toBe(velocity < 0 ? 18_000 / 16 : 18_000);
  });
});

describe("variation from stroke to stroke", () => {
  test("stays within one decibel and fifteen cents, and is not always the same", () => {
    const chance = seededChance(3);
    const drawn = Array.from({ length: 500 }, () => variation(chance));
    for (const { decibels, cents } of drawn) {
      expect(Math.abs(decibels)).toBeLessThanOrEqual(MOST_VARIATION.decibels);
      expect(Math.abs(cents)).toBeLessThanOrEqual(MOST_VARIATION.cents);
    }
    expect(Math.max(...drawn.map(({ cents }) => cents))).toBeGreaterThan(12);
    expect(Math.min(...drawn.map(({ decibels }) => decibels))).toBeLessThan(-0.8);
  });

  test("is what it says: a decibel of loudness, a cent of rate", () => {
    const plain = strokeSound({ voice: "ride", velocity: 0.5 }, recording, NO_VARIATION);
    const varied = strokeSound({ voice: "ride", velocity: 0.5 }, recording, { decibels: 1, cents: -15 });
    expect(20 * Math.log10(varied.gain / plain.gain)).toBeCloseTo(1, 9);
    expect(1200 * Math.log2(varied.rate / plain.rate)).toBeCloseTo(-15, 9);
  });
});

test.each([
  ["hi-hat-closed", "hi-hat-open", true],
  ["hi-hat-pedal", "hi-hat-open", true],
  ["hi-hat-open", "hi-hat-closed", true],
  ["hi-hat-closed", "ride", false],
  ["ride", "hi-hat-open", false],
  ["crash-left", "crash-left", false],
] as const)("%s after %s stops it: %s", (next, ringing, isStopped) => {
  expect(stops(next, ringing)).toBe(isStopped);
});
