/**
 * Pitches of toms against equal temperament (ratio 2^(k/12), computed), and against what can be told apart: pure tones of
 * 500 to 2000 Hz within about 0.3 % by trained listeners (Wier, Jesteadt & Green, J. Acoust. Soc. Am. 61 (1977) 178–184), within
 * 1 % by untrained ones (Micheyl et al., Hearing Research 219 (2006)); both from memory. Drums are broader: 200 cents and more
 * to begin with (common practice, no source).
 */
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { expect, test } from "vitest";
import { parseKitManifest } from "../../renderer/audio/kitManifest.ts";
import { strokeSound } from "../../renderer/audio/strokeSound.ts";
import { FIRST_TOMS, HIGHEST_TOM, LOWEST_TOM, pitchName, tomSound } from "../../renderer/audio/tomPitches.ts";

const manifest = parseKitManifest(
  JSON.parse(readFileSync(resolve(import.meta.dirname, "../../renderer/audio/kit/kit.json"), "utf8")),
);

/** Hertz at which a tom sounds that is asked for at this pitch: its recording's tuning, played faster or slower. */
function soundsAt(pitch: number): number {
  const { key, semitones } = tomSound(pitch);
  const recording = manifest.sounds.find((sound) => sound.key === key);
  if (recording?.tunedTo === undefined) throw new Error(`The tuning of recording ${key} is not known.`);
  const stroke = { voice: "high-tom" as const, velocity: 0.7, key, semitones };
  const { rate } = strokeSound(stroke, recording, { decibels: 0, cents: 0 });
  return 440 * 2 ** ((recording.tunedTo - 69) / 12) * (rate / recording.rate);
}

const centsBetween = (low: number, high: number): number => 1200 * Math.log2(soundsAt(high) / soundsAt(low));

test.each([
  ["minor third", 3, 1.18921],
  ["major third", 4, 1.25992],
  ["fourth", 5, 1.33484],
  ["fifth", 7, 1.49831],
  ["octave", 12, 2],
])("a %s is %i semitones: %d to 1, from whatever pitch", (_, semitones, ratio) => {
  for (let low = LOWEST_TOM; low + semitones <= HIGHEST_TOM; low += 1)
    expect(soundsAt(low + semitones) / soundsAt(low)).toBeCloseTo(ratio, 4);
});

// f = 440 · 2^((n − 69)/12): A2 is 110 Hz, C4 261.626 Hz (computed).
test.each([
  [45, "A2", 110],
  [60, "C4", 261.626],
  [40, "E2", 82.407],
])("pitch %i is %s and sounds at %d Hz", (pitch, name, hertz) => {
  expect(pitchName(pitch)).toBe(name);
  expect(soundsAt(pitch)).toBeCloseTo(hertz, 2);
});

test("toms that are a step apart can be told apart by anybody; those there are at first easily", () => {
  const untrained = 1200 * Math.log2(1.01);
  for (let pitch = LOWEST_TOM; pitch < HIGHEST_TOM; pitch += 1)
    expect(centsBetween(pitch, pitch + 1)).toBeGreaterThan(5 * untrained);
  expect(centsBetween(FIRST_TOMS["floor-tom"], FIRST_TOMS["mid-tom"])).toBeGreaterThanOrEqual(200);
  expect(centsBetween(FIRST_TOMS["mid-tom"], FIRST_TOMS["high-tom"])).toBeGreaterThanOrEqual(200);
});
