import { expect, test } from "vitest";
import { beatsPerBar, beatsPerQuarter, isCompound, metreName } from "../../../engine/score/index.ts";
import { fraction } from "../../../engine/units/index.ts";

test.each([
  { name: "2/4", compound: false, beats: 2, perQuarter: fraction(1) },
  { name: "3/4", compound: false, beats: 3, perQuarter: fraction(1) },
  { name: "4/4", compound: false, beats: 4, perQuarter: fraction(1) },
  { name: "5/4", compound: false, beats: 5, perQuarter: fraction(1) },
  { name: "6/4", compound: false, beats: 6, perQuarter: fraction(1) },
  { name: "2/2", compound: false, beats: 2, perQuarter: fraction(1, 2) },
  { name: "3/8", compound: false, beats: 3, perQuarter: fraction(2) },
  { name: "5/8", compound: false, beats: 5, perQuarter: fraction(2) },
  { name: "7/8", compound: false, beats: 7, perQuarter: fraction(2) },
  { name: "6/8", compound: true, beats: 2, perQuarter: fraction(2, 3) },
  { name: "9/8", compound: true, beats: 3, perQuarter: fraction(2, 3) },
  { name: "12/8", compound: true, beats: 4, perQuarter: fraction(2, 3) },
  { name: "12/16", compound: true, beats: 4, perQuarter: fraction(4, 3) },
])("$name has $beats felt beats", ({ name, compound, beats, perQuarter }) => {
  const [numerator = 0, denominator = 0] = name.split("/").map(Number);
  const metre = { numerator, denominator };
  expect(isCompound(metre)).toBe(compound);
  expect(beatsPerBar(metre)).toBe(beats);
  expect(beatsPerQuarter(metre)).toEqual(perQuarter);
  expect(metreName(metre)).toBe(name);
  // A bar is as long in quarters as its signature says.
  expect((beats * perQuarter.den) / perQuarter.num).toBeCloseTo((4 * numerator) / denominator, 12);
});
