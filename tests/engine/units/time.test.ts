import { expect, test } from "vitest";
import { beatSeconds, toMs } from "../../../engine/units/index.ts";

// Computed: a quarter note lasts 60000 / BPM milliseconds.
test.each([
  { tempoBpm: 60, ms: 1000 },
  { tempoBpm: 72, ms: 833.333 },
  { tempoBpm: 90, ms: 666.667 },
  { tempoBpm: 120, ms: 500 },
  { tempoBpm: 140, ms: 428.571 },
  { tempoBpm: 240, ms: 250 },
])("a beat at $tempoBpm lasts $ms ms", ({ tempoBpm, ms }) => {
  expect(toMs(beatSeconds(tempoBpm))).toBeCloseTo(ms, 3);
});
