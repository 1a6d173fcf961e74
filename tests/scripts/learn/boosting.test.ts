import { describe, expect, test } from "vitest";
import { laidOut, sumOfTrees, type Tree, treeSchema } from "../../../engine/listening/trees.ts";
import { type Chance, seededChance } from "../../../engine/units/index.ts";
import { type Boosting, learnTrees } from "../../../scripts/learn/boosting.ts";
import type { Question } from "../../../scripts/learn/regression.ts";

const HOW: Boosting = { trees: 60, ends: 6, fewest: 20, step: 0.2, ridge: 1, features: 1, questions: 1 };

const CANDIDATES = 3;

/** Of three with three features each, the one that this has most of is right. */
function answered(
  count: number,
  chance: Chance,
  worth: (features: readonly number[]) => number,
): readonly Question[] {
  return Array.from({ length: count }, (_, number) => {
    const features = Array.from({ length: CANDIDATES }, () => [chance(), chance(), chance()] as const);
    const worths = features.map(worth);
    const most = worths.indexOf(Math.max(...worths));
    return {
      group: `${number}`,
      features: features.map((own) => Float64Array.from(own)),
      right: features.map((_own, each) => each === most),
    };
  });
}

function shareRight(questions: readonly Question[], trees: readonly Tree[]): number {
  const grown = laidOut(trees);
  const told = questions.filter(({ features, right }) => {
    const sums = features.map((own) => sumOfTrees([...own], grown));
    return right[sums.indexOf(Math.max(...sums))];
  });
  return told.length / questions.length;
}

/** What no weights tell: whether the first two features lie on the same side. */
const together = ([first = 0, second = 0]: readonly number[]): number => (first - 0.5) * (second - 0.5);

describe("learning trees", () => {
  const learnt = learnTrees(answered(1500, seededChance(1), together), HOW, seededChance(2));
  const asked = answered(600, seededChance(3), together);

  test("finds what hangs on two features at once", () => {
    expect(shareRight(asked, learnt)).toBeGreaterThan(0.85);
    // By chance one in three.
    expect(shareRight(asked, [])).toBeLessThan(0.45);
  });

  test("more trees tell more, till there is no more to tell", () => {
    const [few, some] = [learnt.slice(0, 3), learnt.slice(0, 20)].map((trees) => shareRight(asked, trees));
    expect(few ?? 1).toBeLessThan(some ?? 0);
  });

  test("makes trees that can be kept, of the ends asked for", () => {
    expect(learnt.length).toBe(HOW.trees);
    for (const tree of learnt) {
      expect(treeSchema.parse(tree)).toEqual(tree);
      expect(tree.ends.length).toBe(tree.asked.length + 1);
      expect(tree.ends.length).toBeLessThanOrEqual(HOW.ends);
    }
  });

  test("asks little of features that tell nothing", () => {
    const counts = [0, 0, 0];
    for (const { asked: features } of learnt.slice(0, 20))
      for (const feature of features) counts[feature] = (counts[feature] ?? 0) + 1;
    expect(counts[2] ?? Number.NaN).toBeLessThan(0.3 * Math.min(counts[0] ?? 0, counts[1] ?? 0));
  });

  test("gives the same trees for the same chance, others for another", () => {
    const few = answered(80, seededChance(4), together);
    const how = { ...HOW, trees: 5, features: 0.6, questions: 0.5 };
    const trees = (seed: number) => learnTrees(few, how, seededChance(seed));
    expect(trees(1)).toEqual(trees(1));
    expect(trees(1)).not.toEqual(trees(2));
  });

  test("parts no fewer than are asked for", () => {
    const few = answered(10, seededChance(5), together);
    const trees = learnTrees(few, { ...HOW, fewest: 16 }, seededChance(1));
    expect(trees.every(({ asked: none }) => none.length === 0)).toBe(true);
  });

  test("believes a group of many questions less than many groups of one", () => {
    const first = (group: string, right: "first" | "other"): Question => ({
      group,
      features: [Float64Array.of(1), Float64Array.of(-1)],
      right: [right === "first", right === "other"],
    });
    const many = Array.from({ length: 60 }, () => first("one take", "other"));
    const alone = Array.from({ length: 40 }, (_, index) => first(`take ${index}`, "first"));
    const trees = laidOut(learnTrees([...many, ...alone], { ...HOW, fewest: 2 }, seededChance(1)));
    expect(sumOfTrees([1], trees)).toBeGreaterThan(sumOfTrees([-1], trees));
    const alike = [...many.map((own, index) => ({ ...own, group: `more ${index}` })), ...alone];
    const outvoted = laidOut(learnTrees(alike, { ...HOW, fewest: 2 }, seededChance(1)));
    expect(sumOfTrees([1], outvoted)).toBeLessThan(sumOfTrees([-1], outvoted));
  });
});
