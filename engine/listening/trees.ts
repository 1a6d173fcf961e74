/**
 * Question: what do features come to, asked one after the other?
 * Method: boosted regression trees (Friedman 2001). Each tree asks whether a feature is above a limit, by the answer another,
 * and so on until it ends at a number; the numbers at which all trees end are summed. What one feature says can so depend on
 * others, and a value far out says no more than one just above the last limit.
 */
import { z } from "zod";

/** The schema of one learnt tree. */
export const treeSchema = z
  .object({
    /** By question, the first being asked first: the number of the feature. */
    asked: z.array(z.int().min(0)),
    limits: z.array(z.number()),
    /** What follows where the feature is not above its limit, and where it is: a later question, or the end numbered -1 - `next`. */
    below: z.array(z.int()),
    above: z.array(z.int()),
    ends: z.array(z.number()).min(1),
  })
  .refine(
    ({ asked, limits, below, above, ends }) =>
      [limits, below, above].every(({ length }) => length === asked.length) &&
      [below, above].every((nexts) =>
        nexts.every((next, own) => (next < 0 ? -1 - next < ends.length : next > own && next < asked.length)),
      ),
    "A tree must lead from each question to a later one or to an end.",
  );
export type Tree = Readonly<z.infer<typeof treeSchema>>;

/** Trees laid out one behind the other, quick to be asked. */
export interface Trees {
  /** Of each tree, the number of its first question; or, of one that asks nothing, of its end: -1 - `first`. */
  readonly first: Int32Array;
  readonly asked: Int32Array;
  readonly limits: Float64Array;
  readonly below: Int32Array;
  readonly above: Int32Array;
  readonly ends: Float64Array;
}

/** Readies trees to be asked. */
export function laidOut(trees: readonly Tree[]): Trees {
  const questionsBefore = runningCounts(trees.map(({ asked }) => asked.length));
  const endsBefore = runningCounts(trees.map(({ ends }) => ends.length));
  const moved = (next: number, tree: number): number =>
    next < 0 ? next - (endsBefore[tree] ?? 0) : next + (questionsBefore[tree] ?? 0);
  return {
    first: Int32Array.from(trees, ({ asked }, tree) => moved(asked.length > 0 ? 0 : -1, tree)),
    asked: Int32Array.from(trees.flatMap(({ asked }) => asked)),
    limits: Float64Array.from(trees.flatMap(({ limits }) => limits)),
    below: Int32Array.from(trees.flatMap(({ below }, tree) => below.map((next) => moved(next, tree)))),
    above: Int32Array.from(trees.flatMap(({ above }, tree) => above.map((next) => moved(next, tree)))),
    ends: Float64Array.from(trees.flatMap(({ ends }) => ends)),
  };
}

/** How many there are before each. */
function runningCounts(counts: readonly number[]): readonly number[] {
  let before = 0;
  return counts.map((count) => {
    const here = before;
    before += count;
    return here;
  });
}

/**
 * The sum of the numbers at which the trees end.
 *
 * @example
 * sumOfTrees([3], laidOut([{ asked: [0], limits: [2], below: [-1], above: [-2], ends: [0.5, 7] }])) // => 7
 */
export function sumOfTrees(features: readonly number[], trees: Trees): number {
  const { first, asked, limits, below, above, ends } = trees;
  let sum = 0;
  for (let tree = 0; tree < first.length; tree += 1) {
    let at = first[tree] ?? -1;
    while (at >= 0) {
      const isAbove = (features[asked[at] ?? 0] ?? 0) > (limits[at] ?? 0);
      at = (isAbove ? above[at] : below[at]) ?? -1;
    }
    sum += ends[-1 - at] ?? 0;
  }
  return sum;
}
