import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { STYLES } from "../../../engine/catalogue/index.ts";
import { GridError, type Note, parseGrid, printGrid } from "../../../engine/score/index.ts";
import { compare, fraction } from "../../../engine/units/index.ts";
import { MARKS, type WrittenGroove, writtenGroove } from "./writtenGrooves.ts";

const HEAD = "groove: g\nname: G\nmetre: 4/4\nfeel: straight\ntempo: 80-140\n";

function sortedNotes({ notes, voices }: Pick<WrittenGroove, "notes" | "voices">): Note[] {
  return [...notes].sort(
    (a, b) => compare(a.position, b.position) || voices.indexOf(a.voice) - voices.indexOf(b.voice),
  );
}

describe("any groove", () => {
  test("is read as it is written", () => {
    fc.assert(
      fc.property(writtenGroove, (written) => {
        const groove = parseGrid(written.text);
        expect(groove).toStrictEqual({
          id: "made-up",
          name: "Made up | here: twice",
          metre: written.metre,
          feel: written.feel,
          tempoBpm: { low: 60, high: 200 },
          bars: written.bars,
          voices: written.voices,
          notes: sortedNotes(written),
        });
      }),
      { numRuns: 300 },
    );
  });

  test("is printed so that it is read back exactly, and printed again the same", () => {
    fc.assert(
      fc.property(writtenGroove, ({ text }) => {
        const groove = parseGrid(text);
        const printed = printGrid(groove);
        expect(parseGrid(printed)).toStrictEqual(groove);
        expect(printGrid(parseGrid(printed))).toBe(printed);
      }),
      { numRuns: 300 },
    );
  });

  test("means the same with other spaces, comments and line ends", () => {
    fc.assert(
      fc.property(writtenGroove, ({ text }) => {
        const loose = text
          .split("\n")
          .flatMap((line) => [
            "# a | comment: with a bar line",
            line.replaceAll(/(?<=\|.*)([.xX])/g, "$1 "),
            "",
          ])
          .join("\r\n");
        expect(parseGrid(loose)).toStrictEqual(parseGrid(text));
      }),
    );
  });
});

test.each(STYLES.flatMap(({ variants }) => variants))(
  "$id of the stock is printed and read back",
  (groove) => {
    expect(parseGrid(printGrid(groove))).toStrictEqual(groove);
  },
);

test.each(MARKS)("the mark $mark", ({ mark, ...how }) => {
  expect(parseGrid(`${HEAD}snare | ..${mark}. |`).notes).toStrictEqual([
    { position: fraction(2), voice: "snare", ...how },
  ]);
});

test("each bar chooses its own grid", () => {
  const { notes, bars } = parseGrid(
    `${HEAD}snare | .x | ...x | .....x | .......x | ...........x | .......x.......x |`,
  );
  expect(bars).toBe(6);
  expect(notes.map(({ position }) => position)).toEqual([
    fraction(2),
    fraction(4 + 3),
    fraction(8 * 3 + 10, 3),
    fraction(12 * 2 + 7, 2),
    fraction(16 * 3 + 11, 3),
    fraction(20 * 4 + 7, 4),
    fraction(20 * 4 + 15, 4),
  ]);
});

test("a voice may go on over several lines, hands under each", () => {
  const groove = parseGrid(`${HEAD}snare | x.x. |\nhands | R.L. |\nsnare | xx.. |\nhands | L... |`);
  expect(groove.bars).toBe(2);
  expect(groove.notes.map(({ position, hand }) => [position.num, hand])).toEqual([
    [0, "R"],
    [2, "L"],
    [4, "L"],
    [5, undefined],
  ]);
});

test("notes at one place stand in the order of the lines", () => {
  const groove = parseGrid(`${HEAD}kick | x... |\nride | x... |\nsnare | x... |`);
  expect(groove.notes.map(({ voice }) => voice)).toEqual(["kick", "ride", "snare"]);
});

test("without a feel it is straight", () => {
  expect(parseGrid("groove: g\nname: G\nmetre: 4/4\ntempo: 80-140\nkick | x |").feel).toEqual({
    kind: "straight",
  });
});

test("a grid finer than can be read in whole beats is printed by its strokes", () => {
  // 32 places in a bar of seven: in whole beats it would take 224 marks, more than are read.
  const groove = parseGrid(`groove: g\nname: G\nmetre: 7/8\ntempo: 80-140\nsnare | .x${".".repeat(30)} |`);
  expect(groove.notes[0]?.position).toEqual(fraction(7, 32));
  expect(parseGrid(printGrid(groove))).toStrictEqual(groove);
});

