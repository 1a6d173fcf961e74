/**
 * The forgetting model against its specification: FSRS-6 as published by open-spaced-repetition in "The Algorithm" (the
 * formulas are written out again below, from the page, not from the package), and worked values of the package's own
 * published tests (`ts-fsrs` 5.4, FSRS-6).
 */
import { Rating } from "ts-fsrs";
import { describe, expect, test } from "vitest";
import {
  chanceForgotten,
  daysAfter,
  daysHeld,
  type Memory,
  memoryOf,
  ratingOfDay,
} from "../../engine/memory/index.ts";
import type { Outcome } from "../../engine/session/index.ts";
import { result } from "../engine/memory/results.ts";

/** The published default weights of FSRS-6, w0 to w20. */
const W = [
  0.212, 1.2931, 2.3065, 8.2956, 6.4133, 0.8334, 3.0194, 0.001, 1.8722, 0.1666, 0.796, 1.4835, 0.0614, 0.2629,
  1.6483, 0.6014, 1.8729, 0.5425, 0.0912, 0.0658, 0.1542,
] as const;

/** R(t, S) = (1 + F·t/S)^(−w20), F = 0.9^(−1/w20) − 1. */
function retrievability(days: number, stability: number): number {
  const factor = 0.9 ** (-1 / W[20]) - 1;
  return (1 + (factor * days) / stability) ** -W[20];
}

/** D0(G) = w4 − e^(w5·(G − 1)) + 1, before it is held within 1 to 10. */
function firstDifficulty(grade: number): number {
  return W[4] - Math.exp(W[5] * (grade - 1)) + 1;
}

const within = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/** D″ = w7·D0(4) + (1 − w7)·(D + ΔD·(10 − D)/9), ΔD = −w6·(G − 3): linear damping, then mean reversion. */
function nextDifficulty(difficulty: number, grade: number): number {
  const damped = difficulty + (-W[6] * (grade - 3) * (10 - difficulty)) / 9;
  return within(W[7] * firstDifficulty(4) + (1 - W[7]) * damped, 1, 10);
}

/** S′r = S·(e^w8·(11 − D)·S^−w9·(e^(w10·(1 − R)) − 1)·[w15 if Hard] + 1). */
function afterRecall(difficulty: number, stability: number, recall: number, grade: number): number {
  const hard = grade === 2 ? W[15] : 1;
  const growth =
    Math.exp(W[8]) * (11 - difficulty) * stability ** -W[9] * (Math.exp(W[10] * (1 - recall)) - 1);
  return stability * (growth * hard + 1);
}

/** S′f = w11·D^−w12·((S + 1)^w13 − 1)·e^(w14·(1 − R)), never above S. */
function afterLapse(difficulty: number, stability: number, recall: number): number {
  const left = W[11] * difficulty ** -W[12] * ((stability + 1) ** W[13] - 1) * Math.exp(W[14] * (1 - recall));
  return Math.min(stability, left);
}

interface State {
  readonly stability: number;
  readonly difficulty: number;
}

function specified(state: State | null, days: number, grade: 1 | 2 | 3): State {
  if (!state)
    return { stability: W[grade - 1] ?? Number.NaN, difficulty: within(firstDifficulty(grade), 1, 10) };
  const { stability, difficulty } = state;
  const recall = retrievability(days, stability);
  const next =
    grade === 1
      ? afterLapse(difficulty, stability, recall)
      : afterRecall(difficulty, stability, recall, grade);
  return { stability: next, difficulty: nextDifficulty(difficulty, grade) };
}

/** Outcomes of a day that give each rating. */
const OUTCOMES: Readonly<Record<1 | 2 | 3, readonly Outcome[]>> = {
  1: ["slipped"],
  2: ["known", "slipped"],
  3: ["known"],
};

/** Ratings on days so far apart; the first gap is 0. */
function remembered(ratings: readonly (1 | 2 | 3)[], gaps: readonly number[]): Memory {
  let day = "2026-01-05";
  const results = ratings.flatMap((rating, at) => {
    day = daysAfter(day, gaps[at] ?? 0);
    return OUTCOMES[rating].map((outcome, nth) => result("style:samba", outcome, day, nth));
  });
  const memory = memoryOf(results);
  if (!memory) throw new Error("No results were made.");
  return memory;
}

