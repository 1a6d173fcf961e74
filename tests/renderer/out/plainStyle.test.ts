import { expect, test } from "vitest";
import { plainValue } from "../../../renderer/out/picture/plainStyle.ts";

test.each([
  ["rgb(13, 102, 102)", "#0d6666"],
  ["rgba(13, 102, 102, 1)", "#0d6666"],
  ["rgb(0 0 0)", "#000000"],
  ["rgba(0, 0, 0, 0)", "none"],
  ["rgba(13, 102, 102, 0.5)", "rgba(13, 102, 102, 0.5)"],
  ["none", "none"],
  ["14px", "14"],
  ["2px, 3px", "2, 3"],
  ["1.6px", "1.6"],
  ["round", "round"],
])("%s becomes %s", (computed, plain) => {
  expect(plainValue(computed)).toBe(plain);
});
