import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  addBlurred,
  barModel,
  fold,
  PLACES_PER_BEAT,
  scoreTurns,
} from "../../../engine/listening/barModel.ts";
import { ROLE_COUNT, ROLE_WEIGHTS } from "../../../engine/listening/roles.ts";

const strokes = (beats: readonly number[], role = 0) => ({
  beats: Float64Array.from(beats),
  roles: Uint8Array.from(beats, () => role),
  weights: Float64Array.from(beats, () => 1),
});

describe("folding strokes onto a bar", () => {
  test.each([
    { beats: [0, 4, 8], places: [0], counts: [3] },
    { beats: [1, 5.5], places: [12, 18], counts: [1, 1] },
    { beats: [-0.25], places: [45], counts: [1] },
    { beats: [0.125 / 3], places: [0, 1], counts: [0.5, 0.5] },
  ])("beats $beats fall on places $places", ({ beats, places, counts }) => {
    const folded = fold(strokes(beats), 4, 12);
    expect([...folded.filled]).toEqual(places);
    places.forEach((place, index) => {
      expect(folded.counts[place]).toBeCloseTo(counts[index] ?? Number.NaN, 9);
    });
  });

  test("keeps every stroke's weight, wherever it falls", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -50, max: 50, noNaN: true }), { maxLength: 40 }), (beats) => {
        const folded = fold(strokes(beats), 3, 9);
        expect(folded.counts.reduce((sum, count) => sum + count, 0)).toBeCloseTo(beats.length, 6);
      }),
    );
  });
});

describe("a blurred stroke", () => {
  test("spreads over neighbours and keeps its amount, across the bar line too", () => {
    const rates = new Float64Array(ROLE_COUNT * 48);
    addBlurred(rates, { places: 48, role: 2, place: 47.8 }, 0.9);
    expect(rates.reduce((sum, rate) => sum + rate, 0)).toBeCloseTo(0.9, 9);
    expect(rates[2 * 48] ?? 0).toBeGreaterThan(rates[2 * 48 + 46] ?? 0);
  });
});

describe("scoring all turns at once", () => {
  test("equals the sum of log rates minus the total, turn by turn (inhomogeneous Poisson process)", () => {
    const place = fc.record({ place: fc.nat(23), role: fc.nat(ROLE_COUNT - 1) });
    fc.assert(
      fc.property(
        fc.array(place, { maxLength: 12 }),
        fc.array(place, { minLength: 1, maxLength: 12 }),
        (model, heard) => {
          const rates = new Float64Array(ROLE_COUNT * 24);
          for (const at of model) addBlurred(rates, { places: 24, ...at }, 0.8);
          const bar = barModel(rates, 2);
          const folded = fold(
            {
              beats: Float64Array.from(heard, (at) => at.place / PLACES_PER_BEAT),
              roles: Uint8Array.from(heard, (at) => at.role),
              weights: Float64Array.from(heard, () => 1),
            },
            2,
            6,
          );
          const scores = new Float64Array(24);
          scoreTurns(bar, folded, scores);
          for (let turn = 0; turn < 24; turn += 1) {
            const direct = heard.reduce(
              (sum, at) => {
                const slot = at.role * 24 + ((at.place - turn + 24) % 24);
                return sum + (ROLE_WEIGHTS[at.role] ?? Number.NaN) * Math.log(bar.rates[slot] ?? Number.NaN);
              },
              folded.mass * Math.log(PLACES_PER_BEAT) - 3 * bar.total,
            );
            expect(scores[turn]).toBeCloseTo(direct, 6);
          }
        },
      ),
      { numRuns: 60 },
    );
  });
});
