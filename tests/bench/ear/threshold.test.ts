/** How soon it is known where a listener stands: simulated listeners of all kinds, forty questions each. */
import { describe, expect, test } from "vitest";
import { seededChance } from "../../../engine/units/index.ts";
import {
  asked,
  type Listener,
  listeners,
  MINIMUM_VARIANCE,
  QUEST_AT_MEAN,
  type Rule,
  rungOfShare,
  twoDownOneUp,
} from "./listeners.ts";

const QUESTIONS = 40;
const LISTENERS = 600;

interface Told {
  /** The share of listeners within a tenth of their threshold. */
  readonly within: number;
  /** The middle error, as a share of the threshold; and in rungs. */
  readonly middle: number;
  readonly rungs: number;
  readonly rightShare: number;
}

function told<State>(name: string, rule: Rule<State>, truth: (listener: Listener) => number): Told {
  const chance = seededChance(11);
  const all = listeners(LISTENERS, 7).map((listener) => {
    const { estimate, rightShare } = asked(rule, listener, QUESTIONS, chance);
    const true_ = truth(listener);
    return { error: Math.abs(estimate - true_), share: Math.abs(estimate - true_) / true_, rightShare };
  });
  const middle = (of: readonly number[]): number =>
    of.toSorted((a, b) => a - b)[of.length >> 1] ?? Number.NaN;
  const result = {
    within: all.filter(({ share }) => share <= 0.1).length / all.length,
    middle: middle(all.map(({ share }) => share)),
    rungs: middle(all.map(({ error }) => error)),
    rightShare: all.reduce((sum, each) => sum + each.rightShare, 0) / all.length,
  };
  console.log(
    `ear: ${name}: ${result.within.toFixed(3)} within a tenth, middle error ${result.middle.toFixed(3)}, ${result.rungs.toFixed(2)} rungs; ${result.rightShare.toFixed(2)} right`,
  );
  return result;
}

describe(`${LISTENERS} listeners, ${QUESTIONS} questions`, () => {
  const here = told("minimum variance", MINIMUM_VARIANCE, ({ threshold }) => threshold);

  test("the middle listener is known to less than a tenth", () => {
    expect(here.middle).toBeLessThan(0.1);
  });

  // The target is all listeners; those who guess every other answer or go slowly from hearing to guessing take longer.
  test("most listeners are: what is reached is not lost", () => {
    expect(here.within).toBeGreaterThan(0.8);
  });

  test("a listener hears more than is missed", () => {
    expect(here.rightShare).toBeGreaterThan(0.6);
  });

  test("it knows more than two-down one-up, and no less than asking at the mean", () => {
    const stairs = told("two-down one-up", twoDownOneUp(4), (each) => rungOfShare(each, Math.SQRT1_2));
    const mean = told("QUEST at its mean", QUEST_AT_MEAN, ({ threshold }) => threshold);
    expect(here.within).toBeGreaterThan(stairs.within);
    expect(here.within).toBeGreaterThan(mean.within - 0.02);
  });
});