describe("what cannot be read is said with line and column", () => {
  const grid = (voiceLines: string) => `${HEAD}${voiceLines}`;
  test.each([
    {
      fault: "no groove",
      text: "name: G\nmetre: 4/4\ntempo: 80-140\nkick | x |",
      line: 4,
      column: 1,
      says: '"groove:" is missing',
    },
    {
      fault: "no metre",
      text: "groove: g\nname: G\ntempo: 80-140\nkick | x |",
      line: 4,
      column: 1,
      says: '"metre:" is missing',
    },
    {
      fault: "no tempo",
      text: "groove: g\nname: G\nmetre: 4/4\nkick | x |",
      line: 4,
      column: 1,
      says: '"tempo:" is missing',
    },
    {
      fault: "an empty name",
      text: `${HEAD.replace("name: G", "name:")}kick | x |`,
      line: 2,
      column: 1,
      says: '"name:" is missing',
    },
    {
      fault: "a metre of nothing",
      text: `${HEAD.replace("4/4", "0/4")}kick | x |`,
      line: 3,
      column: 8,
      says: '"0/4" is not a metre',
    },
    {
      fault: "a metre in thirds",
      text: `${HEAD.replace("4/4", "4/3")}kick | x |`,
      line: 3,
      column: 8,
      says: '"4/3" is not a metre such as 4/4 or 12/8',
    },
    {
      fault: "an id with capitals",
      text: `${HEAD.replace("groove: g", "groove:   Big One")}kick | x |`,
      line: 1,
      column: 11,
      says: '"Big One" is not an id',
    },
    {
      fault: "another feel",
      text: `${HEAD.replace("straight", "laid back")}kick | x |`,
      line: 4,
      column: 7,
      says: '"laid back" is not a feel',
    },
    {
      fault: "too much swing",
      text: `${HEAD.replace("straight", "swung 5 eighths")}kick | x |`,
      line: 4,
      column: 7,
      says: "a swing ratio of 5 is outside 1 (straight) to 4",
    },
    {
      fault: "swung backwards",
      text: `${HEAD.replace("straight", "swung 0.5 eighths")}kick | x |`,
      line: 4,
      column: 7,
      says: "ratio of 0.5",
    },
    {
      fault: "tempos turned round",
      text: `${HEAD.replace("80-140", "140-80")}kick | x |`,
      line: 5,
      column: 8,
      says: '"140-80" is not a range of tempos',
    },
    {
      fault: "a tempo beyond playing",
      text: `${HEAD.replace("80-140", "80-500")}kick | x |`,
      line: 5,
      column: 8,
      says: '"80-500"',
    },
    {
      fault: "a heading said twice",
      text: `${HEAD}name: H\nkick | x |`,
      line: 6,
      column: 1,
      says: '"name" is said twice',
    },
    {
      fault: "no such heading",
      text: `${HEAD}colour: red\nkick | x |`,
      line: 6,
      column: 1,
      says: '"colour" is not a heading; the headings are groove, name, metre, feel, tempo',
    },
    {
      fault: "a stray word",
      text: `${HEAD}  what is this\nkick | x |`,
      line: 6,
      column: 3,
      says: '"what is this" is neither',
    },
    {
      fault: "no such voice",
      text: grid(" gong | x |"),
      line: 6,
      column: 2,
      says: '"gong" is not a voice of the kit',
    },
    {
      fault: "no such mark",
      text: grid("kick | x..y |"),
      line: 6,
      column: 11,
      says: '"y" is not a mark; use . x X g f F h d D e',
    },
    {
      fault: "no such hand",
      text: grid("kick  | x..x |\nhands | R..M |"),
      line: 7,
      column: 12,
      says: '"M" is not a hand',
    },
    {
      fault: "a hand without a stroke",
      text: grid("kick  | x..x |\nhands | .R.. |"),
      line: 7,
      column: 10,
      says: "a hand is named where the voice above has no stroke",
    },
    {
      fault: "hands first",
      text: grid("hands | R... |"),
      line: 6,
      column: 1,
      says: '"hands" must stand under the line of a voice',
    },
    {
      fault: "hands over too few bars",
      text: grid("kick  | x | x |\nhands | R |"),
      line: 7,
      column: 1,
      says: "another number of bars than kick",
    },
    {
      fault: "an open last bar",
      text: grid("kick | x..."),
      line: 6,
      column: 11,
      says: "not closed with a bar line",
    },
    { fault: "an empty bar", text: grid("kick | x | |"), line: 6, column: 12, says: "a bar has no marks" },
    {
      fault: "one bar line only",
      text: grid("kick |"),
      line: 6,
      column: 6,
      says: "there is no bar between bar lines",
    },
    {
      fault: "unequal bars",
      text: grid("kick | x | x |\nsnare | x |"),
      line: 7,
      column: 1,
      says: "snare has 1 bars where the first voice has 2",
    },
    { fault: "no voice", text: HEAD, line: 6, column: 1, says: "there is no line of a voice" },
    {
      fault: "a bar without end",
      text: grid(`kick | ${"x".repeat(193)} |`),
      line: 6,
      column: 202,
      says: "a bar has 193 marks; at most 192",
    },
  ])("$fault", ({ text, line, column, says }) => {
    let thrown: unknown;
    try {
      parseGrid(text);
    } catch (error) {
      thrown = error;
    }
    if (!(thrown instanceof GridError)) throw new Error(`It was read, or failed otherwise: ${thrown}`);
    expect({ line: thrown.line, column: thrown.column }).toEqual({ line, column });
    expect(thrown.message).toMatch(`Line ${line}, column ${column}: `);
    expect(thrown.message).toContain(says);
  });

  test("no text whatever fails in another way", () => {
    const anything = fc.oneof(
      fc.string(),
      fc.string({ unit: fc.constantFrom("|", "x", ".", "\n", " ", "kick", "hands", ":", "R", "é", "🥁") }),
    );
    fc.assert(
      fc.property(anything, (text) => {
        for (const whole of [text, HEAD + text]) {
          try {
            expect(parseGrid(whole).bars).toBeGreaterThan(0);
          } catch (error) {
            expect(error).toBeInstanceOf(GridError);
          }
        }
      }),
      { numRuns: 500 },
    );
  });
});
