/**
 * The staircase the program's own rule is measured against, checked against its paper: two down, one up converges on the level
 * at which the chance of a right answer is 70.7 % (Levitt, J. Acoust. Soc. Am. 49 (1971) 467–477, table I: 0.707, from memory).
 */
import { expect, test } from "vitest";
import { seededChance } from "../../engine/units/index.ts";
import { answerOf, twoDownOneUp } from "../bench/ear/listeners.ts";

const QUESTIONS = 60_000;

/** As the paper's table has it, rounded. */
const PAPER = Number("0.707");

test("two right answers in a row are as likely as not there: it is the square root of a half", () => {
  expect(Math.SQRT1_2).toBeCloseTo(PAPER, 3);
});

test.each([
  // Where rungs cannot be guessed, in the long rows; flat enough that a step of one rung is small.
  ["flat", { threshold: 16, scale: 2.2, slip: 0 }],
  ["without a slip, less flat", { threshold: 15.4, scale: 1.8, slip: 0 }],
])("a listener %s answers 70.7 in 100 rightly", (_, listener) => {
  const chance = seededChance(5);
  const rule = twoDownOneUp(12);
  let stairs = rule.begin;
  let right = 0;
  for (let question = 0; question < QUESTIONS; question += 1) {
    const answer = answerOf(listener, rule.next(stairs), chance);
    if (answer.right) right += 1;
    stairs = rule.after(stairs, answer);
  }
  // A step of one rung asks a little above and below: within two in a hundred.
  expect(Math.abs(right / QUESTIONS - PAPER)).toBeLessThan(0.02);
});
