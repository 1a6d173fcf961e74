import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { shippedBackground } from "../../../engine/listening/background.ts";
import { soundOf } from "../../../engine/listening/roles.ts";
import { type Bars, beatOf, type LaidStroke, usualLogs } from "../../../engine/listening/usualBar.ts";

const BAR_COUNT = 8;
const BEAT = 12;
const BAR = 4 * BEAT;
const bars: Bars = {
  beat: BEAT,
  bar: BAR,
  repeat: BAR,
  repeatsFrom: 0,
  first: 0,
  last: BAR_COUNT * BAR - 6,
  near: 1.2,
  beats: 4 * BAR_COUNT,
};

function strokes(voice: "kick" | "snare" | "hi-hat-closed" | "floor-tom", places: readonly number[]) {
  return places.map((place): LaidStroke => ({ place, sound: soundOf(voice) ?? -1, ornate: false }));
}

const everyBar = (places: readonly number[]): readonly number[] =>
  Array.from({ length: BAR_COUNT }, (_, bar) => places.map((place) => bar * BAR + place)).flat();

const GROOVE = [
  ...strokes("hi-hat-closed", everyBar([0, 6, 12, 18, 24, 30, 36, 42])),
  ...strokes("kick", everyBar([0, 24])),
  ...strokes("snare", everyBar([12, 36])),
].sort((a, b) => a.place - b.place);

const logs = (played: readonly LaidStroke[]): Float64Array => usualLogs(played, bars, shippedBackground());

describe("what a player usually plays", () => {
  test("is likely in every beat, and a beat played otherwise is not", () => {
    // Bar 5, beat 3: toms in place of hi-hat and kick.
    const from = 4 * BAR + 24;
    const own = strokes("floor-tom", [from, from + 3, from + 6, from + 9]);
    const kept = GROOVE.filter(({ place }) => place < from || place >= from + BEAT);
    const told = logs([...kept, ...own].sort((a, b) => a.place - b.place));
    const other = 4 * 4 + 2;
    told.forEach((log, beat) => {
      if (beat === other) expect(log).toBeLessThan(-8);
      else expect(log).toBeGreaterThan(-2);
    });
  });

  test("is learnt from the other bars only: the odd bar does not speak for itself", () => {
    const tom = strokes("floor-tom", [6 * BAR + 36]);
    const told = logs([...GROOVE, ...tom].sort((a, b) => a.place - b.place));
    expect(told[6 * 4 + 3]).toBeLessThan(Math.min(...told.filter((_, beat) => beat !== 27)) - 2);
  });

  test("a place near the one counts for the beat it was meant for, on either side of the bar line", () => {
    const early = GROOVE.map((stroke) => ({ ...stroke, place: stroke.place - (stroke.place > 0 ? 0.5 : 0) }));
    for (const log of logs(early)) expect(log).toBeGreaterThan(-1);
    expect(beatOf(11.5, bars)).toBe(1);
    expect(beatOf(11, bars)).toBe(0);
  });

  test("whatever is left out or added, a log likelihood is finite and not above 0", () => {
    const index = fc.integer({ min: 0, max: GROOVE.length - 1 });
    const place = fc.double({ min: 0, max: bars.last, noNaN: true });
    fc.assert(
      fc.property(fc.array(index, { maxLength: 60 }), fc.array(place, { maxLength: 30 }), (out, added) => {
        const kept = GROOVE.filter((_, at) => at === 0 || !out.includes(at));
        const all = [...kept, ...strokes("snare", added)].sort((a, b) => a.place - b.place);
        for (const log of logs(all)) {
          expect(Number.isFinite(log)).toBe(true);
          expect(log).toBeLessThanOrEqual(0);
        }
      }),
      { numRuns: 60 },
    );
  });
});
