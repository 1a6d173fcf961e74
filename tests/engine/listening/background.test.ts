import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  readBackground,
  scoreBackground,
  shippedBackground,
  tempering,
} from "../../../engine/listening/background.ts";
import { fold, PLACES_PER_BEAT, scoreTurns } from "../../../engine/listening/barModel.ts";
import { ROLE_COUNT, SOUND_COUNT } from "../../../engine/listening/roles.ts";

/** Thousandths of a stroke for a bar of `beats`: these roles on these beats. */
function rates(
  beats: number,
  strokes: readonly (readonly [role: number, beat: number])[],
): readonly number[] {
  const places = beats * PLACES_PER_BEAT;
  const all = Array<number>(ROLE_COUNT * places).fill(0);
  for (const [role, beat] of strokes) all[role * places + beat * PLACES_PER_BEAT] = 900;
  return all;
}

const bar = (beats: number, share: number, strokes: readonly (readonly [number, number])[], bpm = 100) => ({
  beats,
  share,
  tempoLogMean: Math.log(bpm),
  tempoLogSd: 0.3,
  rates: rates(beats, strokes),
});
const BACK_BEAT = [
  [0, 0],
  [1, 1],
  [0, 2],
  [1, 3],
] as const;
const WALTZ = [
  [0, 0],
  [1, 1],
  [1, 2],
] as const;
const NO_NAMING = { asWritten: [], byTakes: [] };
const made = (...components: readonly ReturnType<typeof bar>[]) =>
  readBackground({ components, reading: [], naming: NO_NAMING });

const strokes = (heard: readonly { readonly beat: number; readonly sound: number }[]) => ({
  beats: Float64Array.from(heard, ({ beat }) => beat),
  sounds: Uint8Array.from(heard, ({ sound }) => sound),
  weights: Float64Array.from(heard, () => 1),
});
const heardOn = fc.array(
  fc.record({ beat: fc.nat(47).map((place) => place / 3), sound: fc.nat(SOUND_COUNT - 1) }),
  { minLength: 1, maxLength: 20 },
);

describe("learnt bars", () => {
  const general = shippedBackground();

  test("that ship: shares sum to one, rates fit the bar, weights are numbers", () => {
    const whole = general.components.reduce((sum, { logShare }) => sum + Math.exp(logShare), 0);
    expect(whole).toBeCloseTo(1, 3);
    for (const { model } of general.components) {
      expect(model.rates.length).toBe(ROLE_COUNT * model.beats * PLACES_PER_BEAT);
      expect(Math.min(...model.rates)).toBeGreaterThan(0);
    }
    expect(
      [...general.naming.asWritten, ...general.naming.byTakes].every(
        ({ weight, low, high }) => Number.isFinite(weight) && low <= high,
      ),
    ).toBe(true);
    expect(general.reading.first.length).toBeGreaterThan(0);
    expect(general.reading.ends.every(Number.isFinite)).toBe(true);
    expect(shippedBackground()).toBe(general);
  });

  test("the sketch holds the commonest of each length", () => {
    expect(general.sketch.beats).toEqual(general.beats);
    for (const beats of general.beats) {
      const ofLength = (from: typeof general.components) => from.filter(({ model }) => model.beats === beats);
      const sketched = ofLength(general.sketch.components);
      const others = ofLength(general.components).filter((one) => !sketched.includes(one));
      expect(sketched.length).toBeGreaterThan(0);
      expect(sketched.length).toBeLessThanOrEqual(8);
      const least = Math.min(...sketched.map(({ logShare }) => logShare));
      for (const { logShare } of others) expect(logShare).toBeLessThanOrEqual(least);
    }
  });

  test("the average bar of a length is the mean of its bars by their shares", () => {
    const { average, components } = made(bar(4, 0.75, BACK_BEAT), bar(4, 0.15, []), bar(3, 0.1, WALTZ));
    expect([...average.keys()]).toEqual([4, 3]);
    const [first, second] = components;
    average.get(4)?.forEach((rate, at) => {
      const mean = (0.75 * (first?.model.rates[at] ?? 0) + 0.15 * (second?.model.rates[at] ?? 0)) / 0.9;
      expect(rate).toBeCloseTo(mean, 12);
    });
  });

  test.each([
    ["no weights", { components: [] }],
    ["a share of nothing", { components: [bar(4, 0, BACK_BEAT)], reading: [], naming: NO_NAMING }],
    ["a bar of one beat", { components: [bar(1, 1, [])], reading: [], naming: NO_NAMING }],
    [
      "rates below nothing",
      { components: [{ ...bar(4, 1, []), rates: [-1] }], reading: [], naming: NO_NAMING },
    ],
    ["no JSON of ours", 7],
  ])("are refused with %s", (_, json) => {
    expect(() => readBackground(json)).toThrow();
  });
});

