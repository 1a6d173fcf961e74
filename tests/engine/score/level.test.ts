import { expect, test } from "vitest";
import { LEVELS, levelName } from "../../../engine/score/index.ts";

test("as a teacher says it", () => {
  expect(LEVELS.map(levelName)).toEqual(["first year", "second year", "steady", "working player"]);
});
