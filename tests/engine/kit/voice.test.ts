import { expect, test } from "vitest";
import { familyOf, VOICES, voiceName } from "../../../engine/kit/index.ts";

test("no voice is listed twice, and no two have the same name", () => {
  expect(new Set(VOICES).size).toBe(VOICES.length);
  expect(new Set(VOICES.map(voiceName)).size).toBe(VOICES.length);
});

test.each([
  { voice: "hi-hat-closed", name: "hi-hat", family: "hats" },
  { voice: "hi-hat-open", name: "open hi-hat", family: "hats" },
  { voice: "hi-hat-pedal", name: "hi-hat pedal", family: "pedal" },
  { voice: "cross-stick", name: "cross-stick", family: "snare" },
  { voice: "floor-tom", name: "floor tom", family: "toms" },
  { voice: "bell", name: "ride bell", family: "cymbals" },
  { voice: "crash-left", name: "crash left", family: "cymbals" },
  { voice: "cowbell", name: "cowbell", family: "percussion" },
  { voice: "unknown", name: "unknown pad", family: "percussion" },
] as const)("$voice is said $name and belongs to the $family", ({ voice, name, family }) => {
  expect(voiceName(voice)).toBe(name);
  expect(familyOf(voice)).toBe(family);
});
