/** Hand slips found in synthetic performances of all forty rudiments on two surfaces: every seed is fixed. More of them with THRONESIDE_BENCH=full. */
import { describe, expect, test } from "vitest";
import { RUDIMENTS } from "../../engine/catalogue/index.ts";
import { checkSticking } from "../../engine/recall/index.ts";
import { seededChance } from "../../engine/units/index.ts";
import { perform, type TwoSurfaces } from "../engine/recall/twoSurfaces.ts";
import { sized } from "./listening/size.ts";

/** Performances of each rudiment. */
const SEEDS = sized(5, 2);
const TARGET = 0.98;

interface Counts {
  found: number;
  missed: number;
  imagined: number;
}

function slipsOf(how: (seed: number) => TwoSurfaces, seedBase: number): Counts & { readonly worst: string } {
  const all: Counts = { found: 0, missed: 0, imagined: 0 };
  const bad: string[] = [];
  for (const rudiment of RUDIMENTS) {
    for (let seed = 0; seed < SEEDS; seed += 1) {
      const { strokes } = perform(rudiment, how(seedBase + rudiment.number * 100 + seed));
      const judged = checkSticking(rudiment, strokes).strokes.filter(({ hand }) => hand !== null);
      expect(judged.map(({ time }) => time)).toEqual(strokes.map(({ time }) => time));
      let wrong = 0;
      strokes.forEach(({ slip }, at) => {
        const told = judged[at]?.state === "other hand";
        if (slip === "other hand" && told) all.found += 1;
        else if (slip === "other hand") all.missed += 1;
        else if (told) all.imagined += 1;
        if ((slip === "other hand") !== told) wrong += 1;
      });
      if (wrong > 0) bad.push(`${rudiment.id} ${seed}: ${wrong}`);
    }
  }
  return { ...all, worst: bad.join("; ") };
}

const steady = (bpm: number) => () => bpm;
/** Open, closed, open: from 50 to 120 felt beats a minute and back. */
const ramp = (share: number) => 50 + 70 * (1 - Math.abs(2 * share - 1));

const CASES: readonly {
  readonly name: string;
  readonly how: Omit<TwoSurfaces, "chance">;
  readonly least: number;
}[] = [
  {
    name: "at 60, spread 10 ms, two slips in a hundred",
    how: { tempoAt: steady(60), cycles: 16, spreadMs: 10, otherHand: 0.02 },
    least: TARGET,
  },
  {
    name: "at 100, spread 10 ms, two slips in a hundred",
    how: { tempoAt: steady(100), cycles: 16, spreadMs: 10, otherHand: 0.02 },
    least: TARGET,
  },
  {
    name: "open, closed, open, spread 10 ms, two slips in a hundred",
    how: { tempoAt: ramp, cycles: 24, spreadMs: 10, otherHand: 0.02 },
    least: TARGET,
  },
  {
    name: "at 80, and one stroke in a hundred left out, one added",
    how: { tempoAt: steady(80), cycles: 16, spreadMs: 10, otherHand: 0.02, leftOut: 0.01, added: 0.01 },
    least: TARGET,
  },
];

describe.each(CASES)("$name", ({ name, how, least }) => {
  test("slips of the hand are found, and none imagined", () => {
    const { found, missed, imagined, worst } = slipsOf((seed) => ({ ...how, chance: seededChance(seed) }), 0);
    const precision = found / (found + imagined);
    const recall = found / (found + missed);
    console.info(
      `${name}: precision ${precision.toFixed(4)}, recall ${recall.toFixed(4)} of ${found + missed} slips. ${worst}`,
    );
    expect(precision).toBeGreaterThanOrEqual(least);
    expect(recall).toBeGreaterThanOrEqual(least);
  });
});
