/**
 * The measures of beats and tempo that listening is judged by, against the fixtures of mir_eval (Raffel et al., ISMIR
 * 2014) and cases worked from the definitions (Davies, Degara & Plumbley, QMUL C4DM-TR-09-06, 2009).
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { continuity } from "../measures/beatContinuity.ts";
import { cemgil, goto, informationGain, pScore, trimBeats } from "../measures/beatMeasures.ts";
import { BEAT_WINDOW, countMatches, matchEvents, ONSET_WINDOW } from "../measures/eventMatching.ts";
import { accuracy1, accuracy2, tempoDetection } from "../measures/tempoAccuracy.ts";

/** Every second from `from`, `count` times. */
const seconds = (count: number, from = 0, step = 1): readonly number[] =>
  Array.from({ length: count }, (_, index) => from + index * step);

const MEASURES = {
  "F-measure": (reference, estimated) => matchEvents(reference, estimated, BEAT_WINDOW).f,
  Cemgil: cemgil,
  "P-score": pScore,
  Goto: goto,
  CMLc: (reference, estimated) => continuity(reference, estimated).cmlC,
  CMLt: (reference, estimated) => continuity(reference, estimated).cmlT,
  AMLc: (reference, estimated) => continuity(reference, estimated).amlC,
  AMLt: (reference, estimated) => continuity(reference, estimated).amlT,
  "information gain": informationGain,
} satisfies Record<string, (reference: readonly number[], estimated: readonly number[]) => number>;

describe.each(Object.entries(MEASURES))("%s", (_, measure) => {
  // mir_eval tests, beat: identical beats give 1, an empty side gives 0.
  test("is 1 for the same beats", () => {
    expect(measure(seconds(10), seconds(10))).toBeCloseTo(1, 12);
  });
  test("is 0 where either side has no beats", () => {
    expect(measure([], seconds(10))).toBe(0);
    expect(measure(seconds(10), [])).toBe(0);
  });
});

test("beats before five seconds are left out (mir_eval, trim_beats)", () => {
  expect(trimBeats(seconds(10))).toEqual([5, 6, 7, 8, 9]);
});

describe("onsets within 50 ms (mir_eval tests, onset sets)", () => {
  test.each([
    {
      set: "05",
      reference: [0.194467, 1.128639, 2.023878, 4.079728],
      estimated: [0.24381, 1.190023, 2.086893, 4.130249, 4.612063],
      precision: 0.2,
      recall: 0.25,
      f: 0.222222,
    },
    {
      set: "07",
      reference: [0, 0.33, 0.496, 0.65, 0.96, 1.116, 1.278, 1.613, 1.933, 2.109, 2.25],
      estimated: [
        0.312154, 0.454376, 0.605306, 0.9478, 1.072608, 1.252562, 1.568934, 1.888209, 2.065261, 2.248118,
      ],
      precision: 1,
      recall: 0.909091,
      f: 0.952381,
    },
    {
      set: "08",
      reference: [0.15, 0.628, 0.694, 1.141, 1.179, 1.299, 1.632, 2.105],
      estimated: [
        0.177052, 0.20898, 0.484717, 0.690794, 0.812698, 1.19873, 1.253878, 1.367075, 1.689252, 2.162358,
        3.059229,
      ],
      precision: 0.363636,
      recall: 0.5,
      f: 0.421053,
    },
  ])("set $set", ({ reference, estimated, precision, recall, f }) => {
    const matched = matchEvents(reference, estimated, ONSET_WINDOW);
    expect(matched.precision).toBeCloseTo(precision, 6);
    expect(matched.recall).toBeCloseTo(recall, 6);
    expect(matched.f).toBeCloseTo(f, 6);
  });

  test("as many pairs as can be: never fewer than the maximum matching", () => {
    const times = fc
      .array(fc.integer({ min: 0, max: 60 }), { maxLength: 8 })
      .map((ticks) => ticks.map((tick) => tick * 0.02).sort((a, b) => a - b));
    fc.assert(
      fc.property(times, times, (reference, estimated) => {
        expect(countMatches(reference, estimated, 0.051)).toBe(mostPairs(reference, estimated, 0.051));
      }),
    );
  });
});

/** The maximum bipartite matching by augmenting paths (Berge 1957), for comparison. */
function mostPairs(reference: readonly number[], estimated: readonly number[], window: number): number {
  const partner = new Map<number, number>();
  const augment = (own: number, tried: Set<number>): boolean =>
    estimated.some((time, other) => {
      if (tried.has(other) || Math.abs(time - (reference[own] ?? 0)) > window) return false;
      tried.add(other);
      const holder = partner.get(other);
      if (holder !== undefined && !augment(holder, tried)) return false;
      partner.set(other, own);
      return true;
    });
  return reference.filter((_, own) => augment(own, new Set())).length;
}

