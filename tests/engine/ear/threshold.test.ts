import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  beliefAfter,
  beliefFrom,
  believing,
  FIRST_BELIEF,
  guessChance,
  highestRung,
  nextRung,
  RUNGS,
  rightChance,
  rungAt,
  thresholdOf,
} from "../../../engine/ear/index.ts";

const anyAnswers = fc.array(
  fc.record({ rung: fc.integer({ min: 1, max: RUNGS.length }), right: fc.boolean() }),
  { maxLength: 40 },
);

describe("the chance of a right answer", () => {
  test("half of what is not guessed at the threshold; only guessed far above; all but slips far below", () => {
    const guess = guessChance(rungAt(12));
    expect(rightChance(12, 12, 0.8, 0)).toBeCloseTo(guess + (1 - guess) / 2, 10);
    expect(rightChance(12, -100, 0.8, 0.03)).toBeCloseTo(guess, 10);
    expect(rightChance(12, 100, 0.8, 0.03)).toBeCloseTo(0.97, 10);
  });
});

describe("belief", () => {
  test("it stays a belief: all together 1, none below 0", () => {
    fc.assert(
      fc.property(anyAnswers, (answers) => {
        const all = beliefAfter(answers).flat();
        expect(all.every((each) => each >= 0)).toBe(true);
        expect(all.reduce((sum, each) => sum + each, 0)).toBeCloseTo(1, 9);
      }),
      { numRuns: 30 },
    );
  });

  test("the order of answers does not matter to it", () => {
    fc.assert(
      fc.property(anyAnswers, (answers) => {
        const there = thresholdOf(beliefAfter(answers));
        const back = thresholdOf(beliefAfter(answers.toReversed()));
        expect(back.rung).toBeCloseTo(there.rung, 6);
        expect(back.give).toBeCloseTo(there.give, 6);
      }),
      { numRuns: 30 },
    );
  });

  test("a right answer never lowers where a listener stands, a wrong one never raises it", () => {
    fc.assert(
      fc.property(anyAnswers, fc.integer({ min: 1, max: RUNGS.length }), (answers, rung) => {
        const belief = beliefAfter(answers);
        const before = thresholdOf(belief).rung;
        expect(thresholdOf(believing(belief, { rung, right: true })).rung).toBeGreaterThanOrEqual(
          before - 1e-9,
        );
        expect(thresholdOf(believing(belief, { rung, right: false })).rung).toBeLessThanOrEqual(
          before + 1e-9,
        );
      }),
      { numRuns: 30 },
    );
  });

  test("earlier lessons say where a listener stands, and less surely than answers of today", () => {
    const earlier = Array.from({ length: 40 }, (_, at) => ({ rung: 6 + (at % 5), right: at % 5 < 3 }));
    const today = thresholdOf(beliefAfter(earlier));
    const before = thresholdOf(beliefFrom(earlier));
    const nothing = thresholdOf(FIRST_BELIEF);
    expect(Math.abs(before.rung - today.rung)).toBeLessThan(Math.abs(nothing.rung - today.rung));
    expect(before.give).toBeGreaterThan(today.give);
    expect(before.give).toBeLessThan(nothing.give);
    expect(thresholdOf(beliefFrom([])).rung).toBeCloseTo(nothing.rung, 9);
  });

  test("Bayes' rule, by hand, on one answer", () => {
    // What is believed after a right answer is what was believed times its chance, over all of it.
    const belief = believing(FIRST_BELIEF, { rung: 5, right: true });
    const grid = FIRST_BELIEF[0]?.map((_, at) => 0.5 + at * 0.1) ?? [];
    const scales = [0.4, 0.8, 1.6];
    const weighed = FIRST_BELIEF.map((row, scale) =>
      row.map((each, at) => each * rightChance(5, grid[at] ?? 0, scales[scale] ?? 0)),
    );
    const whole = weighed.flat().reduce((sum, each) => sum + each, 0);
    expect(belief[1]?.[100]).toBeCloseTo((weighed[1]?.[100] ?? 0) / whole, 12);
  });
});

describe("the next question", () => {
  test("it is a rung there is, and likelier heard than not, whatever was answered", () => {
    fc.assert(
      fc.property(anyAnswers, (answers) => {
        const rung = nextRung(beliefAfter(answers), highestRung(answers));
        expect(rung).toBeLessThanOrEqual(highestRung(answers));
        expect(Number.isInteger(rung)).toBe(true);
        expect(rung).toBeGreaterThanOrEqual(1);
        expect(rung).toBeLessThanOrEqual(RUNGS.length);
      }),
      { numRuns: 30 },
    );
  });

  test("a round begins low: one of a few that nobody confuses", () => {
    expect(nextRung(FIRST_BELIEF, highestRung([]))).toBeLessThanOrEqual(3);
    expect(
      highestRung([
        { rung: 5, right: true },
        { rung: 9, right: false },
      ]),
    ).toBe(7);
  });

  test("all right goes up, all wrong goes down to the first", () => {
    let up = FIRST_BELIEF;
    let down = FIRST_BELIEF;
    for (let question = 0; question < 30; question += 1) {
      up = believing(up, { rung: nextRung(up), right: true });
      down = believing(down, { rung: nextRung(down), right: false });
    }
    expect(nextRung(up)).toBeGreaterThanOrEqual(RUNGS.length - 1);
    expect(nextRung(down)).toBe(1);
  });
});
