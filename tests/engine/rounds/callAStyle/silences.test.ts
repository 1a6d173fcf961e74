import { describe, expect, test } from "vitest";
import { grooveById } from "../../../../engine/catalogue/index.ts";
import { gradeTake, type Report } from "../../../../engine/grading/index.ts";
import { driftsInSilences } from "../../../../engine/rounds/callAStyle/silences.ts";
import { judgeTake, type TakeClick } from "../../../../engine/rounds/index.ts";
import { FOUR_FOUR, type PlayedClick, plainClick } from "../../../../engine/score/index.ts";
import { played, rock } from "../../grading/takes.ts";
import { steadily } from "../../listening/played.ts";

const click: PlayedClick = {
  way: { ...plainClick(FOUR_FOUR), gaps: { kind: "regular", sounding: 2, silent: 1 } },
  tempoBpm: 120,
  from: 30,
  countInBars: 0,
};

/** In each silent bar the player is 2 in 100 faster, and back with the click a beat after it. Bars of two seconds. */
function fasterInSilence(time: number): number {
  const into = (time % 6) - 4;
  const atReturn = time % 6 < 0.01 && time > 0;
  return time - (into > 0 ? into * 0.02 : atReturn ? 0.04 : 0);
}

function report(bars: number): Report {
  const target = rock(bars, 120);
  const hits = played(target, ({ time }) => fasterInSilence(time));
  return gradeTake(hits, target, { start: "shared" });
}

describe("what happened while the click was silent", () => {
  test("is told of each silence", () => {
    const drifts = driftsInSilences(report(7), click);
    expect(drifts.map(({ bar, bars }) => [bar, bars])).toEqual([
      [3, 1],
      [6, 1],
    ]);
    for (const { movedMs } of drifts) expect(movedMs).toBeCloseTo(-40, 0);
  });

  test.each<[string, TakeClick | null]>([
    ["without a click", null],
    ["with a click that never falls silent", { ...click, way: plainClick(FOUR_FOUR) }],
    ["with a click of which only tempo and first beat are known", { tempoBpm: 120, from: 30 }],
  ])("%s there is nothing to tell", (_, other) => {
    expect(driftsInSilences(report(7), other)).toEqual([]);
  });

  test("a take that is over before the click is back has none", () => {
    expect(driftsInSilences(report(2), click)).toEqual([]);
  });

  test("a take that did not share the click's clock has none", () => {
    expect(driftsInSilences({ ...report(7), start: { time: 1.2, stretch: 1.01 } }, click)).toEqual([]);
  });
});

test("a take that is judged has its click, and what happened in its silences", () => {
  const groove = grooveById("rock-eighths");
  if (!groove) throw new Error("The catalogue has no rock-eighths.");
  const hits = steadily(groove, { tempoBpm: 120, bars: 7, spreadMs: 0 }).map((hit) => ({
    ...hit,
    time: click.from + fasterInSilence(hit.time),
  }));
  const { click: known, compared } = judgeTake({ hits, styleId: "rock-eighths", click });
  expect(known).toEqual(click);
  expect(compared?.gapDrifts.map(({ bar }) => bar)).toEqual([3, 6]);
  for (const drift of compared?.gapDrifts ?? []) expect(drift.movedMs).toBeCloseTo(-40, 0);
});