describe("cases worked from the definitions (computed)", () => {
  const reference = seconds(20);

  test("at double tempo the beats agree at another metrical level only", () => {
    const found = continuity(reference, seconds(39, 0, 0.5));
    expect(found.cmlT).toBe(0);
    expect(found.amlC).toBe(1);
    expect(found.amlT).toBe(1);
    // Twenty of thirty-nine are hits: P = 20/39, R = 1.
    expect(matchEvents(reference, seconds(39, 0, 0.5), BEAT_WINDOW).f).toBeCloseTo(40 / 59, 12);
    expect(goto(reference, seconds(39, 0, 0.5))).toBe(0);
  });

  test("at half the tempo, from the second beat", () => {
    const found = continuity(reference, seconds(10, 1, 2));
    expect(found.cmlT).toBe(0);
    expect(found.amlT).toBe(1);
    expect(matchEvents(reference, seconds(10, 1, 2), BEAT_WINDOW).f).toBeCloseTo(20 / 30, 12);
  });

  test("off the beat throughout", () => {
    const off = seconds(19, 0.5);
    expect(continuity(reference, off)).toEqual({ cmlC: 0, cmlT: 0, amlC: 1, amlT: 1 });
    expect(cemgil(reference, off)).toBeLessThan(1e-12);
    expect(pScore(reference, off)).toBe(0);
    // A constant error is all in one bin: information gain does not care where.
    expect(informationGain(reference, off)).toBeCloseTo(1, 12);
    expect(goto(reference, off)).toBe(0);
  });

  test("40 ms late: Cemgil is exp(−1/2), the rest within their windows", () => {
    const late = seconds(20, 0.04);
    expect(cemgil(reference, late)).toBeCloseTo(Math.exp(-0.5), 12);
    expect(matchEvents(reference, late, BEAT_WINDOW).f).toBe(1);
    expect(continuity(reference, late).cmlC).toBe(1);
    expect(pScore(reference, late)).toBe(1);
    expect(goto(reference, late)).toBe(1);
  });

  test("17 % late is right, 18 % is not", () => {
    expect(continuity(reference, seconds(20, 0.17)).cmlT).toBe(1);
    expect(continuity(reference, seconds(20, 0.18)).cmlT).toBe(0);
    expect(pScore(reference, seconds(20, 0.19))).toBe(1);
    expect(pScore(reference, seconds(20, 0.22))).toBe(0);
  });

  test("one beat in the middle misplaced breaks the run in two, and costs its neighbour's interval", () => {
    const moved = reference.map((time) => (time === 8 ? 8.3 : time));
    const { cmlC, cmlT } = continuity(reference, moved);
    // Beats 8 (phase) and 9 (interval 0.7) are wrong; ten from 10 on are the longest run.
    expect(cmlT).toBe(18 / 20);
    expect(cmlC).toBe(10 / 20);
  });

  test("errors spread over the bins evenly tell nothing", () => {
    const spread = Array.from({ length: 41 }, (_, index) => 10 * index + (index - 20) / 41);
    const ticks = seconds(420, -5);
    // Forward, each error is in a bin of its own: entropy log2(41), the worse direction, gain 0.
    expect(informationGain(ticks, spread)).toBeCloseTo(0, 9);
  });

  test("Goto: right for long enough on end, or not at all", () => {
    const rightFor = (count: number): readonly number[] => seconds(count);
    // Sixty of a hundred: the run with the wrong beat at either end has mean 2/61 and deviation 0.18.
    expect(goto(seconds(100), rightFor(60))).toBe(1);
    // Twenty are no quarter of the ninety-eight between first and last.
    expect(goto(seconds(100), rightFor(20))).toBe(0);
  });
});

describe("accuracy 1 and 2 (Gouyon et al. 2006; rows computed)", () => {
  test.each([
    { estimate: 120, one: true, two: true },
    { estimate: 124.8, one: true, two: true },
    { estimate: 124.9, one: false, two: false },
    { estimate: 115.2, one: true, two: true },
    { estimate: 60, one: false, two: true },
    { estimate: 240, one: false, two: true },
    { estimate: 360, one: false, two: true },
    { estimate: 40, one: false, two: true },
    { estimate: 90, one: false, two: false },
  ])("$estimate against 120", ({ estimate, one, two }) => {
    expect(accuracy1(estimate, 120)).toBe(one);
    expect(accuracy2(estimate, 120)).toBe(two);
  });
});

describe("two tempos (mir_eval tests, tempo)", () => {
  test.each([
    { weight: 0.25, pScore: 0.75 },
    { weight: 0.5, pScore: 0.5 },
    { weight: 0.75, pScore: 0.25 },
  ])("60 and 120 against 120 and 180, weight $weight", ({ weight, pScore }) => {
    expect(tempoDetection([60, 120], weight, [120, 180])).toEqual({
      pScore,
      oneCorrect: true,
      bothCorrect: false,
    });
  });
  test("the same two", () => {
    expect(tempoDetection([60, 120], 0.3, [60, 120])).toEqual({
      pScore: 1,
      oneCorrect: true,
      bothCorrect: true,
    });
  });
});
