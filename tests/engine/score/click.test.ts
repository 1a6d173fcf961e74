import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  beatsPerBar,
  type ClickStroke,
  type ClickWay,
  clickSilences,
  clickStrokes,
  clickWaySchema,
  FOUR_FOUR,
  type Metre,
  type PlayedClick,
  plainClick,
} from "../../../engine/score/index.ts";
import { beatSeconds, toNumber } from "../../../engine/units/index.ts";

const SEVEN_EIGHT: Metre = { numerator: 7, denominator: 8 };
const TWELVE_EIGHT: Metre = { numerator: 12, denominator: 8 };

function first(count: number, click: PlayedClick): readonly ClickStroke[] {
  const strokes = clickStrokes(click);
  return Array.from({ length: count }, () => strokes.next().value);
}

/** Strokes as a row: A for an accent, b for a beat, . for what lies between. */
function row(count: number, click: PlayedClick): string {
  const marks = { accent: "A", beat: "b", between: "." };
  return first(count, click)
    .map(({ weight }) => marks[weight])
    .join("");
}

const click = (way: ClickWay, more: Partial<PlayedClick> = {}): PlayedClick => ({
  way,
  tempoBpm: 120,
  from: 0,
  countInBars: 0,
  ...more,
});

describe("metre, accents and subdivision", () => {
  test.each([
    ["four four", plainClick(FOUR_FOUR), "AbbbAbbb"],
    ["three four", plainClick({ numerator: 3, denominator: 4 }), "AbbAbb"],
    ["twelve eight, by its four dotted beats", plainClick(TWELVE_EIGHT), "AbbbAbbb"],
    ["twelve eight, with its eighths", { ...plainClick(TWELVE_EIGHT), every: 3 as const }, "A..b..b..b..A.."],
    ["seven eight, 2 + 2 + 3", plainClick(SEVEN_EIGHT), "AbAbAbbAbAbAbb"],
    ["seven eight, 3 + 2 + 2", { ...plainClick(SEVEN_EIGHT), accents: [1, 4, 6] }, "AbbAbAbAbbAbAb"],
    ["five four, 3 + 2", plainClick({ numerator: 5, denominator: 4 }), "AbbAbAbbAb"],
    ["two and four stand out", { ...plainClick(FOUR_FOUR), accents: [2, 4] }, "bAbAbAbA"],
    ["halves", { ...plainClick(FOUR_FOUR), every: 2 as const }, "A.b.b.b.A."],
    ["quarters of the beat", { ...plainClick(FOUR_FOUR), every: 4 as const }, "A...b...b...b...A"],
    ["no accents", { ...plainClick(FOUR_FOUR), accents: [] }, "bbbbbbbb"],
  ])("%s: %s", (_, way, marks) => {
    expect(row(marks.length, click(way))).toBe(marks);
  });

  test("only on two and four", () => {
    const way: ClickWay = { ...plainClick(FOUR_FOUR), accents: [2, 4], every: "accents" };
    expect(first(4, click(way)).map(({ time }) => time)).toEqual([0.5, 1.5, 2.5, 3.5]);
  });

  test("the count-in is beat by beat, ends on the first beat that counts, and is never silent", () => {
    const way: ClickWay = {
      ...plainClick(FOUR_FOUR),
      every: "accents",
      accents: [2, 4],
      gaps: { kind: "regular", sounding: 1, silent: 1 },
    };
    const counted = click(way, { from: 10, countInBars: 2 });
    expect(row(10, counted)).toBe("AbbbAbbbAA");
    expect(first(9, counted).map(({ time }) => time)).toEqual([6, 6.5, 7, 7.5, 8, 8.5, 9, 9.5, 10.5]);
  });
});

