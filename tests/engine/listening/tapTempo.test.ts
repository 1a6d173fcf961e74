import fc from "fast-check";
import { expect, test } from "vitest";
import { NO_TAPS, TAP_PAUSE_SECONDS, tapped, tappedBpm } from "../../../engine/listening/index.ts";
import { normal, seededChance } from "../../../engine/units/index.ts";

const bpmOf = (times: readonly number[]): number | null => tappedBpm(times.reduce(tapped, NO_TAPS));

test.each([
  ["two taps are too few", [0, 0.5], null],
  ["three even taps", [0, 0.5, 1], 120],
  ["one tap late", [0, 0.5, 1, 1.62, 2, 2.5, 3], 120],
  ["one tap left out", [0, 0.5, 1, 2, 2.5, 3, 3.5], 120],
  ["hands and feet together, as a flam", [0, 0.02, 0.5, 0.53, 1, 1.01, 1.5], 120],
  ["after a pause a new tempo is meant", [0, 0.5, 1, 1.5, 5, 6, 7], 60],
  ["a change of tempo is followed", [0, 0.5, 1, 1.5, 2.25, 3, 3.75, 4.5, 5.25, 6, 6.75, 7.5], 80],
  ["a clock that runs back is no tap", [5, 5.5, 4, 6], 120],
])("%s", (_, times, bpm) => {
  const told = bpmOf(times);
  if (bpm === null) expect(told).toBeNull();
  else expect(told).toBeCloseTo(bpm, 6);
});

test("even taps tell their tempo, wherever the clock begins", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 30, max: 300, noNaN: true }),
      fc.double({ min: 0, max: 1e5, noNaN: true }),
      fc.integer({ min: 3, max: 20 }),
      (bpm, from, count) => {
        const told = bpmOf(Array.from({ length: count }, (_, at) => from + (at * 60) / bpm));
        expect(told).toBeCloseTo(bpm, 3);
      },
    ),
  );
});

test("nothing but the taps since the last pause matters", () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 0, max: 50, noNaN: true }), { maxLength: 12 }),
      fc.array(fc.double({ min: 0.2, max: 2, noNaN: true }), { minLength: 3, maxLength: 12 }),
      (earlier, gaps) => {
        const first = 50 + TAP_PAUSE_SECONDS + 0.1;
        let time = first;
        const later = [first, ...gaps.map((gap) => (time += gap))];
        expect(bpmOf([...[...earlier].sort((a, b) => a - b), ...later])).toBe(bpmOf(later));
      },
    ),
  );
});

test("taps of an untrained hand, 4 % of spread: the tempo is told within 3 % in nine cases of ten", () => {
  const chance = seededChance(11);
  const errors = Array.from({ length: 400 }, () => {
    const taps = Array.from({ length: 9 }, (_, at) => at * 0.6 + 0.6 * 0.04 * normal(chance));
    return Math.abs((bpmOf(taps) ?? 0) / 100 - 1);
  }).sort((a, b) => a - b);
  expect(errors[359]).toBeLessThan(0.03);
});
