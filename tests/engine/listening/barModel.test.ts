import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  addBlurred,
  barModel,
  fold,
  PLACES_PER_BEAT,
  scoreTurns,
  turnAt,
} from "../../../engine/listening/barModel.ts";
import { ROLE_COUNT, ROLE_WEIGHTS, SOUND_COUNT, SOUND_ROLES } from "../../../engine/listening/roles.ts";

const strokes = (beats: readonly number[], sound = 0) => ({
  beats: Float64Array.from(beats),
  sounds: Uint8Array.from(beats, () => sound),
  weights: Float64Array.from(beats, () => 1),
});

describe("folding strokes onto a bar", () => {
  test.each([
    { beats: [0, 4, 8], places: [0], counts: [3] },
    { beats: [1, 5.5], places: [12, 18], counts: [1, 1] },
    { beats: [-0.25], places: [45], counts: [1] },
    // Each to the place it is nearest to; a place is a twelfth of a beat.
    { beats: [0.04, 0.045], places: [0, 1], counts: [1, 1] },
    { beats: [3.97], places: [0], counts: [1] },
  ])("beats $beats fall on places $places", ({ beats, places, counts }) => {
    const folded = fold(strokes(beats), 4, 12);
    expect([...folded.counts.keys()].filter((slot) => (folded.counts[slot] ?? 0) > 0)).toEqual(places);
    expect([...folded.filledCounts]).toHaveLength(places.length);
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
    const written = fc.record({ place: fc.nat(23), role: fc.nat(ROLE_COUNT - 1) });
    const struck = fc.record({ place: fc.nat(23), sound: fc.nat(SOUND_COUNT - 1) });
    const phases = [0, 3, 4, 11];
    fc.assert(
      fc.property(
        fc.array(written, { maxLength: 12 }),
        fc.array(struck, { minLength: 1, maxLength: 12 }),
        (model, heard) => {
          const rates = new Float64Array(ROLE_COUNT * 24);
          for (const at of model) addBlurred(rates, { places: 24, ...at }, 0.8);
          const bar = barModel(rates, 2);
          const folded = fold(
            {
              beats: Float64Array.from(heard, (at) => at.place / PLACES_PER_BEAT),
              sounds: Uint8Array.from(heard, (at) => at.sound),
              weights: Float64Array.from(heard, () => 1),
            },
            2,
            6,
          );
          const scores = new Float64Array(2 * phases.length);
          scoreTurns(bar, folded, phases, scores);
          scores.forEach((score, index) => {
            const turn = turnAt({ beats: 2, phases }, index);
            const direct = heard
              .flatMap(({ sound, place }) => (SOUND_ROLES[sound] ?? []).map((role) => ({ role, place })))
              .reduce(
                (sum, { role, place }) => {
                  const rate = bar.rates[role * 24 + ((place - turn + 24) % 24)] ?? Number.NaN;
                  return sum + (ROLE_WEIGHTS[role] ?? Number.NaN) * Math.log(rate);
                },
                folded.mass * Math.log(PLACES_PER_BEAT) - 3 * bar.total,
              );
            expect(score).toBeCloseTo(direct, 6);
          });
        },
      ),
      { numRuns: 60 },
    );
  });

  test("turns go phase by phase, beat by beat", () => {
    const turns = Array.from({ length: 6 }, (_, index) => turnAt({ beats: 3, phases: [1, 5] }, index));
    expect(turns).toEqual([1, 13, 25, 5, 17, 29]);
  });
});
