import fc from "fast-check";
import { expect, test } from "vitest";
import { clockOfClick, clockOfPulse, placeAt } from "../../../../renderer/screens/call-a-style/barClock.ts";

const pulse = {
  tempoBpm: 120,
  metre: { numerator: 4, denominator: 4 },
  beats: [],
  downbeats: [10, 12, 14.4],
  confidence: 1,
};

test("between two heard downbeats a place is a share of that very bar", () => {
  const clock = clockOfPulse(pulse);
  if (!clock) throw new Error("There are downbeats.");
  expect(placeAt(clock, 11)).toBeCloseTo(0.5);
  expect(placeAt(clock, 13.2)).toBeCloseTo(0.5);
});

test("before the first and after the last heard downbeat the bars are even", () => {
  const clock = clockOfPulse(pulse);
  if (!clock) throw new Error("There are downbeats.");
  expect(placeAt(clock, 15.4)).toBeCloseTo(0.5);
  expect(placeAt(clock, 9.9)).toBeCloseTo(placeAt(clock, 9.9 + 2 * 2 - 2 * 2));
});

test("without a downbeat there is no clock", () => {
  expect(clockOfPulse({ ...pulse, downbeats: [] })).toBeUndefined();
});

test("a click knows which of two bars is the first", () => {
  const clock = clockOfClick({ tempoBpm: 120, from: 5 }, 4, 2);
  expect(clock).toMatchObject({ beatsPerTurn: 8, turnSeconds: 4, turnFrom: 5 });
  expect(placeAt(clock, 7)).toBeCloseTo(0.5);
  expect(placeAt(clock, 4)).toBeCloseTo(0.75);
});

test("a place is never outside the turn", () => {
  fc.assert(
    fc.property(
      fc.double({ min: -1e4, max: 1e4, noNaN: true }),
      fc.double({ min: 30, max: 300, noNaN: true }),
      (time, tempoBpm) => {
        const place = placeAt(clockOfClick({ tempoBpm, from: 3 }, 4, 1), time);
        expect(place).toBeGreaterThanOrEqual(0);
        expect(place).toBeLessThan(1);
      },
    ),
  );
});
