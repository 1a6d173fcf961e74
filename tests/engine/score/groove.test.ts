import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  beatsPerBar,
  DYNAMIC_VELOCITY,
  grooveBeats,
  parseGrid,
  performed,
  usualTempo,
} from "../../../engine/score/index.ts";
import { toNumber } from "../../../engine/units/index.ts";
import { writtenGroove } from "./writtenGrooves.ts";

function grid(metre: string, lines: string, feel = "straight") {
  return parseGrid(`groove: g\nname: G\nmetre: ${metre}\nfeel: ${feel}\ntempo: 80-125\n${lines}`);
}

describe("performed", () => {
  test("at 120 a minute eighths are 250 ms apart, repeated bar for bar", () => {
    const strokes = performed(grid("4/4", "ride | xxxxxxxx |"), { tempoBpm: 120, bars: 3 });
    expect(strokes.length).toBe(24);
    strokes.forEach(({ time, beat }, index) => {
      expect(time).toBeCloseTo(index * 0.25, 12);
      expect(beat).toBeCloseTo(index * 0.5, 12);
    });
  });

  // Computed: the length of a bar.
  test.each([
    { metre: "4/4", tempoBpm: 120, ms: 2000 },
    { metre: "3/4", tempoBpm: 120, ms: 1500 },
    { metre: "6/8", tempoBpm: 60, ms: 2000 },
    { metre: "7/8", tempoBpm: 240, ms: 1750 },
    { metre: "5/4", tempoBpm: 150, ms: 2000 },
    { metre: "12/8", tempoBpm: 60, ms: 4000 },
  ])("a bar of $metre at $tempoBpm felt beats a minute lasts $ms ms", ({ metre, tempoBpm, ms }) => {
    const strokes = performed(grid(metre, "kick | x |"), { tempoBpm, bars: 4 });
    expect(strokes.map(({ time }) => time * 1000)).toEqual(
      [0, 1, 2, 3].map((bar) => expect.closeTo(bar * ms, 9)),
    );
  });

  test("swing is applied to the time, the beat stays as written", () => {
    const strokes = performed(grid("4/4", "ride | xx.. .... |", "swung 3 eighths"), {
      tempoBpm: 60,
      bars: 1,
    });
    expect(strokes.map(({ time, beat }) => [time, beat])).toEqual([
      [0, 0],
      [0.75, 0.5],
    ]);
  });

  test("a groove of two bars may be cut after one, or after three", () => {
    const groove = grid("4/4", "kick | x... | x.x. |");
    expect(performed(groove, { tempoBpm: 60, bars: 1 }).map(({ beat }) => beat)).toEqual([0]);
    expect(performed(groove, { tempoBpm: 60, bars: 3 }).map(({ beat }) => beat)).toEqual([0, 4, 6, 8]);
  });

  test("any groove: every note of every repeat once, in order, within its bars", () => {
    fc.assert(
      fc.property(
        writtenGroove,
        fc.integer({ min: 1, max: 5 }),
        fc.integer({ min: 40, max: 240 }),
        (written, repeats, tempoBpm) => {
          const groove = parseGrid(written.text);
          const bars = repeats * groove.bars;
          const strokes = performed(groove, { tempoBpm, bars });
          expect(strokes.length).toBe(groove.notes.length * repeats);
          const seconds = (bars * beatsPerBar(groove.metre) * 60) / tempoBpm;
          strokes.forEach(({ time, note, beat }, index) => {
            const expected = groove.notes[index % Math.max(1, groove.notes.length)];
            expect(note).toBe(expected);
            expect(beat % grooveBeats(groove)).toBeCloseTo(toNumber(note.position), 6);
            expect(time).toBeGreaterThanOrEqual((strokes[index - 1]?.time ?? 0) - 1e-9);
            expect(time).toBeLessThan(seconds);
          });
        },
      ),
    );
  });
});

test("the usual tempo is the geometric mean of the range, to the whole beat", () => {
  expect(usualTempo({ tempoBpm: { low: 80, high: 125 } })).toBe(100);
  expect(usualTempo({ tempoBpm: { low: 100, high: 240 } })).toBe(155);
  expect(usualTempo({ tempoBpm: { low: 90, high: 90 } })).toBe(90);
});

test("dynamics are well apart and none is at an end", () => {
  const { ghost, plain, accent } = DYNAMIC_VELOCITY;
  expect(ghost).toBeGreaterThan(0.1);
  expect(plain - ghost).toBeGreaterThan(0.2);
  expect(accent - plain).toBeGreaterThan(0.2);
  expect(accent).toBeLessThan(1);
});
