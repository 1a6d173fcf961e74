import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { laidOut, sumOfTrees, type Tree, treeSchema } from "../../../engine/listening/trees.ts";

/** Asks for the first feature; where it is above 2, for the second. */
const TWO_QUESTIONS: Tree = {
  asked: [0, 1],
  limits: [2, -1],
  below: [-1, -2],
  above: [1, -3],
  ends: [0.5, 10, 100],
};
const ASKS_NOTHING: Tree = { asked: [], limits: [], below: [], above: [], ends: [-4] };

describe("the sum of trees", () => {
  test.each([
    { features: [1, 0], trees: [TWO_QUESTIONS], sum: 0.5 },
    { features: [2, 0], trees: [TWO_QUESTIONS], sum: 0.5 },
    { features: [2.1, -1], trees: [TWO_QUESTIONS], sum: 10 },
    { features: [2.1, 0], trees: [TWO_QUESTIONS], sum: 100 },
    { features: [1e9, 1e9], trees: [TWO_QUESTIONS], sum: 100 },
    { features: [7], trees: [ASKS_NOTHING], sum: -4 },
    { features: [3, 3], trees: [ASKS_NOTHING, TWO_QUESTIONS, TWO_QUESTIONS, ASKS_NOTHING], sum: 192 },
    { features: [], trees: [TWO_QUESTIONS], sum: 0.5 },
    { features: [1], trees: [], sum: 0 },
  ])("of $trees.length trees for $features is $sum", ({ features, trees, sum }) => {
    expect(sumOfTrees(features, laidOut(trees))).toBeCloseTo(sum, 12);
  });

  test("is that of each tree alone, in any order", () => {
    const tree = fc
      .record({ feature: fc.nat(3), limit: fc.integer({ min: -5, max: 5 }), ends: fc.tuple(whole, whole) })
      .map(
        ({ feature, limit, ends }): Tree => ({
          asked: [feature],
          limits: [limit],
          below: [-1],
          above: [-2],
          ends,
        }),
      );
    fc.assert(
      fc.property(
        fc.array(fc.oneof(tree, fc.constant(TWO_QUESTIONS), fc.constant(ASKS_NOTHING)), { maxLength: 8 }),
        fc.array(whole, { minLength: 4, maxLength: 4 }),
        (trees, features) => {
          const alone = trees.map((one) => sumOfTrees(features, laidOut([one])));
          const sum = alone.reduce((all, one) => all + one, 0);
          expect(sumOfTrees(features, laidOut(trees))).toBeCloseTo(sum, 9);
          expect(sumOfTrees(features, laidOut([...trees].reverse()))).toBeCloseTo(sum, 9);
        },
      ),
    );
  });
});
const whole = fc.integer({ min: -9, max: 9 });

describe("a tree is refused that", () => {
  test.each([
    ["leads back to its own question", { ...TWO_QUESTIONS, above: [0, -3] }],
    ["leads to an earlier one", { ...TWO_QUESTIONS, above: [1, 0] }],
    ["leads to no question", { ...TWO_QUESTIONS, above: [2, -3] }],
    ["leads to no end", { ...TWO_QUESTIONS, above: [1, -4] }],
    ["has no end", { ...ASKS_NOTHING, ends: [] }],
    ["has fewer limits than questions", { ...TWO_QUESTIONS, limits: [2] }],
    ["asks for no feature", { ...TWO_QUESTIONS, asked: [-1, 1] }],
  ])("%s", (_name, tree) => {
    expect(treeSchema.safeParse(tree).success).toBe(false);
  });

  test("leads from question to end it is not", () => {
    expect(treeSchema.parse(TWO_QUESTIONS)).toEqual(TWO_QUESTIONS);
    expect(treeSchema.parse(ASKS_NOTHING)).toEqual(ASKS_NOTHING);
  });
});
