import { expect, test } from "vitest";
import { VOICES } from "../../../../engine/kit/index.ts";
import { staffPartOf, staffPlace, stepsAboveBottomLine } from "../../../../engine/score/index.ts";

// Weinberg, "Guidelines for Drumset Notation", Percussive Notes, June 1994 (check-values.md, section 16). Lines from
// the bottom are E4 G4 B4 D5 F5: steps 0, 2, 4, 6, 8.
test.each([
  ["hi-hat-pedal", "D4", "x", -1],
  ["kick", "F4", "normal", 1],
  ["floor-tom", "A4", "normal", 3],
  ["snare", "C5", "normal", 5],
  ["cross-stick", "C5", "x", 5],
  ["mid-tom", "D5", "normal", 6],
  ["high-tom", "E5", "normal", 7],
  ["ride", "F5", "x", 8],
  ["bell", "F5", "diamond", 8],
  ["hi-hat-closed", "G5", "x", 9],
  ["hi-hat-open", "G5", "x", 9],
  ["crash-left", "A5", "x", 10],
] as const)("%s stands at %s with a head of %s", (voice, pitch, head, steps) => {
  const place = staffPlace(voice);
  expect(`${place.step}${place.octave}`).toBe(pitch);
  expect(place.head).toBe(head);
  expect(stepsAboveBottomLine(place)).toBe(steps);
});

test("only the open hi-hat has the circle", () => {
  expect(VOICES.filter((voice) => staffPlace(voice).open)).toStrictEqual(["hi-hat-open"]);
});

test("no two voices look alike", () => {
  const looks = VOICES.map((voice) => JSON.stringify(staffPlace(voice)));
  expect(new Set(looks).size).toBe(VOICES.length);
});

test("kick and hi-hat pedal are the feet, all others the hands", () => {
  expect(VOICES.filter((voice) => staffPartOf(voice) === "feet")).toStrictEqual(["kick", "hi-hat-pedal"]);
});
