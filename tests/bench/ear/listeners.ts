/** Simulated listeners, and rules that ask them: what QUEST is measured against. */
import {
  type Belief,
  believing,
  FIRST_BELIEF,
  highestRung,
  nextRung,
  RUNGS,
  type RungAnswer,
  rightChance,
  thresholdOf,
} from "../../../engine/ear/index.ts";
import { type Chance, seededChance } from "../../../engine/units/index.ts";

export interface Listener {
  /** The rung at which half of what is not guessed is heard. */
  readonly threshold: number;
  /** From hearing to guessing, in rungs: the scale of a logistic curve. */
  readonly scale: number;
  /** How often one slips who heard it. */
  readonly slip: number;
}

/** Listeners of all kinds: thresholds over the whole axis, steep and flat, careful and careless. */
export function listeners(count: number, seed: number): readonly Listener[] {
  const chance = seededChance(seed);
  return Array.from({ length: count }, () => ({
    threshold: 2 + chance() * (RUNGS.length - 3),
    scale: 0.4 + chance() * 1.2,
    slip: chance() * 0.06,
  }));
}

export function answerOf({ threshold, scale, slip }: Listener, rung: number, chance: Chance): RungAnswer {
  return { rung, right: chance() < rightChance(rung, threshold, scale, slip) };
}

/** A rule that asks, and says in the end where the listener stands. */
export interface Rule<State> {
  readonly begin: State;
  readonly after: (state: State, answer: RungAnswer) => State;
  readonly next: (state: State) => number;
  readonly estimate: (state: State) => number;
}

/** What is believed, and how high may be asked. */
export interface Asking {
  readonly belief: Belief;
  readonly highest: number;
}

/** The rule of the program. */
export const MINIMUM_VARIANCE: Rule<Asking> = {
  begin: { belief: FIRST_BELIEF, highest: highestRung([]) },
  after: ({ belief, highest }, answer) => ({
    belief: believing(belief, answer),
    highest: Math.max(highest, highestRung([answer])),
  }),
  next: ({ belief, highest }) => nextRung(belief, highest),
  estimate: ({ belief }) => thresholdOf(belief).rung,
};

/** The same belief, asked where the threshold is thought to be. */
export const QUEST_AT_MEAN: Rule<Belief> = {
  begin: FIRST_BELIEF,
  after: believing,
  estimate: (belief) => thresholdOf(belief).rung,
  next: (belief) => Math.min(RUNGS.length, Math.max(1, Math.round(thresholdOf(belief).rung))),
};

/** Where a staircase stands: the rung, right answers in a row, which way it went last, where it turned. */
export interface Stairs {
  readonly rung: number;
  readonly inRow: number;
  readonly way: -1 | 0 | 1;
  readonly turns: readonly number[];
}

/**
 * Two down, one up (Levitt 1971, J. Acoust. Soc. Am. 49, 467–477): harder after two right answers in a row, easier after each
 * wrong one; the estimate is the mean of the rungs at which it turned, without the first ones. It converges where the chance
 * of a right answer is the square root of a half, 70.7 %.
 */
export function twoDownOneUp(begin: number): Rule<Stairs> {
  const moved = ({ rung, way, turns }: Stairs, by: -1 | 1): Stairs => ({
    rung: Math.min(RUNGS.length, Math.max(1, rung + by)),
    inRow: 0,
    way: by,
    turns: way !== 0 && way !== by ? [...turns, rung] : turns,
  });
  return {
    begin: { rung: begin, inRow: 0, way: 0, turns: [] },
    after: (stairs, { right }) => {
      if (!right) return moved(stairs, -1);
      return stairs.inRow === 1 ? moved(stairs, 1) : { ...stairs, inRow: 1 };
    },
    next: ({ rung }) => rung,
    estimate: ({ turns, rung }) => {
      const used = turns.length > 4 ? turns.slice(2) : turns;
      return used.length === 0 ? rung : used.reduce((sum, each) => sum + each, 0) / used.length;
    },
  };
}

/** What a rule says after so many questions, and the share of right answers. */
export function asked<State>(
  rule: Rule<State>,
  listener: Listener,
  count: number,
  chance: Chance,
): { readonly estimate: number; readonly rightShare: number } {
  let state = rule.begin;
  let right = 0;
  for (let question = 0; question < count; question += 1) {
    const answer = answerOf(listener, rule.next(state), chance);
    if (answer.right) right += 1;
    state = rule.after(state, answer);
  }
  return { estimate: rule.estimate(state), rightShare: right / count };
}

/** The rung at which the listener's chance of a right answer, guessing left out, is `share`. */
export function rungOfShare({ threshold, scale }: Listener, share: number): number {
  return threshold + scale * Math.log(1 / share - 1);
}
