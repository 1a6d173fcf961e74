import { describe, expect, test } from "vitest";
import { gradeTake, grooveTarget, type Report } from "../../../engine/grading/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { beatsPerBar, type Groove, parseGrid, performed } from "../../../engine/score/index.ts";
import { driftLine } from "../../../renderer/charts/index.ts";

const TEMPO_BPM = 100;
const BARS = 16;
const groove: Groove = parseGrid(
  "groove: plain\nname: Plain\nmetre: 4/4\nfeel: straight\ntempo: 80-120\n\nhi-hat-closed | x.x. x.x. x.x. x.x. |\nkick | x... .... x... .... |",
);
const barSeconds = (beatsPerBar(groove.metre) * 60) / TEMPO_BPM;

/** The groove exactly as written, but for its clock: each moment of the target moved by `lateMs`. */
function graded(start: "shared" | "free", lateMs: (time: number) => number): Report {
  const hits = performed(groove, { tempoBpm: TEMPO_BPM, bars: BARS }).map(
    ({ time, note }): Hit => ({
      time: time + lateMs(time) / 1000 + (start === "free" ? 3 : 0),
      voice: note.voice,
      zone: "whole",
      velocity: 0.6,
      pad: 38,
    }),
  );
  return gradeTake(hits, grooveTarget(groove, { tempoBpm: TEMPO_BPM, bars: BARS }), { start });
}

/** How far the drawn line is from the leans of the bars, at the worst. */
function furthestMs(report: Report): number {
  const line = driftLine({ ...report, barSeconds });
  if (!line) throw new Error("No drift was told.");
  return Math.max(
    ...report.perBar.map(({ bar, leanMs }) => Math.abs((leanMs ?? 0) - (report.leanMs ?? 0) - line(bar))),
  );
}

describe("the fitted drift runs through the bars it was fitted to", () => {
  test.each([0.6, 1.2, -1.2])("a straight one against a click, %s in 100", (percent) => {
    const report = graded("shared", (time) => -10 * percent * time);
    expect(report.driftPercent).toBeCloseTo(percent, 1);
    expect(furthestMs(report)).toBeLessThan(2);
  });

  test.each([1, 3, -3])("a bent one of a free take, %s in 100 from beginning to end", (percent) => {
    const seconds = BARS * barSeconds;
    const report = graded("free", (time) => (-10 * percent * time ** 2) / (2 * seconds));
    expect(Math.abs((report.driftPercent ?? 0) - percent)).toBeLessThan(0.35);
    expect(furthestMs(report)).toBeLessThan(6);
  });
});

test("a drift that is not told has no line", () => {
  const report = graded("shared", () => 0);
  expect(driftLine({ ...report, driftPercent: null, barSeconds })).toBeUndefined();
  expect(driftLine({ ...report, perBar: report.perBar.slice(0, 1), barSeconds })).toBeUndefined();
});

test("a tempo that held is a line at nought", () => {
  const line = driftLine({ ...graded("shared", () => 12), barSeconds });
  expect(line?.(1)).toBeCloseTo(0, 6);
  expect(line?.(BARS)).toBeCloseTo(0, 6);
});
