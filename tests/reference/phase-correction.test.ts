/**
 * The estimator of linear phase correction recovers the parameters of simulated players.
 *
 * Model: Vorberg & Wing 1996: A′ = (1 − α)A + T + M′ − M. Parameters as in the simulations of Jacoby, Tishby, Repp, Ahissar &
 * Keller 2015 (clock noise 10 ms, limb noise 5 ms, shares from 0.1 to 0.9; from memory). For two players who both correct, the
 * asynchrony is made good by the sum of their shares (Vorberg 2005; Wing, Endo, Bradbury & Vorberg 2014): each player's
 * own share is told from that player's own intervals.
 */
import { describe, expect, test } from "vitest";
import { phaseCorrection } from "../../engine/trading/index.ts";
import { type Chance, normal, seededChance } from "../../engine/units/index.ts";

const CLOCK_MS = 10;
const LIMB_MS = 5;

/** Asynchronies with a metronome. */
function simulated(share: number, beats: number, chance: Chance, limbMs = LIMB_MS): readonly number[] {
  let asynchrony = 0;
  let limb = limbMs * normal(chance);
  return Array.from({ length: beats }, () => {
    const said = asynchrony;
    const nextLimb = limbMs * normal(chance);
    asynchrony = (1 - share) * asynchrony + CLOCK_MS * normal(chance) + nextLimb - limb;
    limb = nextLimb;
    return said;
  });
}

describe.each([0.1, 0.3, 0.5, 0.7, 0.9])("a share of %f", (share) => {
  test("is recovered on the average of a hundred players with 200 beats each", () => {
    const chance = seededChance(Math.round(share * 1000));
    const estimates = Array.from({ length: 100 }, () => {
      const told = phaseCorrection([simulated(share, 201, chance)]);
      if (!told) throw new Error("Nothing was told of 200 beats.");
      return told.share;
    });
    const mean = estimates.reduce((sum, each) => sum + each, 0) / estimates.length;
    const sd = Math.sqrt(
      estimates.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (estimates.length - 1),
    );
    console.info(`phase correction ${share}: mean ${mean.toFixed(3)}, sd ${sd.toFixed(3)}`);
    expect(Math.abs(mean - share)).toBeLessThan(0.05);
    expect(sd).toBeLessThan(0.11);
  });

  test("is recovered from many short turns as well, as in trading: 25 turns of eight beats", () => {
    const chance = seededChance(Math.round(share * 1000) + 1);
    const estimates = Array.from({ length: 100 }, () => {
      // Each turn begins where the other player left the pulse.
      const rows = Array.from({ length: 25 }, () => simulated(share, 9, chance));
      return phaseCorrection(rows)?.share ?? Number.NaN;
    });
    const mean = estimates.reduce((sum, each) => sum + each, 0) / estimates.length;
    expect(Math.abs(mean - share)).toBeLessThan(0.08);
  });
});

test.each([1, 8])("a limb of %f ms instead of 5 moves it by no more than a sixth", (limbMs) => {
  for (const share of [0.2, 0.5, 0.8]) {
    const chance = seededChance(limbMs * 100 + share * 10);
    const estimates = Array.from(
      { length: 60 },
      () => phaseCorrection([simulated(share, 201, chance, limbMs)])?.share ?? Number.NaN,
    );
    const mean = estimates.reduce((sum, each) => sum + each, 0) / estimates.length;
    expect(Math.abs(mean - share)).toBeLessThan(1 / 6);
  }
});

test("too few beats, or no variation, tell nothing", () => {
  expect(phaseCorrection([])).toBeNull();
  expect(phaseCorrection([[1, 2, 3]])).toBeNull();
  expect(phaseCorrection([Array.from({ length: 40 }, () => 3)])).toBeNull();
});
