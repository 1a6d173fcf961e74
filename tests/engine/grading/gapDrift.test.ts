import { describe, expect, test } from "vitest";
import {
  type GapDrift,
  gapDrifts,
  gapDriftsWords,
  gapDriftWords,
  gradeTake,
} from "../../../engine/grading/index.ts";
import { clickSilences, FOUR_FOUR, plainClick } from "../../../engine/score/index.ts";
import { beatSeconds, normal, seededChance } from "../../../engine/units/index.ts";
import { played, rock } from "./takes.ts";

const TEMPO = 100;
const BEAT = beatSeconds(TEMPO);

/** A player who keeps with the click while it sounds, and goes on by an own tempo while it does not. */
function ownWay(
  silences: ReturnType<typeof clickSilences>,
  how: {
    readonly fasterPercent: number;
    readonly clockMs: number;
    readonly limbMs: number;
    readonly seed: number;
  },
  bars: number,
) {
  const chance = seededChance(how.seed);
  const step = BEAT / 2;
  const steps = bars * 8 + 1;
  const moved: number[] = [];
  let now = 0;
  for (let at = 0; at < steps; at += 1) {
    const time = at * step;
    const silent = silences.some(({ from, to }) => time > from + 1e-9 && time < to + 1e-9);
    const wander = (how.clockMs / 1000) * normal(chance);
    // With the click half of what is off is made good by the next stroke (Vorberg & Wing 1996).
    now = silent ? now - step * (how.fasterPercent / 100) + wander : now * 0.5 + wander;
    moved.push(now);
  }
  const target = rock(bars, TEMPO);
  const hits = played(target, ({ time }) => {
    const at = Math.round(time / step);
    return time + (moved[at] ?? 0) + (how.limbMs / 1000) * normal(chance);
  });
  return { target, hits, movedMsAt: (time: number) => (moved[Math.round(time / step)] ?? 0) * 1000 };
}

const silencesOf = (sounding: number, silent: number, bars: number) =>
  clickSilences(
    { way: { ...plainClick(FOUR_FOUR), gaps: { kind: "regular", sounding, silent } }, tempoBpm: TEMPO },
    bars * 4 * BEAT,
  );

describe("a machine that runs off while the click is silent", () => {
  test.each([
    [2, 1, 1.5],
    [2, 2, 1],
    [4, 4, -1],
    [2, 4, 2],
  ])(
    "%i bars sounding, %i silent, %f in 100 faster: told to the millisecond",
    (sounding, silent, fasterPercent) => {
      const bars = (sounding + silent) * 3;
      const silences = silencesOf(sounding, silent, bars);
      const { target, hits } = ownWay(silences, { fasterPercent, clockMs: 0, limbMs: 0, seed: 1 }, bars + 1);
      const drifts = gapDrifts(gradeTake(hits, target, { start: "shared" }).hits, silences, BEAT);
      expect(drifts).toHaveLength(3);
      for (const drift of drifts) {
        expect(drift.movedMs).toBeCloseTo(-silent * 4 * BEAT * fasterPercent * 10, 0);
      }
    },
  );
});

describe("people", () => {
  test("where they stood at the return lies within what is said in more than nine cases of ten", () => {
    const errors: number[] = [];
    const widths: number[] = [];
    let held = 0;
    for (let seed = 1; seed <= 60; seed += 1) {
      const bars = 24;
      const silences = silencesOf(4, 2, bars);
      const { target, hits, movedMsAt } = ownWay(
        silences,
        { fasterPercent: ((seed % 5) - 2) * 0.6, clockMs: 6, limbMs: 8, seed },
        bars + 1,
      );
      const drifts = gapDrifts(gradeTake(hits, target, { start: "shared" }).hits, silences, BEAT);
      for (const [at, { movedMs, giveOrTakeMs }] of drifts.entries()) {
        if (movedMs === null || giveOrTakeMs === null) continue;
        const error = movedMs - movedMsAt(silences[at]?.to ?? Number.NaN);
        errors.push(Math.abs(error));
        widths.push(giveOrTakeMs);
        if (Math.abs(error) <= giveOrTakeMs) held += 1;
      }
    }
    const middle = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1];
    console.info(
      `gap drift: ${errors.length} gaps, error ${middle(errors)?.toFixed(1)} ms in the middle, said ±${middle(widths)?.toFixed(1)} ms, held ${(held / errors.length).toFixed(3)}`,
    );
    expect(errors.length).toBeGreaterThan(200);
    expect(held / errors.length).toBeGreaterThan(0.9);
    expect(middle(errors)).toBeLessThan(10);
  });
});

describe("what cannot be told is not", () => {
  const silences = silencesOf(2, 2, 8);
  const target = rock(9, TEMPO);
  const report = (plays: (time: number) => boolean) =>
    gapDrifts(
      gradeTake(
        played(target, ({ time }) => (plays(time) ? time : undefined)),
        target,
        { start: "shared" },
      ).hits,
      silences,
      BEAT,
    );
  const bar = 4 * BEAT;

  test("a player who waits for the click", () => {
    const drifts = report((time) => time < 2 * bar || time >= 4 * bar);
    expect(drifts[0]).toEqual({ bar: 3, bars: 2, movedMs: null, giveOrTakeMs: null });
    expect(drifts[1]?.movedMs).toBeCloseTo(0, 6);
  });

  test("a player who stops before the return", () => {
    expect(report((time) => time < 3.4 * bar || time >= 4.1 * bar)[0]?.movedMs).toBeNull();
  });

  test("a take that ends in the silence", () => {
    expect(report((time) => time < 2.5 * bar)[0]?.movedMs).toBeNull();
  });
});

describe("in words", () => {
  const drift = (movedMs: number | null, giveOrTakeMs: number | null): GapDrift => ({
    bar: 3,
    bars: 2,
    movedMs,
    giveOrTakeMs,
  });

  test.each([
    [
      drift(-34.2, 9),
      "Bars 3 to 4 without the click: at its return you were 34 ms ahead of it, give or take 9 ms.",
    ],
    [
      drift(21, 6),
      "Bars 3 to 4 without the click: at its return you were 21 ms behind it, give or take 6 ms.",
    ],
    [
      { ...drift(4, 8), bars: 1 },
      "Bar 3 without the click: at its return you were still with it, as far as can be told (±8 ms).",
    ],
    [
      drift(null, null),
      "Bars 3 to 4 without the click: too little was played there to tell how far you moved.",
    ],
  ])("%o", (told, words) => {
    expect(gapDriftWords(told)).toBe(words);
  });

  test.each([
    [[], null],
    [[drift(null, null)], "The click fell silent once; too little was played there to tell more."],
    [[drift(-30, 5)], "The click fell silent once. At its return you were ahead of it."],
    [
      [drift(-30, 5), drift(-20, 5)],
      "The click fell silent two times. At its return you were ahead of it each time.",
    ],
    [
      [drift(-30, 5), drift(2, 5), drift(null, null)],
      "The click fell silent three times. At its return you were with it once, ahead of it once.",
    ],
  ])("all of a take", (drifts, words) => {
    expect(gapDriftsWords(drifts)).toBe(words);
  });
});
