import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type Demonstration,
  demonstrate,
  demonstratedBeats,
  demonstratedDownbeats,
  FILLS,
  FillPlaceError,
  fillById,
  grooveById,
  type PlacedFill,
  STYLES,
} from "../../../engine/catalogue/index.ts";
import { familyOf } from "../../../engine/kit/index.ts";
import { beatsPerBar, type Fill, fillBars, type Groove, parseGrid } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";

function exactly(how: Partial<Demonstration>): Demonstration {
  const nothing = {
    leanMs: 0,
    spreadMs: 0,
    leftOut: 0,
    added: 0,
    velocitySpread: { ghost: 0, plain: 0, accent: 0 },
  };
  return { tempoBpm: 120, bars: 8, ...nothing, chance: seededChance(1), ...how };
}

function groove(id: string): Groove {
  const found = grooveById(id);
  if (!found) throw new Error(`The stock has no ${id}.`);
  return found;
}

function fill(id: string): Fill {
  const found = fillById(id);
  if (!found) throw new Error(`The stock has no fill ${id}.`);
  return found;
}

/** Strokes that a note is played with: itself and its graces. */
function strokesOf({ notes }: Pick<Fill, "notes">): number {
  const graces = { flam: 1, drag: 2 };
  return notes.reduce((sum, { ornament }) => sum + 1 + (ornament ? graces[ornament] : 0), 0);
}

const BARS = 8;
/** Fills with as many beats in the bar as the groove. */
function fitting({ metre }: Groove): readonly Fill[] {
  return FILLS.filter((each) => beatsPerBar(each.metre) === beatsPerBar(metre));
}

/** A groove of the stock with up to four fills that fit it; two bars lie between their beginnings, so none overlap. */
const filledGroove = fc
  .constantFrom(...STYLES.flatMap(({ variants }) => variants).filter((each) => fitting(each).length > 0))
  .chain((groove) =>
    fc.record({
      groove: fc.constant(groove),
      fills: fc.uniqueArray(
        fc.record({
          bar: fc.constantFrom(1, 3, 5, 7),
          fill: fc.constantFrom(...fitting(groove)),
          thenCrash: fc.boolean(),
        }),
        { maxLength: 4, selector: ({ bar }) => bar },
      ),
      countIn: fc.integer({ min: 0, max: 8 }),
    }),
  );

describe("any groove with fills", () => {
  test("plays only the fill from where it begins to the end of its bars, and the groove as ever around it", () => {
    fc.assert(
      fc.property(filledGroove, ({ groove, fills, countIn }) => {
        const inBar = beatsPerBar(groove.metre);
        const how = { countIn, bars: BARS };
        const plainFills = fills.map((each) => ({ ...each, thenCrash: false }));
        const withFills = demonstrate(groove, exactly({ ...how, fills: plainFills }));
        const without = demonstrate(groove, exactly(how));
        // At 120 a minute a beat is half a second; graces come up to 52 ms before their place.
        const spans = fills.map(({ bar, fill }) => {
          const end = (countIn + (bar + fillBars(fill) - 1) * inBar) / 2;
          return { from: end - fill.beats / 2, end, fill };
        });
        const inside = (time: number) =>
          spans.find(({ from, end }) => time >= from - 0.06 && time < end - 0.06);
        const edges = (time: number) =>
          spans.some(({ from, end }) => Math.abs(time - from) < 0.06 || Math.abs(time - end) < 0.06);
        expect(withFills.filter(({ time }) => !inside(time) && !edges(time))).toEqual(
          without.filter(({ time }) => !inside(time) && !edges(time)),
        );
        for (const { from, end, fill } of spans) {
          const struck = withFills.filter(({ time }) => time >= from + 1e-6 && time < end - 0.06);
          for (const { voice } of struck) expect(fill.voices).toContain(voice);
        }
        const replaced = groove.notes.length === 0 ? 0 : replacedStrokes(groove, fills);
        const added = fills.reduce((sum, each) => sum + strokesOf(each.fill), 0);
        expect(withFills.length).toBe(without.length - replaced + added);
      }),
      { numRuns: 200 },
    );
  });

  test("is in order of time, whatever is asked; its downbeats are where the bars begin", () => {
    fc.assert(
      fc.property(filledGroove, fc.integer({ min: 1, max: 1000 }), ({ groove, fills, countIn }, seed) => {
        const loose = { leanMs: -10, spreadMs: 20, motorMs: 5, clockMs: 4, leftOut: 0.1, added: 0.1 };
        const how = exactly({ fills, countIn, bars: BARS, ...loose, chance: seededChance(seed) });
        const strokes = demonstrate(groove, how);
        strokes.forEach(({ time, velocity }, index) => {
          expect(time).toBeGreaterThanOrEqual(strokes[index - 1]?.time ?? 0);
          expect(velocity).toBeGreaterThan(0);
          expect(velocity).toBeLessThanOrEqual(1);
        });
        const inBar = beatsPerBar(groove.metre);
        const { clockMs: _, ...steady } = how;
        expect(demonstratedDownbeats(groove, steady)).toEqual(
          Array.from({ length: BARS }, (_, bar) => expect.closeTo((countIn + bar * inBar) / 2, 9)),
        );
        expect(demonstratedBeats(groove, steady).length).toBe(BARS * inBar);
      }),
      { numRuns: 100 },
    );
  });

  test("with a crash after it: one crash and one kick on the one, no time-keeping", () => {
    fc.assert(
      fc.property(filledGroove, ({ groove, fills }) => {
        const strokes = demonstrate(groove, exactly({ fills, bars: BARS }));
        const inBar = beatsPerBar(groove.metre);
        for (const { bar, fill, thenCrash } of fills) {
          const lastBar = bar + fillBars(fill) - 1;
          const one = (lastBar * inBar) / 2;
          const follows = fills.some((other) => other.bar === lastBar + 1 && other.fill.beats % inBar === 0);
          if (!thenCrash || follows) continue;
          const there = strokes.filter(({ time }) => Math.abs(time - one) < 1e-6);
          expect(there.filter(({ voice }) => voice === "crash-left").length).toBe(1);
          expect(there.filter(({ voice }) => voice === "kick").length).toBe(1);
          const families = there
            .filter(({ voice }) => voice !== "crash-left")
            .map(({ voice }) => familyOf(voice));
          expect(families).not.toContain("hats");
          expect(families).not.toContain("cymbals");
        }
      }),
      { numRuns: 100 },
    );
  });
});

