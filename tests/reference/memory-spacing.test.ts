/**
 * What the literature on retrieval and spacing says, against what the memory model makes of it. Directions and shares, not
 * exact figures: the experiments were on words and facts, and the model's weights come from flash cards.
 *
 * Sources: Cepeda, Pashler, Vul, Wixted & Rohrer, Psychological Bulletin 132 (2006) 354–380 (spaced beats massed; the best
 * gap grows with how long it is to be kept; from memory). Cepeda, Vul, Rohrer, Wixted & Pashler, Psychological Science 19
 * (2008) 1095–1102 (best gap some 20–40 % of a delay of a week, 5–10 % of one of a year; from memory). Latimier, Peyre &
 * Ramus, Educational Psychology Review 33 (2021) 959–987 (spaced over massed retrieval, g = 0.74). Roediger & Karpicke,
 * Psychological Science 17 (2006) 249–255 (after five minutes restudy wins, after a week the test does).
 */
import { describe, expect, test } from "vitest";
import { chanceForgotten, daysAfter, memoryOf, type Result } from "../../engine/memory/index.ts";
import { result } from "../engine/memory/results.ts";

const FIRST = "2026-01-05";

function recalled(results: readonly Result[], day: string): number {
  const memory = memoryOf(results);
  if (!memory) throw new Error("No results were made.");
  return 1 - chanceForgotten(memory, day);
}

/**
 * The chance to recall so many days after a second asking that came a gap after the first: held or missed then, each with
 * its own chance.
 */
function recalledAfter(gapDays: number, delayDays: number): number {
  const first = result("symbol:fermata", "known", FIRST);
  const second = daysAfter(FIRST, gapDays);
  const test = daysAfter(second, delayDays);
  const held = recalled([first], second);
  const afterHeld = recalled([first, result("symbol:fermata", "known", second)], test);
  const afterMissed = recalled([first, result("symbol:fermata", "slipped", second)], test);
  return held * afterHeld + (1 - held) * afterMissed;
}

function bestGap(delayDays: number): number {
  const gaps = Array.from({ length: delayDays }, (_, at) => at + 1);
  return gaps.reduce((best, gap) =>
    recalledAfter(gap, delayDays) > recalledAfter(best, delayDays) ? gap : best,
  );
}

describe("the best gap between two askings", () => {
  const delays = [7, 35, 70, 350];
  const best = delays.map(bestGap);

  test("grows with how long it is to be kept, and its share of that falls (Cepeda et al. 2006, 2008)", () => {
    best.slice(1).forEach((gap, at) => {
      expect(gap).toBeGreaterThan(best[at] ?? Number.NaN);
    });
    const shares = best.map((gap, at) => gap / (delays[at] ?? Number.NaN));
    shares.slice(1).forEach((share, at) => {
      expect(share).toBeLessThan(shares[at] ?? Number.NaN);
    });
  });

  test("is near a twentieth to a tenth of a year; for a week it is longer than in the experiment", () => {
    expect(best).toEqual([4, 9, 12, 17]);
    expect((best[3] ?? Number.NaN) / 350).toBeGreaterThan(0.04);
    expect((best[3] ?? Number.NaN) / 350).toBeLessThan(0.1);
  });

  test("a weekly lesson costs next to nothing against it, up to a year", () => {
    const cost = delays.map((delay, at) => recalledAfter(best[at] ?? 1, delay) - recalledAfter(7, delay));
    for (const each of cost) expect(each).toBeLessThan(0.01);
  });
});

test.each([14, 35, 90, 365])(
  "three lessons a week apart beat three times on one day, %i days later",
  (delay) => {
    const item = "sticking:flam-tap";
    const spaced = [0, 7, 14].map((days) => result(item, "known", daysAfter(FIRST, days)));
    const massed = [0, 1, 2].map((nth) => result(item, "known", daysAfter(FIRST, 14), nth));
    const day = daysAfter(FIRST, 14 + delay);
    expect(recalled(spaced, day)).toBeGreaterThan(recalled(massed, day) + 0.05);
  },
);

test("what is got right within the hour does not count as kept (Roediger & Karpicke 2006)", () => {
  const missed = [result("symbol:fermata", "slipped", FIRST)];
  const again = [...missed, result("symbol:fermata", "known", FIRST, 1)];
  expect(recalled(again, daysAfter(FIRST, 7))).toBe(recalled(missed, daysAfter(FIRST, 7)));
});
