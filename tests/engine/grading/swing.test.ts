import { expect, test } from "vitest";
import { gradeTake, strokesTarget } from "../../../engine/grading/index.ts";
import { FOUR_FOUR } from "../../../engine/score/index.ts";
import { played } from "./takes.ts";

/** Sixteen bars of eighths, each bar's tempo `factor` times that of the bar before it. */
function changing(factor: number) {
  const strokes: { time: number; voice: "ride"; dynamic: "plain"; beat: number }[] = [];
  let time = 0;
  let beatSeconds = 0.6;
  for (let eighth = 0; eighth < 128; eighth += 1) {
    strokes.push({ time, voice: "ride", dynamic: "plain", beat: eighth / 2 });
    time += beatSeconds / 2;
    if (eighth % 8 === 7) beatSeconds /= factor;
  }
  const beatOf = (at: number) => strokes.find((stroke) => stroke.time === at)?.beat ?? -1;
  return { target: strokesTarget("Eighths", strokes, { tempoBpm: 100, metre: FOUR_FOUR, beatOf }), strokes };
}

test.each([
  { factor: 1, ratio: 1 },
  { factor: 1, ratio: 1.5 },
  { factor: 1.03, ratio: 1 },
  { factor: 0.97, ratio: 1 },
  { factor: 1.03, ratio: 1.5 },
  { factor: 0.97, ratio: 1.5 },
])("each bar $factor times as fast, played $ratio to 1: the ratio is that", ({ factor, ratio }) => {
  const { target, strokes } = changing(factor);
  const hits = played(target, ({ time, index }) => {
    if (index % 2 === 0) return time;
    const beatSeconds = 2 * (time - (strokes[index - 1]?.time ?? 0));
    return time + (ratio / (ratio + 1) - 1 / 2) * beatSeconds;
  });
  const report = gradeTake(hits, target, { start: "shared" });
  expect(report.hits.every(({ state }) => state === "matched")).toBe(true);
  expect(report.swingRatio).toBeCloseTo(ratio, 2);
});