/** Strokes of the groove, graces too, that fills take the place of: counted bar by bar, beat by beat. */
function replacedStrokes(groove: Groove, fills: readonly PlacedFill[]): number {
  const inBar = beatsPerBar(groove.metre);
  let count = 0;
  for (const { bar, fill } of fills) {
    const end = (bar + fillBars(fill) - 1) * inBar;
    for (let beat = end - fill.beats; beat < end; beat += 1) {
      const inGroove = beat % (groove.bars * inBar);
      count += strokesOf({
        notes: groove.notes.filter(({ position: { num, den } }) => Math.floor(num / den) === inGroove),
      });
    }
  }
  return count;
}

describe("rock eighths at 60 with two beats of eighths in bar 2", () => {
  const fills = [{ bar: 2, fill: fill("eighths-snare-floor"), thenCrash: true }];
  const strokes = demonstrate(groove("rock-eighths"), exactly({ tempoBpm: 60, bars: 2, fills, countIn: 2 }));
  const from = (time: number) =>
    strokes.filter((stroke) => stroke.time >= time).map(({ time, voice }) => `${time} ${voice}`);

  test("begins with two strokes of the sticks; the first downbeat is 2 s in", () => {
    expect(strokes.slice(0, 3).map(({ time, voice }) => [time, voice])).toEqual([
      [0, "sticks"],
      [1, "sticks"],
      [2, expect.stringMatching(/kick|hi-hat-closed/)],
    ]);
  });

  test("plays the fill alone from beat three of bar 2, and the crash after the last bar", () => {
    expect(from(8)).toEqual([
      "8 snare",
      "8.5 snare",
      "9 floor-tom",
      "9.5 floor-tom",
      "10 kick",
      "10 crash-left",
    ]);
  });
});

test("a fill keeps its own feel", () => {
  const shuffle = groove("shuffle");
  const straight = demonstrate(
    shuffle,
    exactly({ tempoBpm: 60, bars: 1, fills: [{ bar: 1, fill: fill("eighths-snare-floor") }] }),
  );
  expect(straight.filter(({ time }) => time >= 2).map(({ time }) => time)).toEqual([2, 2.5, 3, 3.5]);
  const swung = demonstrate(
    shuffle,
    exactly({ tempoBpm: 60, bars: 1, fills: [{ bar: 1, fill: fill("swung-long-short") }] }),
  );
  expect(swung.filter(({ time }) => time >= 2).map(({ time }) => time)).toEqual(
    [2, 2 + 2 / 3, 3, 3 + 2 / 3].map((time) => expect.closeTo(time, 9)),
  );
});

test("a fill on the one takes the place of the crash of the one before it", () => {
  const fills = [
    { bar: 1, fill: fill("eighths-snare-floor"), thenCrash: true },
    { bar: 2, fill: fill("bar-of-quarters") },
  ];
  const strokes = demonstrate(groove("rock-eighths"), exactly({ bars: 3, fills }));
  expect(strokes.some(({ voice }) => voice === "crash-left")).toBe(false);
});

describe("what does not fit is refused with a sentence", () => {
  const WALTZ = parseGrid("groove: w\nname: W\nmetre: 3/4\ntempo: 80-140\nkick | x.. |");
  const one = { fill: fill("last-beat-eighths"), bar: 1 };
  test.each([
    { groove: WALTZ, fills: [one], says: "last-beat-eighths is in 4/4 and the groove in 3/4" },
    {
      groove: groove("rock-eighths"),
      fills: [{ ...one, bar: 0 }],
      says: "in bar 0: place it within the 4 bars",
    },
    { groove: groove("rock-eighths"), fills: [{ ...one, bar: 5 }], says: "in bar 5" },
    { groove: groove("rock-eighths"), fills: [{ ...one, bar: 1.5 }], says: "in bar 1.5" },
    {
      groove: groove("rock-eighths"),
      fills: [{ bar: 4, fill: fill("two-bars-building") }],
      says: "whose first is 1; it takes 2",
    },
    {
      groove: groove("rock-eighths"),
      fills: [
        { bar: 1, fill: fill("two-bars-building") },
        { ...one, bar: 2 },
      ],
      says: "last-beat-eighths in bar 2 begins before two-bars-building has ended",
    },
  ])("$says", ({ groove, fills, says }) => {
    const play = () => demonstrate(groove, exactly({ bars: 4, fills }));
    expect(play).toThrow(FillPlaceError);
    expect(play).toThrow(says);
  });
});
