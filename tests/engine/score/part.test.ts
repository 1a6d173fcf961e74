import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { FILLS, STYLES } from "../../../engine/catalogue/index.ts";
import {
  beatsPerBar,
  type Fill,
  fillBars,
  GridError,
  type Groove,
  type Part,
  parsePart,
  printPart,
  unfolded,
} from "../../../engine/score/index.ts";
import { toNumber } from "../../../engine/units/index.ts";

const TEXT = `part: river-road
name: River road

section: Verse
tempo: 92
play: eighths, 2 bars
play: eighths, 1 bar, ending toms

# Twice in the last chorus.
section: Chorus
tempo: 96.5
times: 2
play: open, 2 bars

groove: eighths
name: Eighths
metre: 4/4
tempo: 80-140
hi-hat-closed | xxxx xxxx |
kick          | x... x... |

groove: open
name: Open
metre: 4/4
tempo: 80-140
hi-hat-open | xxxx |

fill: toms
name: Toms
level: steady
metre: 4/4
tempo: 60-110
high-tom | .... .... xxxx xxxx |
`;

describe("a part", () => {
  const part = parsePart(TEXT);

  test("is its sections of grooves and fills", () => {
    expect(part.sections.map(({ name, tempoBpm, times }) => [name, tempoBpm, times])).toEqual([
      ["Verse", 92, 1],
      ["Chorus", 96.5, 2],
    ]);
    expect(part.sections[0]?.passages.map(({ groove, bars, fill }) => [groove.id, bars, fill?.id])).toEqual([
      ["eighths", 2, undefined],
      ["eighths", 1, "toms"],
    ]);
  });

  test("unfolded it is every bar in a row, with its tempo, and the fill in place of the groove's last beats", () => {
    const stretches = unfolded(part);
    expect(stretches.map(({ bars, tempoBpm, section }) => [bars, tempoBpm, section])).toEqual([
      [2, 92, "Verse"],
      [1, 92, undefined],
      [2, 96.5, "Chorus"],
      [2, 96.5, "Chorus"],
    ]);
    expect(stretches.map(({ notes }) => notes.length)).toEqual([20, 13, 8, 8]);
    const [, filled] = stretches;
    expect(filled?.notes.map(({ voice, position }) => [voice, toNumber(position)]).slice(-9)).toEqual([
      ["hi-hat-closed", 1.5],
      ...Array.from({ length: 8 }, (_, step) => ["high-tom", 2 + step / 4]),
    ]);
  });

  test("is printed and read back exactly", () => {
    expect(parsePart(printPart(part))).toEqual(part);
  });
});

const grooves = STYLES.flatMap(({ variants }) => variants);
const passage = fc
  .tuple(fc.constantFrom<Groove>(...grooves), fc.integer({ min: 1, max: 12 }))
  .chain(([groove, bars]) => {
    const fitting = FILLS.filter(
      (fill) => beatsPerBar(fill.metre) === beatsPerBar(groove.metre) && fillBars(fill) <= bars,
    );
    const fill = fitting.length === 0 ? fc.constant(null) : fc.option(fc.constantFrom<Fill>(...fitting));
    return fill.map((chosen) => ({ groove, bars, ...(chosen ? { fill: chosen } : {}) }));
  });
const anyPart: fc.Arbitrary<Part> = fc.record({
  id: fc.constant("made-up"),
  name: fc.constant("Made up: twice"),
  sections: fc.array(
    fc.record({
      name: fc.constantFrom("Verse", "Chorus: loud", "Bridge 2"),
      tempoBpm: fc.integer({ min: 20, max: 400 }),
      times: fc.integer({ min: 1, max: 4 }),
      passages: fc.array(passage, { minLength: 1, maxLength: 4 }),
    }),
    { minLength: 1, maxLength: 4 },
  ),
});

test("any part of the stock is printed and read back exactly, and every stroke of it lies in its bars", () => {
  fc.assert(
    fc.property(anyPart, (part) => {
      expect(parsePart(printPart(part))).toEqual(part);
      for (const { notes, bars, metre } of unfolded(part)) {
        const end = bars * beatsPerBar(metre);
        expect(notes.every(({ position }) => toNumber(position) >= 0 && toNumber(position) < end)).toBe(true);
      }
    }),
    { numRuns: 60 },
  );
});

test.each([
  {
    fault: "a groove that is not there",
    from: "play: eighths, 2 bars",
    to: "play: nothing, 2 bars",
    says: 'Line 6, column 1: the groove "nothing" is not written below.',
  },
  {
    fault: "a fill that is not there",
    from: "ending toms",
    to: "ending drums",
    says: 'Line 7, column 1: the fill "drums" is not written below.',
  },
  {
    fault: "no bars",
    from: "eighths, 2 bars",
    to: "eighths, 0 bars",
    says: 'Line 6, column 1: "eighths, 0 bars" is not understood',
  },
  {
    fault: "a tempo that is none",
    from: "tempo: 92",
    to: "tempo: fast",
    says: '"tempo:" must be a number from 20 to 400',
  },
  {
    fault: "a heading that is none",
    from: "times: 2",
    to: "twice: 2",
    says: 'Line 12, column 1: "twice" is not a heading of a section',
  },
  { fault: "a mark in a groove", from: "| x... x... |", to: "| x..y x... |", says: "Line 20, column 20" },
  {
    fault: "a groove twice",
    from: "groove: open",
    to: "groove: eighths",
    says: '"eighths" is written twice',
  },
  {
    fault: "no section",
    from: TEXT.slice(TEXT.indexOf("section: Verse"), TEXT.indexOf("groove: eighths")),
    to: "",
    says: "a part needs a section",
  },
  { fault: "a name that is missing", from: "name: River road\n", to: "", says: '"name:" is missing' },
  {
    fault: "too many bars",
    from: "play: open, 2 bars",
    to: "play: open, 1999 bars",
    says: "the part has 4001 bars",
  },
])("$fault is said with its line", ({ from, to, says }) => {
  expect(TEXT).toContain(from);
  const read = () => parsePart(TEXT.replace(from, to));
  expect(read).toThrow(GridError);
  expect(read).toThrow(says);
});