describe("the chance of strokes in grooves in general", () => {
  const general = made(
    bar(4, 0.6, BACK_BEAT),
    bar(
      4,
      0.4,
      [
        [0, 0],
        [0, 1],
        [0, 2],
        [0, 3],
      ],
      125,
    ),
  );
  const phases = [0, 3, 8];

  test("of one bar alone is that bar's, with what the tempo says", () => {
    fc.assert(
      fc.property(heardOn, (heard) => {
        const folded = fold(strokes(heard), 4, 16);
        const single = made(bar(4, 1, BACK_BEAT));
        const scores = scoreBackground(single, folded, phases, 0.6);
        const alone = new Float64Array(4 * phases.length);
        const model = single.components[0]?.model;
        if (!model) throw new Error("There is no bar.");
        scoreTurns(model, folded, phases, alone);
        const rest = scores.map((score, index) => score - tempering(9.6) * (alone[index] ?? 0));
        for (const one of rest) expect(one).toBeCloseTo(rest[0] ?? Number.NaN, 6);
      }),
      { numRuns: 50 },
    );
  });

  test("does not change when a bar is counted as two of half its share", () => {
    fc.assert(
      fc.property(heardOn, (heard) => {
        const folded = fold(strokes(heard), 4, 16);
        const halves = made(bar(4, 0.5, BACK_BEAT), bar(4, 0.5, BACK_BEAT));
        const whole = scoreBackground(made(bar(4, 1, BACK_BEAT)), folded, phases, 0.6);
        scoreBackground(halves, folded, phases, 0.6).forEach((score, index) => {
          expect(score).toBeCloseTo(whole[index] ?? Number.NaN, 6);
        });
      }),
      { numRuns: 50 },
    );
  });

  test("goes round with the bar: strokes a beat later fit as well a beat later", () => {
    fc.assert(
      fc.property(heardOn, (heard) => {
        const now = scoreBackground(general, fold(strokes(heard), 4, 16), [0], 0.6);
        const later = heard.map((one) => ({ ...one, beat: one.beat + 1 }));
        const turned = scoreBackground(general, fold(strokes(later), 4, 16), [0], 0.6);
        now.forEach((score, beat) => {
          expect(turned[(beat + 1) % 4]).toBeCloseTo(score, 6);
        });
      }),
      { numRuns: 50 },
    );
  });

  test("is greatest where the strokes lie as the commonest bar has them", () => {
    const heard = BACK_BEAT.map(([role, beat]) => ({ sound: role, beat: beat + 1 }));
    const scores = scoreBackground(made(bar(4, 1, BACK_BEAT)), fold(strokes(heard), 4, 4), [0], 0.6);
    // Kick and snare turn about: the bar fits on its second beat and, half a bar on, on its last.
    const best = [...scores.keys()].sort((a, b) => (scores[b] ?? 0) - (scores[a] ?? 0)).slice(0, 2);
    expect(best.sort()).toEqual([1, 3]);
    expect(scores[1]).toBeCloseTo(scores[3] ?? Number.NaN, 9);
  });

  test("bars of another length have no say", () => {
    const folded = fold(strokes([{ beat: 0, sound: 0 }]), 3, 6);
    const scores = scoreBackground(general, folded, [0], 0.6);
    expect([...scores]).toEqual(Array(3).fill(Number.NEGATIVE_INFINITY));
  });
});

test("more seconds count for more, each less than the one before, and never for more than a few", () => {
  const counted = (seconds: number): number => seconds * tempering(seconds);
  const seconds = fc.double({ min: 0.1, max: 3000, noNaN: true });
  fc.assert(
    fc.property(seconds, seconds, (a, b) => {
      const [less, more] = [Math.min(a, b), Math.max(a, b)];
      expect(counted(more)).toBeGreaterThanOrEqual(counted(less) - 1e-12);
      expect(tempering(more)).toBeLessThanOrEqual(tempering(less) + 1e-12);
      expect(counted(more)).toBeLessThan(5);
    }),
  );
});