describe("the forgetting curve", () => {
  // Our library of check values, computed from the formula: S = 10 days.
  test.each([
    [0, 1],
    [1, 0.985682],
    [2, 0.97277],
    [5, 0.940344],
    [10, 0.9],
    [20, 0.845885],
    [30, 0.809388],
    [60, 0.742717],
    [100, 0.692827],
  ])("after %i days of a stability of 10", (days, recall) => {
    const memory = { stabilityDays: 10, lastDay: "2026-01-05" };
    expect(1 - chanceForgotten(memory, daysAfter("2026-01-05", days))).toBeCloseTo(recall, 6);
    expect(retrievability(days, 10)).toBeCloseTo(recall, 6);
  });

  // The package's own tests: S = 1.
  test.each([
    [0, 1],
    [1, 0.9],
    [2, 0.84588465],
    [3, 0.8093881],
  ])("after %i days of a stability of 1", (days, recall) => {
    const memory = { stabilityDays: 1, lastDay: "2026-01-05" };
    expect(1 - chanceForgotten(memory, daysAfter("2026-01-05", days))).toBeCloseTo(recall, 8);
  });
});

// The package's own tests: S = 1, wanted recall 0.1 to 1 in steps of 0.1, in whole days of at least one.
test.each([
  [0.1, 3_116_769],
  [0.2, 34_793],
  [0.3, 2508],
  [0.4, 387],
  [0.5, 90],
  [0.6, 27],
  [0.7, 9],
  [0.8, 3],
  [0.9, 1],
  [1, 1],
])("the interval for a wanted recall of %f", (retention, days) => {
  expect(Math.max(1, Math.round(daysHeld({ stabilityDays: 1 }, retention)))).toBe(days);
});

test("the interval is where the curve meets the wanted recall", () => {
  for (const retention of [0.7, 0.8, 0.9, 0.95])
    expect(retrievability(daysHeld({ stabilityDays: 6 }, retention), 6)).toBeCloseTo(retention, 8);
});

describe("the first day", () => {
  test.each([
    [1, 0.212, 6.4133],
    [2, 1.2931, 5.11217071],
    [3, 2.3065, 2.11810397],
  ] as const)("rated %i", (rating, stability, difficulty) => {
    const memory = remembered([rating], [0]);
    expect(memory.stabilityDays).toBeCloseTo(stability, 8);
    expect(memory.difficulty).toBeCloseTo(difficulty, 8);
  });
});

test("difficulty from 5, as the package's own tests have it", () => {
  expect(nextDifficulty(5, 1)).toBeCloseTo(8.34176237, 7);
  expect(nextDifficulty(5, 2)).toBeCloseTo(6.66599536, 7);
  expect(nextDifficulty(5, 3)).toBeCloseTo(4.99022837, 7);
});

test("again, then good five times: 53.335106 days, as the package has it with its short steps off", () => {
  // The package's row has gaps of 0, 0, 1, 3, 8 and 21 days. Two reviews on one day are one of ours, so the first good of
  // that day is left out here and compared with the formula; the whole row is put through the formula itself.
  const gaps = [0, 0, 1, 3, 8, 21];
  const grades = [1, 3, 3, 3, 3, 3] as const;
  const whole = grades.reduce<State | null>(
    (state, grade, at) => specified(state, gaps[at] ?? 0, grade),
    null,
  );
  // The package rounds to eight places at each step, which grows to 4e-5 here.
  expect(whole?.stability).toBeCloseTo(53.335106, 3);
  expect(whole?.difficulty).toBeCloseTo(6.3574867, 6);
});

/** Every way three more days can go, after each first one, at gaps a lesson has. */
const COURSES = ([1, 2, 3] as const).flatMap((first) =>
  ([1, 2, 3] as const).flatMap((second) =>
    ([1, 2, 3] as const).flatMap((third) =>
      [1, 7, 14, 60].map((gap) => ({ ratings: [first, second, third] as const, gaps: [0, gap, 2 * gap] })),
    ),
  ),
);

test.each(COURSES)(
  "ratings $ratings at gaps $gaps: stability and difficulty as specified",
  ({ ratings, gaps }) => {
    const memory = remembered(ratings, gaps);
    const state = ratings.reduce<State | null>(
      (before, grade, at) => specified(before, gaps[at] ?? 0, grade),
      null,
    );
    // The package rounds to eight places at each step.
    expect(memory.stabilityDays).toBeCloseTo(state?.stability ?? Number.NaN, 5);
    expect(memory.difficulty).toBeCloseTo(state?.difficulty ?? Number.NaN, 6);
  },
);

test("our ratings are the model's: again 1, hard 2, good 3", () => {
  expect([ratingOfDay(["slipped"]), ratingOfDay(["known", "slipped"]), ratingOfDay(["known"])]).toEqual([
    Rating.Again,
    Rating.Hard,
    Rating.Good,
  ]);
  expect([Rating.Again, Rating.Hard, Rating.Good]).toEqual([1, 2, 3]);
});
