import { expect, test } from "vitest";
import { audioTimeAt } from "../../../renderer/audio/clock.ts";

type Clock = Parameters<typeof audioTimeAt>[0];

test("a moment of the session is found on the audio clock through the pair the device gives", () => {
  const context: Clock = {
    currentTime: 5,
    outputLatency: 0.02,
    getOutputTimestamp: () => ({ contextTime: 4.9, performanceTime: 100_000 }),
  };
  expect(audioTimeAt(context, 100.5)).toBeCloseTo(5.4, 9);
});

test("before the first sample has left, the declared latency stands in", () => {
  const context: Clock = {
    currentTime: 0,
    outputLatency: 0.02,
    getOutputTimestamp: () => ({ contextTime: 0, performanceTime: 0 }),
  };
  const inHalfASecond = performance.now() / 1000 + 0.5;
  expect(audioTimeAt(context, inHalfASecond)).toBeCloseTo(0.48, 1);
});
