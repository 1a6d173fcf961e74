/**
 * Distances between rhythms, against the literature.
 *
 * Patterns: the six 4/4 timelines of Toussaint, "A mathematical analysis of African, Brazilian and Cuban clave rhythms",
 * Bridges 2002, 157–168 (son as printed there: struck at 0, 3, 6, 10 and 12 of 16; the others from memory).
 * Distances between them: computed by hand from the definitions there and in Toussaint, "A comparison of rhythmic similarity
 * measures", Technical Report SOCS-TR-2004.6, McGill University, August 2004; that the son is most like all the others is
 * the paper's own finding (abstract of Bridges 2002). Edit distance: Levenshtein's own example is common property.
 */
import { describe, expect, test } from "vitest";
import {
  chronotonicDistance,
  editDistance,
  hammingDistance,
  onsetPattern,
  PatternError,
  swapDistance,
} from "../../engine/trading/index.ts";

const TIMELINES = {
  shiko: "x...x.x...x.x...",
  son: "x..x..x...x.x...",
  soukous: "x..x..x...xx....",
  rumba: "x..x...x..x.x...",
  bossa: "x..x..x...x..x..",
  gahu: "x..x..x...x...x.",
} as const;
type Timeline = keyof typeof TIMELINES;
const NAMES = Object.keys(TIMELINES) as Timeline[];

const between = (distance: typeof swapDistance, a: Timeline, b: Timeline): number | null =>
  distance(onsetPattern(TIMELINES[a]), onsetPattern(TIMELINES[b]));

describe("swap distance: strokes change places with the silence beside them", () => {
  test.each([
    ["shiko", "son", 1],
    ["son", "soukous", 1],
    ["son", "rumba", 1],
    ["son", "bossa", 1],
    ["son", "gahu", 2],
    ["shiko", "soukous", 2],
    ["shiko", "rumba", 2],
    ["shiko", "bossa", 2],
    ["shiko", "gahu", 3],
    ["soukous", "rumba", 2],
    ["soukous", "bossa", 2],
    ["soukous", "gahu", 3],
    ["rumba", "bossa", 2],
    ["rumba", "gahu", 3],
    ["bossa", "gahu", 1],
  ] as const)("%s and %s: %i", (a, b, swaps) => {
    expect(between(swapDistance, a, b)).toBe(swaps);
    expect(between(swapDistance, b, a)).toBe(swaps);
  });

  test("with unequal numbers every stroke goes somewhere and no place is left without one (from memory)", () => {
    // x.x.x.x. to x...x...: 0 and 2 go to 0, 4 and 6 go to 4.
    expect(swapDistance(onsetPattern("x.x.x.x."), onsetPattern("x...x..."))).toBe(4);
    expect(swapDistance(onsetPattern("xxx....."), onsetPattern("x......."))).toBe(3);
    expect(swapDistance(onsetPattern("x......."), onsetPattern("........"))).toBeNull();
    expect(swapDistance(onsetPattern("...."), onsetPattern("...."))).toBe(0);
  });
});

describe("chronotonic distance: the area between the chains of intervals", () => {
  // Each pulse as high as the interval it lies in is long, written out from the patterns by hand.
  const CHAINS = {
    shiko: "4444224444224444",
    son: "3333334444224444",
    rumba: "3334444333224444",
    bossa: "3333334444333333",
  } as const;
  test.each([
    ["shiko", "son", 6],
    ["son", "rumba", 6],
    ["son", "bossa", 6],
    ["rumba", "bossa", 12],
  ] as const)("%s and %s: %i", (a, b, area) => {
    expect(between(chronotonicDistance, a, b)).toBe(area);
    const written = [...CHAINS[a]].map((height, at) => Math.abs(Number(height) - Number(CHAINS[b][at])));
    expect(written.reduce((sum, difference) => sum + difference, 0)).toBe(area);
  });
});

describe("the son is most like all the others (Toussaint 2002, abstract)", () => {
  const sums = (distance: typeof swapDistance) =>
    NAMES.map((name) => NAMES.reduce((sum, other) => sum + (between(distance, name, other) ?? 0), 0));
  test.each([
    ["swap", swapDistance],
    ["chronotonic", chronotonicDistance],
    ["Hamming", hammingDistance],
  ] as const)("by %s distance", (_, distance) => {
    const all = sums(distance);
    expect(all[NAMES.indexOf("son")]).toBe(Math.min(...all));
  });
});

describe("Hamming and edit distance", () => {
  test("a stroke moved differs at two pulses (Hamming 1950)", () => {
    expect(between(hammingDistance, "son", "rumba")).toBe(2);
    expect(between(hammingDistance, "shiko", "soukous")).toBe(4);
  });

  test("kitten and sitting (Levenshtein 1966; the textbook example)", () => {
    expect(editDistance([..."kitten"], [..."sitting"])).toBe(3);
    expect(editDistance([..."saturday"], [..."sunday"])).toBe(3);
    expect(editDistance([], [..."abc"])).toBe(3);
  });

  test("a stroke moved by one pulse is taken out and put in again", () => {
    expect(editDistance(onsetPattern(TIMELINES.son), onsetPattern(TIMELINES.rumba))).toBe(2);
  });
});

test("patterns of unequal length are refused", () => {
  expect(() => hammingDistance(onsetPattern("x.x."), onsetPattern("x.x"))).toThrow(PatternError);
});
