import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  fillBars,
  GridError,
  grooveBeats,
  inWholeBars,
  LEVELS,
  parseFill,
  parseGrid,
  printFill,
  startsOnBeat,
} from "../../../engine/score/index.ts";
import { compare, floor, fraction, subtract } from "../../../engine/units/index.ts";
import { METRES, writtenGroove } from "./writtenGrooves.ts";

/** A groove at random headed as a fill, where its first bar has a stroke and it is not too long to be one. */
const writtenFill = fc
  .tuple(writtenGroove, fc.constantFrom(...LEVELS))
  .map(([written, level]) => {
    const beatsInBar = METRES.find(({ metre }) => metre === written.metre)?.beats ?? 0;
    const text = written.text.replace("groove: made-up", `fill: made-up\nlevel: ${level}`);
    return { ...written, text, level, beatsInBar };
  })
  .filter(
    ({ bars, notes, beatsInBar }) =>
      bars <= 2 && notes.some(({ position }) => compare(position, fraction(beatsInBar)) < 0),
  );

describe("any fill", () => {
  test("is read from the beat of its first stroke on", () => {
    fc.assert(
      fc.property(writtenFill, ({ text, level, metre, feel, bars, beatsInBar, notes, voices }) => {
        const fill = parseFill(text);
        const silent = Math.min(...notes.map(({ position }) => floor(position)));
        const sorted = [...notes].sort(
          (a, b) => compare(a.position, b.position) || voices.indexOf(a.voice) - voices.indexOf(b.voice),
        );
        expect(fill).toStrictEqual({
          id: "made-up",
          name: "Made up | here: twice",
          level,
          metre,
          feel,
          tempoBpm: { low: 60, high: 200 },
          beats: bars * beatsInBar - silent,
          voices,
          notes: sorted.map((note) => ({ ...note, position: subtract(note.position, fraction(silent)) })),
        });
        expect(startsOnBeat(fill)).toBe(silent + 1);
        expect(fillBars(fill)).toBe(bars);
      }),
      { numRuns: 300 },
    );
  });

  test("is printed so that it is read back exactly, and printed again the same", () => {
    fc.assert(
      fc.property(writtenFill, ({ text }) => {
        const fill = parseFill(text);
        const printed = printFill(fill);
        expect(parseFill(printed)).toStrictEqual(fill);
        expect(printFill(parseFill(printed))).toBe(printed);
      }),
      { numRuns: 300 },
    );
  });

  test("in whole bars it is the groove of the same lines", () => {
    fc.assert(
      fc.property(writtenFill, ({ text, level }) => {
        const asGroove = text.replace(`fill: made-up\nlevel: ${level}`, "groove: made-up");
        const whole = inWholeBars(parseFill(text));
        expect(whole).toStrictEqual(parseGrid(asGroove));
        expect(grooveBeats(whole)).toBeGreaterThan(0);
      }),
    );
  });
});

const HEAD = "fill: f\nname: F\nlevel: steady\nmetre: 4/4\ntempo: 80-140\n";

// Computed by hand: where a fill begins, and how long it is.
test.each([
  { lines: "snare | ...x |", beats: 1, from: 4 },
  { lines: "snare | .... .... .... ..xx |", beats: 1, from: 4 },
  { lines: "snare | ..xx |", beats: 2, from: 3 },
  { lines: "snare | xxxx |", beats: 4, from: 1 },
  { lines: "snare | x... |", beats: 4, from: 1 },
  { lines: "snare | ...x | xxxx |", beats: 5, from: 4 },
  { lines: "snare | xxxx | xxxx |", beats: 8, from: 1 },
  { lines: "snare | ...x |\nkick | ..x. |", beats: 2, from: 3 },
])("$lines: $beats beats from beat $from", ({ lines, beats, from }) => {
  const fill = parseFill(HEAD + lines);
  expect({ beats: fill.beats, from: startsOnBeat(fill) }).toEqual({ beats, from });
});

test.each([
  { fault: "no fill", text: HEAD.replace("fill: f\n", ""), says: '"fill:" is missing' },
  { fault: "no level", text: HEAD.replace("level: steady\n", ""), says: '"level:" is missing' },
  {
    fault: "no such level",
    text: HEAD.replace("steady", "genius"),
    says: 'Line 3, column 8: "genius" is not a level; the levels are first-year, second-year, steady, working',
  },
  {
    fault: "headed as a groove",
    text: HEAD.replace("fill:", "groove:"),
    says: '"groove" is not a heading; the headings are fill, name, level, metre, feel, tempo',
  },
  { fault: "no stroke", text: HEAD, lines: "snare | .... |", says: "a fill needs a stroke" },
  {
    fault: "a silent first bar",
    text: HEAD,
    lines: "snare | .... | ..xx |",
    says: "the fill’s first bar is silent; leave that bar out",
  },
  {
    fault: "three bars",
    text: HEAD,
    lines: "snare | xxxx | xxxx | xxxx |",
    says: "a fill has one or two bars; this has 3",
  },
])("$fault cannot be read, and it is said why", ({ text, lines = "snare | ..xx |", says }) => {
  const read = () => parseFill(text + lines);
  expect(read).toThrow(GridError);
  expect(read).toThrow(says);
});
