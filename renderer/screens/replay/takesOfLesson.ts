/** Which take is looked at, and which lie next to it. */
import { hitsOfTake, type LessonState, type TakeState } from "../../../engine/session/index.ts";
import type { Seconds } from "../../../engine/units/index.ts";
import type { Moments } from "./moments.ts";

/** All takes, in the order they began. */
export function takesOf({ rounds }: Pick<LessonState, "rounds">): readonly TakeState[] {
  return rounds.flatMap(({ takes }) => takes).toSorted((a, b) => a.from - b.from);
}

/**
 * The take that goes on at a kit as the lesson stands at a moment, else the last one that ended there; `undefined` before
 * the first.
 */
export function takeAtOrBefore(at: Pick<LessonState, "rounds">, lane: number): TakeState | undefined {
  return takesOf(at).findLast((take) => take.lane === lane);
}

/**
 * One comes so long before a take, so that its first stroke is neither cut off nor over before one listens. Our choice:
 * about as long as a breath before one plays.
 */
export const LEAD_IN: Seconds = 0.5;

/** Where a take is looked at from: half a second before it, and before its first strike, at the earliest where the lesson begins. */
export function leadIn(start: Seconds): Seconds {
  return Math.max(0, start - LEAD_IN);
}

/** Where a take begins to be heard: a stroke ahead of the click may have come before it was told that it begins. */
export function takeStart(take: TakeState, { events }: Pick<Moments, "events">): Seconds {
  return hitsOfTake(events, take).reduce((first, { time }) => Math.min(first, time), take.from);
}

/** A little before a kit's take after a moment, or the one before it. */
export function takeFrom(
  moments: Pick<Moments, "whole" | "events">,
  time: Seconds,
  { way, lane }: { readonly way: "on" | "back"; readonly lane: number },
): Seconds | undefined {
  const starts = takesOf(moments.whole).flatMap((take) =>
    take.lane === lane ? [leadIn(takeStart(take, moments))] : [],
  );
  // Going back from within a take leads to its own beginning first.
  return way === "on"
    ? starts.find((from) => from > time + SAME)
    : starts.findLast((from) => from < time - SAME);
}

/** The cursor counts as on the beginning of a take up to so far from it. Our choice. */
const SAME: Seconds = 0.05;

/** Its number in the lesson, from 1. */
export function numberOf(lesson: Pick<LessonState, "rounds">, take: Pick<TakeState, "takeId">): number {
  return takesOf(lesson).findIndex(({ takeId }) => takeId === take.takeId) + 1;
}
