/** What Back Turned says, on the page and on the wall. */
import type { Moments, Threshold } from "../../../engine/ear/index.ts";
import { RUNGS, rungAt } from "../../../engine/ear/index.ts";
import type { Question } from "../../../engine/rounds/index.ts";

const NUMBERS = ["", "one", "two", "three", "four", "five", "six", "seven", "eight"] as const;

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** What is asked, without a word of what it is. */
export function askedWords({ moments }: Pick<Question, "moments">): string {
  const [first] = moments;
  const isTouch = first?.some(({ touch }) => touch !== undefined) ?? false;
  if (isTouch) return "What was it, and loud or soft?";
  const together = isTogether(moments);
  if (moments.length === 1) return together ? "Which two at once?" : "What was it?";
  return `Which ${NUMBERS[moments.length]}, in their order?${together ? " Two at once each time." : ""}`;
}

/** Whether two sound at once. */
export function isTogether(moments: Moments): boolean {
  return moments.some((moment) => moment.length > 1);
}

/** Where a listener stands, in words. */
export function standsWords({ rung, give }: Threshold): string {
  const number = Math.min(RUNGS.length, Math.max(1, Math.round(rung)));
  const sure = give < 1 ? "" : give < 2.5 ? ", give or take two" : ", still open";
  return `About step ${number} of ${RUNGS.length}${sure}: ${rungAt(number).words}.`;
}
