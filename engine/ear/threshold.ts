/**
 * Question: how hard may the next question be for this listener?
 *
 * Method: a Bayesian adaptive rule. Every answer changes how likely each threshold is (QUEST: Watson & Pelli, Perception &
 * Psychophysics 33 (1983) 113–120), and the next question is the one after which the threshold is expected to be known best:
 * the minimum variance method of King-Smith, Grigsby, Vingrys, Benes & Supowit, Vision Research 34 (1994) 885–912 (both from
 * memory). How steeply a listener goes from hearing to guessing is not known beforehand, so it is believed in three ways
 * side by side. What is likely to be missed is never asked, though that would tell as much: a lesson is no test.
 *
 * Chosen by measurement (`tests/bench/ear`), over two-down one-up (Levitt 1971) and over QUEST asking at its own mean.
 */
import { guessChance, RUNGS, rungAt } from "./rungs.ts";

/** One answer: the rung it was asked at, and whether it was right. */
export interface RungAnswer {
  readonly rung: number;
  readonly right: boolean;
}

/**
 * Where a listener stands: the rung at which half of what is not guessed is heard. `give` is one standard deviation of what
 * is believed, in rungs.
 */
export interface Threshold {
  readonly rung: number;
  readonly give: number;
}

/** How likely each threshold is, for each scale: all together 1. */
export type Belief = readonly (readonly number[])[];

/** Between two thresholds that are told apart, in rungs. */
const STEP = 0.1;
/** Thresholds from below the first rung to the last. */
const GRID: readonly number[] = Array.from(
  { length: (RUNGS.length - 0.5) / STEP + 1 },
  (_, at) => 0.5 + at * STEP,
);
/** How many rungs it takes from hearing to guessing: scales of a logistic curve. Our choice. */
const SCALES = [0.4, 0.8, 1.6] as const;
/** Slips of somebody who heard it. Our choice; Watson & Pelli take 0.01 for a key that is pressed, names slip more often. */
const SLIP = 0.03;
/** Where a listener is thought to stand before the first answer, and how little that is known, in rungs. Our choice. */
const FIRST_RUNG = 6;
const FIRST_SPREAD = 10;
/** The chance that a question is heard, not guessed, is at least this. Our choice: two of three answers are right then. */
const LEAST_HEARD = 0.4;
/** So far above what was heard the next question may be, in rungs. Our choice. */
const RISE = 2;
/** Questions so far from where the listener is thought to stand are not weighed up: they never tell most. In rungs. */
const FAR = 6;

/** The chance of a right answer. `threshold` and `scale` in rungs. */
export function rightChance(rung: number, threshold: number, scale: number, slip = SLIP): number {
  const guess = guessChance(rungAt(rung));
  return guess + (1 - guess - slip) / (1 + Math.exp((rung - threshold) / scale));
}

/** The chance of a right answer at every rung, scale and threshold: it is asked for at every answer. */
const RIGHT: readonly Belief[] = RUNGS.map((_, place) =>
  SCALES.map((scale) => GRID.map((threshold) => rightChance(place + 1, threshold, scale))),
);

function rightAt(rung: number): Belief {
  const place = Math.min(RUNGS.length, Math.max(1, Math.round(rung))) - 1;
  return RIGHT[place] ?? [];
}

/** What is believed before the first answer. */
export const FIRST_BELIEF: Belief = normed(
  SCALES.map(() =>
    GRID.map((threshold) => Math.exp(-((threshold - FIRST_RUNG) ** 2) / (2 * FIRST_SPREAD ** 2))),
  ),
);

/** What is believed after one more answer. */
export function believing(belief: Belief, { rung, right }: RungAnswer): Belief {
  const chances = rightAt(rung);
  return normed(
    belief.map((row, scale) =>
      row.map((likely, at) => {
        const chance = chances[scale]?.[at] ?? 0;
        return likely * (right ? chance : 1 - chance);
      }),
    ),
  );
}

/** What is believed after all of these answers. */
export function beliefAfter(answers: readonly RungAnswer[], begin: Belief = FIRST_BELIEF): Belief {
  return answers.reduce(believing, begin);
}

/** Answers of earlier lessons count as so many of today: the ear learns, and forgets. Our choice. */
const EARLIER_COUNTS = 0.2;
/** Earlier ones than these say nothing of now. Our choice. */
const MOST_EARLIER = 60;

/**
 * What is believed of a listener before the first answer of a lesson, from those of earlier lessons: each counts as a part of
 * one, as in a power prior (Ibrahim & Chen, Statistical Science 15 (2000) 46–60; from memory).
 *
 * @param earlier the oldest first.
 */
export function beliefFrom(earlier: readonly RungAnswer[]): Belief {
  const known = beliefAfter(earlier.slice(-MOST_EARLIER));
  return normed(
    FIRST_BELIEF.map((row, scale) =>
      row.map((first, at) => first * ((known[scale]?.[at] ?? 0) / first) ** EARLIER_COUNTS),
    ),
  );
}

function normed(belief: Belief): Belief {
  const whole = belief.reduce((sum, row) => row.reduce((more, each) => more + each, sum), 0);
  return belief.map((row) => row.map((each) => each / whole));
}

/** Where a listener stands by what is believed. */
export function thresholdOf(belief: Belief): Threshold {
  let mean = 0;
  let square = 0;
  for (const row of belief)
    for (const [at, likely] of row.entries()) {
      const threshold = GRID[at] ?? 0;
      mean += likely * threshold;
      square += likely * threshold ** 2;
    }
  return { rung: mean, give: Math.sqrt(Math.max(0, square - mean ** 2)) };
}

/**
 * The highest rung that is asked after these answers: a few above the highest that was heard. Whoever turns round for the
 * first time hears one drum, not a row of them.
 */
export function highestRung(answers: readonly RungAnswer[]): number {
  const heard = answers.reduce((most, { rung, right }) => (right ? Math.max(most, rung) : most), 0);
  return Math.min(RUNGS.length, heard + RISE);
}

/**
 * The rung of the next question.
 *
 * @param highest see {@link highestRung}; any when not said.
 */
export function nextRung(belief: Belief, highest = RUNGS.length): number {
  const here = thresholdOf(belief).rung;
  let best = 1;
  let least = Number.POSITIVE_INFINITY;
  for (let rung = 1; rung <= highest; rung += 1) {
    if (Math.abs(rung - Math.min(here, highest)) > FAR) continue;
    const { right, variance } = outlook(belief, rung);
    const guess = guessChance(rungAt(rung));
    if ((right - guess) / (1 - guess) < LEAST_HEARD || variance >= least) continue;
    best = rung;
    least = variance;
  }
  return best;
}

/** The chance that the answer to a rung is right, and the variance of the threshold to be expected after it. */
function outlook(belief: Belief, rung: number): { readonly right: number; readonly variance: number } {
  const chances = rightAt(rung);
  let right = 0;
  let rightMean = 0;
  let wrongMean = 0;
  let square = 0;
  for (const [scale, row] of belief.entries())
    for (const [at, likely] of row.entries()) {
      const threshold = GRID[at] ?? 0;
      const heard = likely * (chances[scale]?.[at] ?? 0);
      right += heard;
      rightMean += heard * threshold;
      wrongMean += (likely - heard) * threshold;
      square += likely * threshold ** 2;
    }
  return { right, variance: square - rightMean ** 2 / right - wrongMean ** 2 / (1 - right) };
}
