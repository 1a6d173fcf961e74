import { expect, test } from "vitest";
import * as grading from "../../../engine/grading/index.ts";
import { LEVELS, type Level, levelName } from "../../../engine/score/index.ts";

test("music is written for the levels that bands are given for", () => {
  const same: readonly grading.Level[] = LEVELS;
  const back: readonly Level[] = grading.LEVELS;
  expect(same).toEqual(back);
});

test("as a teacher says it", () => {
  expect(LEVELS.map(levelName)).toEqual(["first year", "second year", "steady", "working player"]);
});
