import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type Demonstration,
  demonstrate,
  demonstratedBeats,
  demonstratedDownbeats,
  grooveById,
  rubato,
  suddenChange,
  type TempoCourse,
} from "../../../engine/catalogue/index.ts";
import { parseGrid } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";

/** One stroke a bar, on the one; and one a beat. */
const ONES = parseGrid("groove: o\nname: O\nmetre: 4/4\ntempo: 60-140\nkick | x... |");
const BEATS = parseGrid("groove: b\nname: B\nmetre: 4/4\ntempo: 60-140\nkick | xxxx |");

function exactly(how: Partial<Demonstration>): Demonstration {
  return {
    tempoBpm: 120,
    bars: 16,
    leanMs: 0,
    spreadMs: 0,
    leftOut: 0,
    added: 0,
    chance: seededChance(1),
    ...how,
  };
}

const course: fc.Arbitrary<TempoCourse | undefined> = fc.oneof(
  fc.constant(undefined),
  fc
    .tuple(fc.double({ min: 0, max: 0.5, noNaN: true }), fc.integer({ min: 4, max: 64 }))
    .map(([share, beats]) => rubato(share, beats)),
  fc
    .tuple(fc.integer({ min: 1, max: 60 }), fc.double({ min: 0.5, max: 2, noNaN: true }))
    .map(([at, ratio]) => suddenChange(at, ratio)),
);

test("strokes on the one are where the downbeats are said to be, whatever course, count-in and clock", () => {
  fc.assert(
    fc.property(
      course,
      fc.integer({ min: 0, max: 8 }),
      fc.constantFrom(undefined, 0, 3, 12),
      fc.integer({ min: 1, max: 1e6 }),
      (tempoCourse, countIn, clockMs, seed) => {
        const how = () =>
          exactly({
            countIn,
            chance: seededChance(seed),
            ...(tempoCourse ? { tempoCourse } : {}),
            ...(clockMs === undefined ? {} : { clockMs }),
          });
        const downbeats = demonstratedDownbeats(ONES, how());
        const strokes = demonstrate(ONES, how());
        expect(downbeats.length).toBe(16);
        expect(strokes.slice(countIn).map(({ time }) => time)).toEqual(downbeats);
        expect(strokes.slice(0, countIn).every(({ voice }) => voice === "sticks")).toBe(true);
        expect(strokes[0]?.time).toBe(0);
        const beats = demonstratedBeats(ONES, how());
        expect(beats.filter((_, beat) => beat % 4 === 0)).toEqual(downbeats);
        expect(beats).toEqual([...beats].sort((a, b) => a - b));
      },
    ),
  );
});

test("a sudden change: beats are as long as the tempo says, before and after it", () => {
  const beats = demonstratedBeats(BEATS, exactly({ bars: 4, tempoCourse: suddenChange(8, 1.25) }));
  // Computed: 500 ms at 120 a minute, 400 ms at 150.
  beats.forEach((time, beat) => {
    expect(time).toBeCloseTo(beat <= 8 ? beat * 0.5 : 4 + (beat - 8) * 0.4, 9);
  });
});

describe("rubato", () => {
  test.each([0, 0.05, 0.1, 0.3])(
    "of %s over eight bars: no beat is further from the tempo, whole periods as computed",
    (share) => {
      const beats = demonstratedBeats(BEATS, exactly({ bars: 17, tempoCourse: rubato(share, 32) }));
      const lengths = beats.slice(1).map((time, beat) => time - (beats[beat] ?? 0));
      expect(Math.max(...lengths)).toBeLessThanOrEqual(0.5 / (1 - share) + 1e-9);
      expect(Math.min(...lengths)).toBeGreaterThanOrEqual(0.5 / (1 + share) - 1e-9);
      // ∫ dx / (1 + s sin x) over a whole turn is 2π / √(1 − s²).
      const period = 16 / Math.sqrt(1 - share ** 2);
      expect(beats[32]).toBeCloseTo(period, 6);
      expect(beats[64]).toBeCloseTo(2 * period, 6);
      if (share > 0) {
        expect((lengths[8] ?? 0) / 0.5).toBeCloseTo(1 / (1 + share), 2);
        expect((lengths[24] ?? 0) / 0.5).toBeCloseTo(1 / (1 - share), 2);
      }
    },
  );
});

test("the count-in goes at the tempo the first bar begins with, on what is asked for", () => {
  const how = exactly({ countIn: 3, countInOn: "cross-stick", tempoCourse: suddenChange(0, 2), bars: 1 });
  expect(demonstrate(BEATS, how).map(({ time, voice }) => [time, voice])).toEqual([
    [0, "cross-stick"],
    [0.25, "cross-stick"],
    [0.5, "cross-stick"],
    ...[0.75, 1, 1.25, 1.5].map((time) => [expect.closeTo(time, 9), "kick"]),
  ]);
});

test("the count-in is never left out and has nothing added to it", () => {
  const rock = grooveById("rock-eighths");
  if (!rock) throw new Error("The stock has no rock-eighths.");
  const strokes = demonstrate(rock, exactly({ countIn: 4, leftOut: 1, added: 1 }));
  const sticks = strokes.filter(({ voice }) => voice === "sticks");
  expect(sticks.map(({ time }) => time)).toEqual([0, 0.5, 1, 1.5]);
  const others = strokes.filter(({ voice }) => voice !== "sticks");
  expect(others.length).toBe(rock.notes.length * 16);
  expect(Math.min(...others.map(({ time }) => time))).toBeGreaterThanOrEqual(2);
});

test("beats of a wandering clock are those of the demonstration with the same seed, and not of another", () => {
  const how = (seed: number) => exactly({ clockMs: 20, chance: seededChance(seed) });
  expect(demonstratedBeats(BEATS, how(3))).toEqual(demonstrate(BEATS, how(3)).map(({ time }) => time));
  expect(demonstratedBeats(BEATS, how(4))).not.toEqual(demonstratedBeats(BEATS, how(3)));
});

test.each([
  { make: () => rubato(1, 32), says: "rubato of 1: the share must be from 0 to below 1" },
  { make: () => rubato(-0.1, 32), says: "rubato of -0.1" },
  { make: () => rubato(0.1, 0), says: "rubato over 0 beats" },
  { make: () => suddenChange(4, 0), says: "sudden change to 0 of the tempo" },
  { make: () => suddenChange(4, Number.NaN), says: "sudden change to NaN" },
  {
    make: () => demonstrate(ONES, exactly({ tempoCourse: () => -1 })),
    says: "The tempo course gives -1 at beat 0: it must be a ratio above 0.",
  },
  { make: () => demonstrate(ONES, exactly({ countIn: 1.5 })), says: "A count-in of 1.5 beats" },
  { make: () => demonstrate(ONES, exactly({ countIn: -1 })), says: "A count-in of -1 beats" },
])("$says", ({ make, says }) => {
  expect(make).toThrow(RangeError);
  expect(make).toThrow(says);
});
