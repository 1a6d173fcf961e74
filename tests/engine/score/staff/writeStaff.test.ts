import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { FILLS, STYLES } from "../../../../engine/catalogue/index.ts";
import {
  barLength,
  groupingName,
  inWholeBars,
  parseFill,
  parseGrid,
  StaffError,
  type StaffPartBar,
  type StaffScore,
  type StaffSource,
  type StaffSymbol,
  valueLength,
  writeStaff,
} from "../../../../engine/score/index.ts";
import { add, compare, type Fraction, fraction, multiply } from "../../../../engine/units/index.ts";
import { writtenGroove } from "../writtenGrooves.ts";

const HEAD = (metre: string, feel = "straight") =>
  `groove: g\nname: G\nmetre: ${metre}\nfeel: ${feel}\ntempo: 80-140\n`;

/** The symbols as a reader would say them: `8`, `8.`, a rest as `r4`, a tuplet's in brackets with its ratio. */
function said({ symbols, tuplets }: StaffPartBar): string {
  const say = ({ kind, value }: StaffSymbol) =>
    `${kind === "rest" ? "r" : ""}${value.base}${value.dots === 1 ? "." : ""}`;
  return symbols
    .map((symbol, index) => {
      const opens = tuplets.find(({ first }) => first === index);
      const closes = tuplets.some(({ last }) => last === index);
      return `${opens ? `${opens.actual}:${opens.normal}[` : ""}${say(symbol)}${closes ? "]" : ""}`;
    })
    .join(" ");
}

function bar(metre: string, lines: string, feel?: string): readonly StaffPartBar[] {
  return writeStaff(parseGrid(HEAD(metre, feel) + lines)).bars[0]?.parts ?? [];
}

function beamed({ beams }: StaffPartBar): string {
  return beams.map(({ first, last }) => `${first}-${last}`).join(" ");
}

function hands(metre: string, lines: string, feel?: string): StaffPartBar {
  const [part] = bar(metre, lines, feel);
  if (!part) throw new Error("no part was written");
  return part;
}

const sum = (lengths: readonly Fraction[]) => lengths.reduce(add, fraction(0));

function expectLawful(source: StaffSource, score: StaffScore): void {
  expect(score.bars).toHaveLength(source.bars);
  const indexes: number[] = [];
  for (const { parts } of score.bars) {
    for (const { symbols, tuplets, beams } of parts) {
      // Each part fills the bar, without a gap.
      expect(sum(symbols.map(({ length }) => length))).toStrictEqual(barLength(source.metre));
      symbols.forEach(({ start }, index) => {
        expect(start).toStrictEqual(sum(symbols.slice(0, index).map(({ length }) => length)));
      });
      symbols.forEach((symbol, index) => {
        // Written and lasting length agree, in a tuplet by its ratio.
        const tuplet = tuplets.find(({ first, last }) => index >= first && index <= last);
        const ratio = tuplet ? fraction(tuplet.normal, tuplet.actual) : fraction(1);
        if (symbol.kind === "rest" && symbol.wholeBar) expect(symbols).toHaveLength(1);
        else expect(multiply(valueLength(symbol.value), ratio)).toStrictEqual(symbol.length);
        if (symbol.kind === "chord") {
          expect(symbol.heads.length).toBeGreaterThan(0);
          indexes.push(...symbol.heads.map((head) => head.index));
        }
      });
      tuplets.forEach(({ actual, unit, first, last }, index) => {
        expect(sum(symbols.slice(first, last + 1).map(({ value }) => valueLength(value)))).toStrictEqual(
          fraction(actual, unit),
        );
        expect(first).toBeGreaterThan(tuplets[index - 1]?.last ?? -1);
      });
      beams.forEach(({ first, last }, index) => {
        expect(first).toBeGreaterThan(beams[index - 1]?.last ?? -1);
        expect(last).toBeGreaterThan(first);
        expect([symbols[first]?.kind, symbols[last]?.kind]).toStrictEqual(["chord", "chord"]);
        for (const { value } of symbols.slice(first, last + 1)) expect(value.base).toBeGreaterThan(4);
      });
    }
  }
  expect(indexes.sort((a, b) => a - b)).toStrictEqual(source.notes.map((_, index) => index));
}

describe("laws", () => {
  test("of any groove from any grid", () => {
    fc.assert(
      fc.property(writtenGroove, ({ text }) => {
        const groove = parseGrid(text);
        expectLawful(groove, writeStaff(groove));
      }),
      { numRuns: 400 },
    );
  });

  test("of any two grids at once, however little they have in common", () => {
    const marks = fc.integer({ min: 1, max: 192 });
    const metre = fc.constantFrom("4/4", "3/4", "7/8", "12/8", "5/4", "5/16", "2/2", "1/8");
    fc.assert(
      fc.property(metre, marks, marks, (metre, one, other) => {
        const groove = parseGrid(
          `${HEAD(metre)}snare | ${"x".repeat(one)} |\nride | ${".".repeat(other - 1)}x |`,
        );
        expectLawful(groove, writeStaff(groove));
      }),
      { numRuns: 300 },
    );
  });

  test.each(STYLES.flatMap(({ variants }) => variants))("of $id", (groove) => {
    const score = writeStaff(groove, { repeated: true });
    expectLawful(groove, score);
    expect(score.repeated).toBe(true);
  });

  test.each(FILLS)("of the fill $id", (fill) => {
    expectLawful(inWholeBars(fill), writeStaff(inWholeBars(fill)));
  });
});

test.each([
  ["4/4", "x...x...x...x...", "4 4 4 4"],
  ["4/4", "x.x.x.x.x.x.x.x.", "8 8 8 8 8 8 8 8"],
  ["4/4", "x..x.x..xxx...xx", "8. 16 r16 8. 16 16 8 r8 16 16"],
  ["4/4", "x.......x.......", "4 r4 4 r4"],
  ["4/4", "x...............", "4 r4 r2"],
  ["4/4", "........x.......", "r2 4 r4"],
  ["4/4", "................", "r1"],
  ["4/4", "...............x", "r2 r4 r8 r16 16"],
  ["3/4", "x...........", "4 r4 r4"],
  ["2/2", "x.x.xx..", "4 4 8 4."],
  ["4/4", "x.xx.xx..xxx", "3:2[4 8] 3:2[4 8] 4 3:2[8 8 8]"],
  ["4/4", "xxxxxxxxxxxxx..xxxx.....", "6:4[16 16 16 16 16 16] 6:4[16 16 16 16 16 16] 8 3:2[16 16 16] 4"],
  ["4/4", "xxxxx", "5:4[4 4 4 4 4]"],
  ["4/4", "xxxxxx", "3:2[4 4 4] 3:2[4 4 4]"],
  ["4/4", "xxx", "3:2[2 2 2]"],
  ["12/8", "x..x.x.x.xxx", "4. 4 8 r8 4 8 8 8"],
  ["12/8", "x.....x.....", "4. r4. 4. r4."],
  ["6/8", "x.xxx.x.....", "8 16 16 8 4."],
  ["6/8", "xx", "4. 4."],
  ["6/8", "xxxx", "2:3[8 8] 2:3[8 8]"],
  ["7/8", "x.x.x..", "4 4 4."],
  ["7/8", "xxxxxxx", "8 8 8 8 8 8 8"],
  ["3/8", "x.x", "4 8"],
])("in %s, %s is written %s", (metre, grid, expected) => {
  expect(said(hands(metre, `snare | ${grid} |\nride | ${grid} |`))).toBe(expected);
});

test.each([
  ["4/4", "x.x.x.x.x.x.x.x.", "0-1 2-3 4-5 6-7"],
  ["12/8", "xxxxxxxxxxxx", "0-2 3-5 6-8 9-11"],
  ["6/8", "x.xxxx", "2-4"],
  ["7/8", "xxxxxxx", "0-1 2-3 4-6"],
  ["4/4", ".xx..x.x........", "1-2 4-5"],
])("in %s the beams of %s are %s", (metre, grid, expected) => {
  expect(beamed(hands(metre, `snare | ${grid} |`))).toBe(expected);
});

test.each([
  ["7/8", "kick | x..x.x. |", "3+2+2"],
  ["7/8", "kick | x.x..x. |", "2+3+2"],
  ["7/8", "kick | x.x.x.. |", "2+2+3"],
  ["7/8", "ride | xxxxxxx |", "2+2+3"],
  ["8/8", "kick | x..x..x. |", "3+3+2"],
  ["5/8", "kick | x..x. |", "3+2"],
  ["5/4", "kick | x..x. |", "1+1+1+1+1"],
  ["5/16", "kick | x.x.. |", "2+3"],
])("in %s, %s makes groups of %s", (metre, line, expected) => {
  const score = writeStaff(parseGrid(HEAD(metre) + line));
  expect(groupingName(score.metre, score.groups)).toBe(expected);
});

describe("swing", () => {
  test("in even eighths is written as it stands, under a mark", () => {
    const groove = parseGrid(`${HEAD("4/4", "swung 2 eighths")}ride | x.xx |\nsnare | xxxxxxxx |`);
    expect(writeStaff(groove).swing).toStrictEqual({ unit: "eighths", ratio: 2 });
    expect(writeStaff(groove).bars[0]?.parts.map(said)).toStrictEqual(["8 8 8 8 8 8 8 8"]);
  });

  test("in triplets is written in even eighths, its one full triplet as a triplet", () => {
    const groove = parseGrid(
      `${HEAD("4/4", "swung 2.5 triplets")}ride | x.x x.x x.x xxx |\nkick | ..x ... ... ..x |`,
    );
    const score = writeStaff(groove);
    expect(score.swing).toStrictEqual({ unit: "eighths", ratio: 2.5 });
    expect(score.bars[0]?.parts.map(said)).toStrictEqual(["8 8 8 8 8 8 3:2[8 8 8]", "r8 8 r4 r4 3:2[r4 8]"]);
  });

  test("in triplets that are mostly full stays in triplets, without a mark", () => {
    const score = writeStaff(parseGrid(`${HEAD("4/4", "swung 2 triplets")}snare | xxx x.x xxx x.. |`));
    expect(score.swing).toBeUndefined();
    expect(score.bars[0]?.parts.map(said)).toStrictEqual(["3:2[8 8 8] 3:2[4 8] 3:2[8 8 8] 4"]);
  });
});

test("hands and feet are parts of their own, and a part that is never played is not written", () => {
  const parts = bar("4/4", "hi-hat-closed | x.x. |\nkick | x... |\nhi-hat-pedal | ..x. |");
  expect(parts.map(({ part }) => part)).toStrictEqual(["hands", "feet"]);
  expect(parts.map(said)).toStrictEqual(["4 r4 4 r4", "4 r4 4 r4"]);
  expect(bar("4/4", "snare | x... |").map(({ part }) => part)).toStrictEqual(["hands"]);
});

test("a chord names its heads from the lowest up, with accents on the stem", () => {
  const chord = hands("4/4", "hi-hat-open | x |\nsnare | F |").symbols[0];
  expect(chord).toMatchObject({ kind: "chord", accent: true });
  expect(chord?.kind === "chord" && chord.heads.map(({ place }) => place)).toStrictEqual([
    { step: "C", octave: 5, head: "normal" },
    { step: "G", octave: 5, head: "x", open: true },
  ]);
  expect(chord?.kind === "chord" && chord.heads.map(({ note }) => note.ornament)).toStrictEqual([
    "flam",
    undefined,
  ]);
});

test("a bar like the one before it is told, and the tempo is given in the beat of the metre", () => {
  const score = writeStaff(parseGrid(`${HEAD("12/8")}snare | x... | x... | ..x. |`), { tempoBpm: 66 });
  expect(score.bars.map(({ sameAsBefore }) => sameAsBefore)).toStrictEqual([false, true, false]);
  expect(score.tempo).toStrictEqual({ beat: { base: 4, dots: 1 }, low: 66, high: 66 });
});

test("a fill is written in whole bars, with rests before it", () => {
  const fill = parseFill("fill: f\nname: F\nlevel: steady\nmetre: 4/4\ntempo: 60-90\nsnare | . . . x |");
  const [first] = writeStaff(inWholeBars(fill)).bars[0]?.parts ?? [];
  expect(first && said(first)).toBe("r2 r4 4");
});

test("a stroke outside the bars is refused in words", () => {
  const groove = parseGrid(`${HEAD("4/4")}snare | x | x |`);
  expect(() => writeStaff({ ...groove, bars: 1 })).toThrow(StaffError);
  expect(() => writeStaff({ ...groove, bars: 1 })).toThrow(
    "A stroke of snare at beat 4/1 lies outside the 1 bars of 4/4",
  );
});

test("places so close that no one could tell them apart keep their order", () => {
  const groove = parseGrid(`${HEAD("4/4")}snare | ${"x".repeat(113)} |\nride | ${"x".repeat(127)} |`);
  const [part] = writeStaff(groove).bars[0]?.parts ?? [];
  const places = (part?.symbols ?? []).flatMap((symbol) =>
    symbol.kind === "chord" ? symbol.heads.map((head) => ({ ...head, start: symbol.start })) : [],
  );
  for (const voice of ["snare", "ride"]) {
    const starts = places.filter(({ note }) => note.voice === voice).map(({ start }) => start);
    expect(
      starts.every((start, index) => index === 0 || compare(start, starts[index - 1] ?? start) > 0),
    ).toBe(true);
  }
});
