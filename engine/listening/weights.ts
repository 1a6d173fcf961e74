/**
 * Question: what do features come to, weighed?
 * Method: a sum of what was learnt. A feature beyond what most takes show says no more than one at that limit: what is
 * far out was seldom met in learning, and would speak louder than all else.
 */
import { z } from "zod";

/** The schema of one learnt weight. */
export const weightSchema = z.object({
  weight: z.number(),
  /** Values below and above are told alike. */
  low: z.number(),
  high: z.number(),
});
export type Weight = Readonly<z.infer<typeof weightSchema>>;

/**
 * The weighed sum of features in the order of their weights.
 *
 * @example
 * weighed([2, 9], [{ weight: 3, low: 0, high: 5 }, { weight: 1, low: 0, high: 5 }]) // => 11
 */
export function weighed(features: readonly number[], weights: readonly Weight[]): number {
  let sum = 0;
  for (let at = 0; at < features.length; at += 1) {
    const own = weights[at];
    if (own) sum += own.weight * Math.min(own.high, Math.max(own.low, features[at] ?? 0));
  }
  return sum;
}
