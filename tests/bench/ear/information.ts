/**
 * Question: how well could any rule know where a listener stands after so many questions?
 *
 * Method: an answer to a rung tells of the threshold as much as its Fisher information, p′² / (p (1 − p)), p being the chance
 * of a right answer and p′ how fast it changes with the threshold. No unbiased estimate has a smaller variance than one over
 * the sum of them (Cramér–Rao), here for who knows how steep the listener is and how often a slip happens, and asks the one
 * rung that tells most from the first question on. The estimate is taken to be normal, as that of most likelihood is with
 * many questions.
 */
import { guessChance, RUNGS, rightChance, rungAt } from "../../../engine/ear/index.ts";
import { withinNormal } from "../../measures/normal.ts";
import type { Listener } from "./listeners.ts";

/** What one answer to a rung tells of this listener's threshold, per rung squared. */
export function information({ threshold, scale, slip }: Listener, rung: number): number {
  const guess = guessChance(rungAt(rung));
  const heard = 1 / (1 + Math.exp((rung - threshold) / scale));
  const slope = ((1 - guess - slip) * heard * (1 - heard)) / scale;
  const right = rightChance(rung, threshold, scale, slip);
  return slope ** 2 / (right * (1 - right));
}

/** What the rung that tells most tells, of those that are heard, not guessed, at least this often. */
export function mostInformation(listener: Listener, leastHeard: number): number {
  const { threshold, scale, slip } = listener;
  return Math.max(
    ...RUNGS.map((_, place) => {
      const guess = guessChance(rungAt(place + 1));
      const right = rightChance(place + 1, threshold, scale, slip);
      return (right - guess) / (1 - guess) < leastHeard ? 0 : information(listener, place + 1);
    }),
  );
}

/** The share of listeners of whom the estimate would be within a tenth of the threshold: no rule reaches more. */
export function bestShareWithin(all: readonly Listener[], questions: number, leastHeard = 0): number {
  const shares = all.map((listener) =>
    withinNormal(0.1 * listener.threshold * Math.sqrt(questions * mostInformation(listener, leastHeard))),
  );
  return shares.reduce((sum, share) => sum + share, 0) / all.length;
}
