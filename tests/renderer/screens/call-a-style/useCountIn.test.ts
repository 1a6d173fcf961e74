import { expect, test } from "vitest";
import { countWord } from "../../../../renderer/screens/call-a-style/useCountIn.ts";

const fourFromOne = { until: 5, beatSeconds: 1, beats: 4 };

test.each([
  [0.4, "ready"],
  [1, "one"],
  [1.99, "one"],
  [2, "two"],
  [4.5, "four"],
  [5, undefined],
  [9, undefined],
])("at %s seconds of a count of four from second one: %s", (now, word) => {
  expect(countWord(fourFromOne, now)).toBe(word);
});
