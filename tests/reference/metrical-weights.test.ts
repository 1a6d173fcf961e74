/**
 * The strength of places in the bar: published weights, and whether the bars that listening has learnt from human takes
 * follow them.
 * Sources: Longuet-Higgins & Lee, Music Perception 1 (1984) 424–441, values as used by Fitch & Rosenfeld, Music Perception
 * 25 (2007) 43–58; Palmer & Krumhansl, J. Exp. Psych.: HPP 16 (1990) 728–741 (the order only: no numeric profile could be
 * re-read).
 */
import { describe, expect, test } from "vitest";
import { shippedBackground } from "../../engine/listening/background.ts";
import { PLACES_PER_BEAT, ROLE_COUNT } from "../../engine/listening/learning.ts";
import { rolesOf } from "../../engine/listening/roles.ts";
import { metricalWeights, syncopation } from "../measures/metricalWeights.ts";

const SIXTEENTHS_OF_FOUR = metricalWeights([2, 2, 2, 2]);

describe("the weights", () => {
  test.each([
    {
      bar: "4/4 in sixteenths",
      divisions: [2, 2, 2, 2],
      weights: [0, -4, -3, -4, -2, -4, -3, -4, -1, -4, -3, -4, -2, -4, -3, -4],
    },
    { bar: "3/4 in eighths", divisions: [3, 2], weights: [0, -2, -1, -2, -1, -2] },
    { bar: "6/8 in eighths", divisions: [2, 3], weights: [0, -2, -2, -1, -2, -2] },
  ])("$bar", ({ divisions, weights }) => {
    expect(metricalWeights(divisions)).toEqual(weights);
  });
});

describe("syncopation by them, round and round", () => {
  // Computed from the definition in Fitch & Rosenfeld 2007; the son is worked there step by step in check-values 8.4.
  test.each([
    { name: "quarters", steps: "x...x...x...x...", score: 0 },
    { name: "off-beat eighths", steps: "..x...x...x...x.", score: 7 },
    { name: "shiko", steps: "x...x.x...x.x...", score: 2 },
    { name: "son", steps: "x..x..x...x.x...", score: 4 },
    { name: "rumba", steps: "x..x...x..x.x...", score: 5 },
    { name: "soukous", steps: "x..x..x...xx....", score: 6 },
    { name: "gahu", steps: "x..x..x...x...x.", score: 5 },
    { name: "bossa nova", steps: "x..x..x...x..x..", score: 6 },
  ])("$name: $score", ({ steps, score }) => {
    expect(
      syncopation(
        [...steps].map((mark) => mark === "x"),
        SIXTEENTHS_OF_FOUR,
      ),
    ).toBe(score);
  });
});

describe("the average bar of four that listening has learnt", () => {
  const average = shippedBackground().average.get(4) ?? new Float64Array();
  const places = average.length / ROLE_COUNT;

  /** Strokes a bar of one role at each sixteenth, with the twelfths of a beat on either side. */
  const atSixteenths = (role: number): readonly number[] =>
    Array.from({ length: 16 }, (_, sixteenth) =>
      [-1, 0, 1].reduce((sum, aside) => {
        const place =
          (((sixteenth * PLACES_PER_BEAT) / 4 + aside) % places) +
          (aside < 0 && sixteenth === 0 ? places : 0);
        return sum + (average[role * places + (place % places)] ?? 0);
      }, 0),
    );
  const [kick, backBeat, timeKeeper, toms, pedal, crash] = (
    ["kick", "snare", "hi-hat-closed", "high-tom", "hi-hat-pedal", "crash-left"] as const
  ).map((voice) => atSixteenths(rolesOf(voice)[0] ?? 0));
  const summed = (...rows: readonly (readonly number[] | undefined)[]): readonly number[] =>
    Array.from({ length: 16 }, (_, place) => rows.reduce((sum, row) => sum + (row?.[place] ?? 0), 0));
  /** Mean over the places of each weight, from the downbeat (0) to the sixteenths (−4). */
  const byWeight = (masses: readonly number[]): readonly number[] =>
    [0, -1, -2, -3, -4].map((weight) => {
      const own = masses.filter((_, place) => SIXTEENTHS_OF_FOUR[place] === weight);
      return own.reduce((sum, mass) => sum + mass, 0) / own.length;
    });

  test("covers a bar of four beats", () => {
    expect(places).toBe(4 * PLACES_PER_BEAT);
  });

  const butBackBeat = summed(kick, timeKeeper, toms, pedal, crash);
  const all = summed(butBackBeat, backBeat);
  const told = (masses: readonly number[]): string =>
    byWeight(masses)
      .map((mass) => mass.toFixed(2))
      .join(" > ");
  console.log(`Kicks by weight, from the downbeat to the sixteenths: ${told(summed(kick))}.`);
  console.log(`All but the back-beat: ${told(butBackBeat)}.`);

  test.each([
    { what: "kicks", masses: summed(kick) },
    { what: "all strokes but the back-beat", masses: butBackBeat },
  ])("$what follow the order: downbeat, half bar, quarters, eighths, sixteenths", ({ masses }) => {
    const levels = byWeight(masses);
    expect([...levels].sort((a, b) => b - a)).toEqual(levels);
    expect(new Set(levels).size).toBe(5);
  });

  test("with the back-beat, beats are still above eighths, and eighths above sixteenths", () => {
    const [downbeat = 0, half = 0, quarters = 0, eighths = 0, sixteenths = 0] = byWeight(all);
    expect(Math.min(downbeat, half, quarters)).toBeGreaterThan(eighths);
    expect(eighths).toBeGreaterThan(sixteenths);
  });

  test("the back-beat runs against the order: it is fullest on two and four", () => {
    const levels = byWeight(summed(backBeat));
    expect(levels.indexOf(Math.max(...levels))).toBe(2);
  });
});
