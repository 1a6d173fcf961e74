import { describe, expect, test } from "vitest";
import { type Calibration, measuredByStrikes, UNMEASURED } from "../../../../engine/kit/index.ts";
import {
  latenessWords,
  lateWords,
  measuredWords,
  microphoneWords,
  strikingWords,
} from "../../../../renderer/screens/kit/latenessWords.ts";

const setUp = { input: "Nine-piece module", output: "headphones" } as const;

test.each([
  [{ lateMs: -8.2, giveOrTakeMs: 1.5, how: "strikes" }, "8 ms early (±1.5 ms)"],
  [{ lateMs: 23.4, giveOrTakeMs: 6.6, how: "strikes" }, "23 ms late (±7 ms)"],
  [{ lateMs: 0.3, giveOrTakeMs: 2, how: "microphone" }, "not late (±2 ms)"],
] satisfies [Calibration, string][])("%o: %s", (calibration, words) => {
  expect(lateWords(calibration)).toBe(words);
});

test("what is known of a set-up, and how", () => {
  expect(latenessWords(setUp, UNMEASURED)).toBe(
    "Nine-piece module, heard through headphones on a cable: never measured.",
  );
  expect(latenessWords(setUp, { lateMs: 30, giveOrTakeMs: 5, how: "by-hand" })).toBe(
    "Nine-piece module, heard through headphones on a cable: 30 ms late (±5 ms), entered by hand.",
  );
});

describe("striking", () => {
  const struck = (offsetsMs: readonly number[]) =>
    strikingWords({ stage: "struck", setUp, measured: measuredByStrikes(offsetsMs) });
  const even = Array.from({ length: 23 }, (_, at) => -12 + (at % 3) - 1);

  test.each([
    [
      [...even, 200],
      /^Your strikes came 12 ms before the click \(±[\d.]+ ms\): the middle of 23, one left out\.$/,
    ],
    [
      even.map((offset) => offset + 12),
      /^Your strikes came with the click \(±[\d.]+ ms\): the middle of 23\.$/,
    ],
    [even.slice(0, 5), /^Only five strikes lay near one another/],
    [even.map((_, at) => (at - 11) * 22), /^The strikes lay \d+ ms to either side: too far apart to tell/],
  ])("%#", (offsets, words) => {
    expect(struck(offsets)).toMatch(words);
  });

  test("before it, and while it goes on", () => {
    expect(strikingWords({ stage: "before" })).toBeUndefined();
    expect(strikingWords({ stage: "striking", counted: 0 })).toContain("Four clicks to fall in");
    expect(strikingWords({ stage: "striking", counted: 7 })).toBe("7 of 24 strikes.");
  });
});

test("each way of measuring says what its figure holds", () => {
  expect(measuredWords({ how: "strikes" })).toContain("your own habit");
  expect(measuredWords({ how: "microphone" })).toContain("the set-up alone");
});

test.each([
  [{ stage: "before" }, undefined],
  [{ stage: "clicks", heard: 3 }, "Keep still: the microphone listens to the click. 3 of 12 heard."],
  [{ stage: "sticks", heard: 4 }, "Strike on: 4 of 12 heard."],
  [
    { stage: "heard", setUp, middle: { middleMs: 55, giveOrTakeMs: 0.6 } },
    "This set-up is 55 ms late (±0.6 ms).",
  ],
  [{ stage: "trouble", reason: "Refused." }, "Refused."],
] as const)("the microphone: %o", (hearing, words) => {
  expect(microphoneWords(hearing)).toBe(words);
});
