/**
 * What is asked when learning to name: a take, the known grooves, and which of them it is.
 */
import type { Hit } from "../../engine/kit/index.ts";
import type { Stock } from "../../engine/listening/index.ts";
import { namingFeatures, standingOutMost, strokesOfHits, weigh } from "../../engine/listening/learning.ts";
import type { Question } from "./regression.ts";

/**
 * One question, or none where nothing is heard: the features of each candidate, and whether naming none is right.
 *
 * @param truth ids any of which is right; none is where the stock has none of them.
 */
export function question(
  hits: readonly Hit[],
  stock: Stock,
  truth: readonly string[],
  kind: string,
): readonly Question[] {
  const weighed = weigh(strokesOfHits(hits), stock);
  if (!weighed) return [];
  const first = standingOutMost(weighed.placed);
  const features = namingFeatures(first, weighed.bars).map((own) => Float64Array.from(own));
  const inStock = stock.grooves.some(({ id }) => truth.includes(id));
  const right = first.map(({ known }) => truth.includes(known.id));
  // Known, but not among the first: no candidate is right, and none would be wrong too.
  if (inStock && !right.includes(true)) return [];
  return [{ group: kind, features, right, noneIsRight: !inStock }];
}
