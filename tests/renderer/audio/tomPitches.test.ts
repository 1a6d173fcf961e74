import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { expect, test } from "vitest";
import { parseKitManifest } from "../../../renderer/audio/kitManifest.ts";
import { strokeSound } from "../../../renderer/audio/strokeSound.ts";
import {
  FIRST_TOMS,
  onePitchWords,
  pitchName,
  TOMS,
  TomPitches,
  tomSound,
} from "../../../renderer/audio/tomPitches.ts";

const manifest = parseKitManifest(
  JSON.parse(readFileSync(resolve(import.meta.dirname, "../../../renderer/audio/kit/kit.json"), "utf8")),
);

function recording(key: number) {
  const found = manifest.sounds.find((sound) => sound.key === key);
  if (!found) throw new Error(`No recording ${key}.`);
  return found;
}

test("every pitch is played from a recording, moved from its own tuning by as much as it lies off", () => {
  for (let pitch = 31; pitch <= 60; pitch += 1) {
    const { key, semitones } = tomSound(pitch);
    expect((recording(key).tunedTo ?? Number.NaN) + semitones).toBe(pitch);
    const { rate } = strokeSound({ voice: "high-tom", velocity: 0.7, key, semitones }, recording(key), {
      decibels: 0,
      cents: 0,
    });
    // Equal temperament: a semitone is the twelfth root of two.
    expect(rate / recording(key).rate).toBeCloseTo(2 ** (semitones / 12), 12);
  }
});

test("the pitches they have at first are those of the recordings themselves", () => {
  for (const tom of TOMS) expect(tomSound(FIRST_TOMS[tom]).semitones).toBe(0);
});

// Scientific pitch notation, middle C being C4, 69 (440 Hz) A4: from memory.
test.each([
  [60, "C4"],
  [69, "A4"],
  [40, "E2"],
  [46, "A♯2"],
])("%i is %s", (pitch, name) => {
  expect(pitchName(pitch)).toBe(name);
});

test("they are kept on this computer, within what toms are tuned to; what is damaged is as at first", () => {
  const kept = new Map<string, string>();
  const place = {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  };
  const toms = new TomPitches(place);
  toms.set("floor-tom", 38);
  toms.set("high-tom", 99);
  expect(new TomPitches(place).get()).toEqual({ "high-tom": 60, "mid-tom": 46, "floor-tom": 38 });
  kept.set("throneside.toms", "gnawed by mice");
  expect(new TomPitches(place).get()).toEqual(FIRST_TOMS);
});

test.each([
  [50, 45, 41, null],
  [
    50,
    50,
    41,
    "High tom and mid tom have one pitch, D3: nobody can tell them apart in Back Turned. Give one of them another.",
  ],
  [
    50,
    41,
    41,
    "Mid tom and floor tom have one pitch, F2: nobody can tell them apart in Back Turned. Give one of them another.",
  ],
  [
    45,
    45,
    45,
    "All three toms have one pitch, A2: nobody can tell them apart in Back Turned. Give each its own.",
  ],
])("toms at %i, %i, %i: %s", (high, mid, floor, words) => {
  expect(onePitchWords({ "high-tom": high, "mid-tom": mid, "floor-tom": floor })).toBe(words);
});
