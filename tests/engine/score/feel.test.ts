import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Feel, offBeatPlace, playedBeat, STRAIGHT, swungSpan } from "../../../engine/score/index.ts";

/** Swing ratios and where they put the off-beat, computed from p = r / (r + 1); Friberg & Sundström 2002 for the range. */
const SWING = [
  { ratio: 1, percent: 50, tick: 240, ms: 250 },
  { ratio: 1.2, percent: 54.545, tick: 261.82, ms: 272.73 },
  { ratio: 1.25, percent: 55.556, tick: 266.67, ms: 277.78 },
  { ratio: 4 / 3, percent: 57.143, tick: 274.29, ms: 285.71 },
  { ratio: 1.5, percent: 60, tick: 288, ms: 300 },
  { ratio: 5 / 3, percent: 62.5, tick: 300, ms: 312.5 },
  { ratio: 2, percent: 66.667, tick: 320, ms: 333.33 },
  { ratio: 2.5, percent: 71.429, tick: 342.86, ms: 357.14 },
  { ratio: 3, percent: 75, tick: 360, ms: 375 },
  { ratio: 3.5, percent: 77.778, tick: 373.33, ms: 388.89 },
];

describe.each(SWING)("swung $ratio : 1", ({ ratio, percent, tick, ms }) => {
  test("the off-beat's share of the beat", () => {
    expect(offBeatPlace(ratio) * 100).toBeCloseTo(percent, 3);
    expect(offBeatPlace(ratio) * 480).toBeCloseTo(tick, 2);
  });

  test("the second of two eighths, and the last of three triplet eighths", () => {
    for (let beat = 0; beat < 8; beat += 1) {
      const eighths = playedBeat({ kind: "swung", ratio, written: "eighths" }, beat + 1 / 2);
      const triplets = playedBeat({ kind: "swung", ratio, written: "triplets" }, beat + 2 / 3);
      // 500 ms a beat: 120 a minute.
      expect((eighths - beat) * 500).toBeCloseTo(ms, 2);
      expect((triplets - beat) * 500).toBeCloseTo(ms, 2);
    }
  });

  test("the second and the fourth of four sixteenths, in half the time", () => {
    const feel: Feel = { kind: "swung", ratio, written: "sixteenths" };
    expect(playedBeat(feel, 3.25)).toBeCloseTo(3 + offBeatPlace(ratio) / 2, 12);
    expect((playedBeat(feel, 3.75) - 3.5) * 500).toBeCloseTo(ms / 2, 2);
    expect(playedBeat(feel, 3.5)).toBeCloseTo(3.5, 12);
  });
});

const feels: fc.Arbitrary<Feel> = fc.record({
  kind: fc.constant("swung" as const),
  ratio: fc.double({ min: 1, max: 4, noNaN: true }),
  written: fc.constantFrom("eighths" as const, "triplets" as const, "sixteenths" as const),
});
const places = fc.double({ min: 0, max: 64, noNaN: true });

test("swing never changes the order of strokes, and no stroke leaves its span", () => {
  fc.assert(
    fc.property(feels, places, places, (feel, a, b) => {
      const [first, second] = a < b ? [a, b] : [b, a];
      expect(playedBeat(feel, first)).toBeLessThanOrEqual(playedBeat(feel, second) + 1e-9);
      if (feel.kind === "swung") {
        const { span } = swungSpan(feel.written);
        expect(Math.abs(playedBeat(feel, first) - first)).toBeLessThan(span);
      }
    }),
  );
});

test("beats stay where they are, and so does everything when it is straight", () => {
  fc.assert(
    fc.property(feels, fc.integer({ min: 0, max: 500 }), places, (feel, beat, place) => {
      expect(playedBeat(feel, beat)).toBeCloseTo(beat, 12);
      expect(playedBeat(STRAIGHT, place)).toBe(place);
      expect(playedBeat({ kind: "swung", ratio: 1, written: "eighths" }, place)).toBeCloseTo(place, 9);
    }),
  );
});

test("triplets written out are even at 2 : 1", () => {
  const feel: Feel = { kind: "swung", ratio: 2, written: "triplets" };
  for (const third of [0, 1, 2, 3, 4, 5]) expect(playedBeat(feel, third / 3)).toBeCloseTo(third / 3, 12);
});