const metres = fc.record({
  numerator: fc.integer({ min: 1, max: 16 }),
  denominator: fc.constantFrom(1 as const, 2 as const, 4 as const, 8 as const, 16 as const),
});
const gapsOf = fc.oneof(
  fc.constant({ kind: "none" as const }),
  fc.record({
    kind: fc.constant("regular" as const),
    sounding: fc.integer({ min: 1, max: 6 }),
    silent: fc.integer({ min: 1, max: 6 }),
  }),
  fc.record({
    kind: fc.constant("chance" as const),
    share: fc.double({ min: 0, max: 0.8, noNaN: true }),
    longest: fc.integer({ min: 1, max: 4 }),
    seed: fc.integer({ min: 0, max: 0xffff_ffff }),
  }),
);
const clicks = fc
  .record({
    metre: metres,
    every: fc.constantFrom(1 as const, 2 as const, 3 as const, 4 as const),
    gaps: gapsOf,
    tempoBpm: fc.double({ min: 30, max: 300, noNaN: true }),
    from: fc.double({ min: 0, max: 10_000, noNaN: true }),
    countInBars: fc.integer({ min: 0, max: 2 }),
  })
  .map(
    ({ metre, every, gaps, ...rest }): PlayedClick => ({
      ...rest,
      way: { ...plainClick(metre), every, gaps },
    }),
  );

describe("laws of any click", () => {
  test("strokes go forward, each at the exact moment of its own beat", () => {
    fc.assert(
      fc.property(clicks, (each) => {
        const strokes = first(80, each);
        for (const [at, { time, beat }] of strokes.entries()) {
          expect(time).toBe(each.from + toNumber(beat) * beatSeconds(each.tempoBpm));
          if (at > 0) expect(toNumber(beat)).toBeGreaterThan(toNumber(strokes[at - 1]?.beat ?? beat));
        }
      }),
      { numRuns: 60 },
    );
  });

  test("what is said to be silent is silent, and what is not sounds in full", () => {
    fc.assert(
      fc.property(clicks, (each) => {
        const beats = beatsPerBar(each.way.metre);
        const barSeconds = beats * beatSeconds(each.tempoBpm);
        const bars = 24;
        const inBar = new Map<number, number>();
        for (const { beat } of clickStrokes(each)) {
          const bar = Math.floor(toNumber(beat) / beats);
          if (bar >= bars) break;
          inBar.set(bar, (inBar.get(bar) ?? 0) + 1);
        }
        const silent = new Set(
          clickSilences(each, (bars + 100) * barSeconds).flatMap(({ bar, bars: long }) =>
            Array.from({ length: long }, (_, at) => bar - 1 + at),
          ),
        );
        const full = beats * (each.way.every === "accents" ? 1 : each.way.every);
        for (let bar = 0; bar < bars; bar += 1) expect(inBar.get(bar) ?? 0).toBe(silent.has(bar) ? 0 : full);
      }),
      { numRuns: 60 },
    );
  });

  test("half an hour of a crooked tempo ends where it should", () => {
    const tempoBpm = 137.3;
    const each = click(plainClick(FOUR_FOUR), { tempoBpm, from: 12.345 });
    const count = Math.round(tempoBpm * 30);
    const last = first(count + 1, each).at(-1);
    expect(last?.time).toBeCloseTo(12.345 + 1800, 9);
  });

  test("a way survives being kept", () => {
    fc.assert(
      fc.property(clicks, ({ way }) => {
        expect(clickWaySchema.parse(JSON.parse(JSON.stringify(way)))).toEqual(way);
      }),
    );
  });
});

describe("silences", () => {
  const way: ClickWay = { ...plainClick(FOUR_FOUR), gaps: { kind: "regular", sounding: 2, silent: 1 } };

  test("each is told once the click has come back from it", () => {
    expect(clickSilences({ way, tempoBpm: 120 }, 5.9)).toEqual([]);
    expect(clickSilences({ way, tempoBpm: 120 }, 6)).toEqual([{ bar: 3, bars: 1, from: 4, to: 6 }]);
    expect(clickSilences({ way, tempoBpm: 120 }, 12)).toHaveLength(2);
  });

  test("a click without gaps has none", () => {
    expect(clickSilences({ way: plainClick(FOUR_FOUR), tempoBpm: 120 }, 1e6)).toEqual([]);
  });
});

test.each([
  ["a metre without beats", { metre: { numerator: 0, denominator: 4 } }],
  ["a denominator that is no note value", { metre: { numerator: 4, denominator: 3 } }],
  ["a gap without end", { gaps: { kind: "regular", sounding: 1, silent: 1e9 } }],
  ["a bar of a thousand beats", { metre: { numerator: 1000, denominator: 4 } }],
  ["fifths of a beat", { every: 5 }],
])("%s is refused", (_, broken) => {
  expect(clickWaySchema.safeParse({ ...plainClick(FOUR_FOUR), ...broken }).success).toBe(false);
});
