import { expect, test } from "vitest";
import { onBeat } from "../../../engine/grading/index.ts";

test.each([
  [1, "on one"],
  [3.5, "on the “and” of three"],
  [2.9995, "on three"],
  [4.667, "on the last triplet of four"],
  [2.25, "on the “e” of two"],
  [2.1, "after two"],
])("beat %d is said %s", (beat, words) => {
  expect(onBeat(beat)).toBe(words);
});
