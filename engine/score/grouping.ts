/**
 * How the beats of an odd metre are grouped: by twos and threes, as they are counted aloud.
 */
import { isCompound, type Metre } from "./metre.ts";

/** Sizes of groups in order; they add up to the beats of the bar. */
export type Grouping = readonly number[];

/** Beats are felt singly up to four; from five on they are counted in groups, where the metre has no dotted beat. */
const FEWEST_GROUPED = 5;

/**
 * All ways to group a metre by twos and threes; none where its beats are felt singly (up to four, even quarters, or a
 * dotted beat).
 *
 * @example
 * groupingsOf({ numerator: 7, denominator: 8 }) // => [[2, 2, 3], [2, 3, 2], [3, 2, 2]]
 */
export function groupingsOf(metre: Metre): readonly Grouping[] {
  const { numerator, denominator } = metre;
  const isOdd = numerator % 2 === 1;
  if (isCompound(metre) || numerator < FEWEST_GROUPED || (!isOdd && denominator < 8)) return [];
  return inTwosAndThrees(numerator);
}

function inTwosAndThrees(beats: number): readonly Grouping[] {
  if (beats === 0) return [[]];
  return [2, 3]
    .filter((first) => first <= beats)
    .flatMap((first) => inTwosAndThrees(beats - first).map((rest) => [first, ...rest]));
}

/** Groupings met most often: common practice, no source. Others begin with their threes. */
const USUAL: Readonly<Record<number, Grouping>> = { 5: [3, 2], 7: [2, 2, 3], 8: [3, 3, 2] };

/**
 * The grouping a metre is usually counted in; the whole bar as one group where its beats are felt singly.
 *
 * @example
 * usualGrouping({ numerator: 5, denominator: 4 }) // => [3, 2]
 */
export function usualGrouping(metre: Metre): Grouping {
  const all = groupingsOf(metre);
  if (all.length === 0) return [metre.numerator];
  const threesFirst = all.reduce((best, next) => (threesBefore(next) > threesBefore(best) ? next : best));
  return USUAL[metre.numerator] ?? threesFirst;
}

function threesBefore(grouping: Grouping): number {
  const rest = grouping.findIndex((size) => size !== 3);
  return rest === -1 ? grouping.length : rest;
}

/**
 * The beats on which groups begin, counted from 1.
 *
 * @example
 * groupStarts([2, 2, 3]) // => [1, 3, 5]
 */
export function groupStarts(grouping: Grouping): readonly number[] {
  let beat = 1;
  return grouping.map((size) => {
    const start = beat;
    beat += size;
    return start;
  });
}

/** "2 + 2 + 3" */
export function groupsName(grouping: Grouping): string {
  return grouping.join(" + ");
}
