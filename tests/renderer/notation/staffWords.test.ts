import { expect, test } from "vitest";
import { parseGrid, writeStaff } from "../../../engine/score/index.ts";
import { staffWords } from "../../../renderer/notation/staffWords.ts";

const words = (metre: string, lines: string, feel = "straight"): string =>
  staffWords(
    writeStaff(parseGrid(`groove: g\nname: G\nmetre: ${metre}\nfeel: ${feel}\ntempo: 80-140\n${lines}`)),
  );

test.each([
  ["4/4", "snare | ..x. .x.x |", "1 bar of 4/4. snare on 2, 3 and, 4 and."],
  [
    "4/4",
    "snare | xxxx .... .... .... |\nkick | x |",
    "1 bar of 4/4. snare on 1, 1 e, 1 and, 1 a; kick on 1.",
  ],
  ["12/8", "ride | x.x ... ... .x. |", "1 bar of 12/8. ride on 1, 1 last third, 4 second third."],
  ["4/4", "snare | x | .x |", "2 bars of 4/4. Bar 1: snare on 1. Bar 2: snare on 3."],
  ["4/4", "snare | x | . |", "2 bars of 4/4. Bar 1: snare on 1. Bar 2: Silent."],
  ["3/4", "snare | x | x | x |", "3 bars of 3/4."],
  [
    "4/4",
    "snare | xxxxx ..... ..... ..... |",
    "1 bar of 4/4. snare on 1, 1 and 1/5, 1 and 2/5, 1 and 3/5, 1 and 4/5.",
  ],
])("in %s, %s is said: %s", (metre, lines, expected) => {
  expect(words(metre, lines)).toBe(expected);
});

test("swing is said, and its off-beats where they are written", () => {
  expect(words("4/4", "ride | x.. x.x x.. x.x |", "swung 2 triplets")).toBe(
    "1 bar of 4/4, swung. ride on 1, 2, 2 last third, 3, 4, 4 last third.",
  );
});
