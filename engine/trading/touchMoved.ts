/**
 * Question: which strokes of the answer are accented or ghosted where the call's are not?
 *
 * Two players, or two kits, differ in strength as a whole, so each stroke is taken against its own side's plain stroke, and
 * the difference between the sides against what is usual between them.
 */
import { GHOSTED_BELOW, PLAIN_HEAVY_ABOVE } from "../grading/index.ts";
import type { Dynamic } from "../score/index.ts";
import { median, type Velocity } from "../units/index.ts";
import type { PhraseStroke } from "./phraseStrokes.ts";

export interface MovedTouch {
  /** Place of the stroke in the call. */
  readonly index: number;
  readonly called: Dynamic;
  readonly answered: Dynamic;
}

/** A stroke's touch has moved when it is this much stronger or softer beside the call's. Our choice. */
const MOVED_RATIO = 1.45;
/** Strengths are compared from so many pairs on; with fewer nobody's plain stroke is known. Our choice. */
const FEWEST_PAIRS = 3;

/** In the order given. Nothing where one side sends one strength for all. */
export function touchMoved(
  pairs: readonly { readonly called: PhraseStroke; readonly answered: PhraseStroke }[],
): readonly MovedTouch[] {
  if (pairs.length < FEWEST_PAIRS) return [];
  const plainCalled = plainOf(pairs.map(({ called }) => called.velocity));
  const plainAnswered = plainOf(pairs.map(({ answered }) => answered.velocity));
  const ratios = pairs.map(({ called, answered }) => Math.log(answered.velocity / called.velocity));
  const usual = median(ratios);
  return pairs.flatMap(({ called, answered }, at) => {
    const difference = Math.abs((ratios[at] ?? usual) - usual);
    const was = touchOf(called.velocity, plainCalled);
    const is = touchOf(answered.velocity, plainAnswered);
    return was === is || difference < Math.log(MOVED_RATIO)
      ? []
      : [{ index: called.index, called: was, answered: is }];
  });
}

function plainOf(velocities: readonly Velocity[]): Velocity {
  return median(velocities);
}

function touchOf(velocity: Velocity, plain: Velocity): Dynamic {
  if (velocity < GHOSTED_BELOW * plain) return "ghost";
  return velocity > PLAIN_HEAVY_ABOVE * plain ? "accent" : "plain";
}
