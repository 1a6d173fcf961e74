import { expect, test } from "vitest";
import { type Chance, normal, seededChance } from "../../../engine/units/index.ts";

const COUNT = 20_000;

function draws(seed: number, draw: (chance: Chance) => number): number[] {
  const chance = seededChance(seed);
  return Array.from({ length: COUNT }, () => draw(chance));
}

function moments(values: readonly number[]): { mean: number; variance: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1);
  return { mean, variance };
}

const seeds = [0, 1, 7, 2 ** 31, 2 ** 32 - 1];

test.each(seeds)("seed %s gives the same numbers again", (seed) => {
  const first = draws(seed, (chance) => chance());
  expect(draws(seed, (chance) => chance())).toEqual(first);
  expect(draws(seed + 1, (chance) => chance()).slice(0, 5)).not.toEqual(first.slice(0, 5));
});

test.each(seeds)("seed %s: even from 0 to 1, one draw telling nothing of the next", (seed) => {
  const values = draws(seed, (chance) => chance());
  expect(values.every((value) => value >= 0 && value < 1)).toBe(true);
  // Chi-square over 20 equal boxes: 19 degrees of freedom, 99.99th percentile 51.
  const boxes = new Array<number>(20).fill(0);
  for (const value of values) {
    const box = Math.floor(value * 20);
    boxes[box] = (boxes[box] ?? 0) + 1;
  }
  const expected = COUNT / 20;
  expect(boxes.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0)).toBeLessThan(51);
  // Correlation of neighbours has a standard deviation of 1 / √n.
  const { mean, variance } = moments(values);
  const neighbours = values.slice(1).map((value, at) => (value - mean) * ((values[at] ?? 0) - mean));
  expect(Math.abs(moments(neighbours).mean / variance)).toBeLessThan(4 / Math.sqrt(COUNT));
});

test.each(seeds)("seed %s: normal draws have mean 0, deviation 1 and the tails of the bell", (seed) => {
  const values = draws(seed, normal);
  expect(values.every(Number.isFinite)).toBe(true);
  const { mean, variance } = moments(values);
  // Four standard errors: 1/√n of the mean, √(2/n) of the variance.
  expect(Math.abs(mean)).toBeLessThan(4 / Math.sqrt(COUNT));
  expect(Math.abs(variance - 1)).toBeLessThan(4 * Math.sqrt(2 / COUNT));
  for (const [sds, share] of [
    [1, 0.6827],
    [1.96, 0.95],
    [2.5758, 0.99],
  ] as const) {
    const within = values.filter((value) => Math.abs(value) < sds).length / COUNT;
    expect(Math.abs(within - share)).toBeLessThan(4 * Math.sqrt((share * (1 - share)) / COUNT));
  }
});

test("a chance of exactly 0 still gives a number", () => {
  expect(normal(() => 0)).toBeCloseTo(0, 12);
});
