import { expect, test } from "vitest";
import { confusionPart, insteadWords } from "../../../../renderer/screens/back-turned/confusionWords.ts";

test.each([
  [[], ""],
  [[{ named: "floor-tom", times: 1 }], "floor tom once"],
  [
    [
      { named: "floor-tom", times: 2 },
      { named: null, times: 3 },
    ],
    "floor tom twice, nothing 3 times",
  ],
] as const)("%o is told as %s", (instead, words) => {
  expect(insteadWords({ instead })).toBe(words);
});

test("a table for paper: what sounded, how often it was named rightly, what it was taken for", () => {
  const row = { sounded: "kick", times: 3, right: 2, instead: [{ named: "snare", times: 1 }] } as const;
  expect(confusionPart("Taken for what", [row])).toMatchObject({ rows: [["kick", "2 of 3", "snare once"]] });
});
