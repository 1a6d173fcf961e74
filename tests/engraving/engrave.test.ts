import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { FILLS, STYLES } from "../../engine/catalogue/index.ts";
import { VOICES } from "../../engine/kit/index.ts";
import {
  FOUR_FOUR,
  type Groove,
  inWholeBars,
  type Note,
  parseGrid,
  STRAIGHT,
  staffPartOf,
  staffPlace,
  writeStaff,
} from "../../engine/score/index.ts";
import { compare, fraction } from "../../engine/units/index.ts";
import {
  type Difference,
  type Engraving,
  EngravingError,
  engrave,
  fittingSpace,
  type PlacedSymbol,
} from "../../engraving/index.ts";
import { writtenGroove } from "../engine/score/writtenGrooves.ts";

const styleGroove = (id: string): Groove => {
  const groove = STYLES.flatMap(({ variants }) => variants).find((groove) => groove.id === id);
  if (!groove) throw new Error(`The catalogue has no ${id}.`);
  return groove;
};
const groove = (lines: string, metre = "4/4"): Groove =>
  parseGrid(`groove: g\nname: G\nmetre: ${metre}\nfeel: straight\ntempo: 80-140\n${lines}`);
const engraved = (of: Groove, width = 700): Engraving =>
  engrave([{ score: writeStaff(of, { repeated: true }) }], { width });

/**
 * What must hold of every picture: in each part notes stand in order without touching, within their bar, their heads beside
 * or over each other; and all that is struck is there.
 */
function expectNoOverlap(of: Groove, { symbols, bars, width, height }: Engraving): void {
  expect(Number.isFinite(height)).toBe(true);
  expect(bars.map(({ index }) => index).sort((a, b) => a - b)).toStrictEqual([...Array(of.bars).keys()]);
  const inLine = new Map<string, PlacedSymbol[]>();
  for (const symbol of symbols) {
    const key = `${symbol.bar} ${symbol.part}`;
    inLine.set(key, [...(inLine.get(key) ?? []), symbol]);
  }
  for (const line of inLine.values()) {
    line.forEach((symbol, at) => {
      const next = line[at + 1];
      if (next) expect(next.left).toBeGreaterThanOrEqual(symbol.right - 0.01);
    });
  }
  // What sounds together in hands and feet stands together.
  for (const bar of bars) {
    const inBar = symbols.filter((each) => each.bar === bar.index);
    expect(Math.min(bar.notesLeft, ...inBar.map(({ left }) => left))).toBeGreaterThanOrEqual(bar.notesLeft);
    const end = bar.left + bar.width;
    expect(Math.max(end, ...inBar.map(({ right }) => right))).toBeLessThanOrEqual(end);
    const chords = symbols.filter((each) => each.bar === bar.index && each.symbol.kind === "chord");
    for (const a of chords) {
      for (const b of chords) {
        const order = Math.sign(compare(a.symbol.start, b.symbol.start));
        const [left, right] = [tickOf(a), tickOf(b)];
        if (order < 0) expect(left).toBeLessThan(right);
        if (order === 0) expect(Math.abs(left - right)).toBeLessThanOrEqual(SAME_TICK);
      }
    }
  }
  for (const { heads } of symbols) {
    for (const [at, a] of heads.entries()) {
      for (const b of heads.slice(at + 1)) {
        const [left, right] = a.left <= b.left ? [a, b] : [b, a];
        const aside = left.right - right.left <= STEM && left.left < right.left;
        expect(aside || Math.abs(a.y - b.y) >= HEAD).toBe(true);
      }
    }
  }
  const indexes = symbols.flatMap(({ heads }) => heads.map(({ index }) => index));
  expect(indexes.sort((a, b) => a - b)).toStrictEqual([...Array(of.notes.length).keys()]);
  expect(width).toBeGreaterThan(0);
}

/** Seconds may push a head of one part over to the other side of its stem: a head's width. */
const SAME_TICK = 14;
/** Heads on both sides of a stem meet in it. */
const STEM = 1;
/** A head is a space high; places are rounded. */
const HEAD = 9.9;

function tickOf({ left }: PlacedSymbol): number {
  return left;
}

describe("nothing overlaps, and every stroke is there", () => {
  test.each(STYLES.flatMap(({ variants }) => variants))("in $id", (groove) => {
    expectNoOverlap(groove, engraved(groove));
  });

  test.each(FILLS)("in the fill $id", (fill) => {
    expectNoOverlap(inWholeBars(fill), engraved(inWholeBars(fill)));
  });

  test("in any groove of any grid, on a page of any width", () => {
    fc.assert(
      fc.property(writtenGroove, fc.integer({ min: 200, max: 1600 }), ({ text }, width) => {
        const groove = parseGrid(text);
        expectNoOverlap(groove, engraved(groove, width));
      }),
      // Drawn anew at each run; what fails is told with its seed.
      { numRuns: 200 },
    );
  }, 180_000);
});

test("any two strokes of the hands at once have heads beside or over one another, never on one another", () => {
  const hands = VOICES.filter((voice) => staffPartOf(voice) === "hands");
  const pairs = hands.flatMap((one, at) => hands.slice(at + 1).map((other) => [one, other] as const));
  const notes = pairs.flatMap(([one, other], bar): Note[] =>
    [one, other].map((voice) => ({ position: fraction(bar * 4), voice, dynamic: "plain" })),
  );
  const { symbols } = engrave(
    [{ score: writeStaff({ metre: FOUR_FOUR, feel: STRAIGHT, bars: pairs.length, notes }) }],
    { width: 1000 },
  );
  const chords = symbols.filter(({ heads }) => heads.length > 0);
  expect(chords).toHaveLength(pairs.length);
  for (const { heads } of chords) {
    const [a, b] = heads;
    const aside = Math.abs((a?.left ?? 0) - (b?.left ?? 0)) >= ((a?.right ?? 0) - (a?.left ?? 0)) * 0.75;
    expect(aside || Math.abs((a?.y ?? 0) - (b?.y ?? 0)) >= 10).toBe(true);
  }
});

describe("on the staff", () => {
  // Weinberg 1994: the snare in the third space, the kick in the first, the hi-hat above the top line.
  const { symbols } = engraved(groove("hi-hat-closed | x |\nsnare | x |\nkick | x |"));
  const yOf = (voice: string) =>
    symbols.flatMap(({ symbol, heads }) =>
      heads.flatMap(({ index, y }) =>
        symbol.kind === "chord" &&
        symbol.heads.some((head) => head.index === index && head.note.voice === voice)
          ? [y]
          : [],
      ),
    )[0] ?? Number.NaN;

  test("heads stand a space apart for two steps", () => {
    expect(yOf("kick") - yOf("snare")).toBe(20);
    expect(yOf("snare") - yOf("hi-hat-closed")).toBe(20);
  });

  test("hands have their stems up, feet down", () => {
    const [hands, feet] = [
      symbols.find(({ part }) => part === "hands"),
      symbols.find(({ part }) => part === "feet"),
    ];
    expect(hands?.top).toBeLessThan(yOf("hi-hat-closed") - 20);
    expect(feet?.bottom).toBeGreaterThan(yOf("kick") + 20);
  });
});

describe("systems", () => {
  const long = { ...groove(`snare | ${"x x x x | ".repeat(8)}`), name: "Long" };

  test("fill the width, with like many bars on each", () => {
    const { bars } = engraved(long, 900);
    const rows = new Map<number, number>();
    for (const { top } of bars) rows.set(top, (rows.get(top) ?? 0) + 1);
    expect([...rows.values()]).toStrictEqual([2, 2, 2, 2]);
    for (const { left, width } of bars) expect(left + width).toBeLessThanOrEqual(900.01);
  });

  test("grow larger with the space between the lines", () => {
    const [small, large] = [10, 20].map((space) =>
      engrave([{ score: writeStaff(groove("snare | x... |")) }], { width: 800, space }),
    );
    expect(large?.height).toBeCloseTo(2 * (small?.height ?? 0), -1);
  });

  test("a space can be found at which all bars stand on one line", () => {
    const staves = [{ score: writeStaff(long) }];
    const space = fittingSpace(staves, 1200, { least: 3, most: 20 });
    expect(space).toBeGreaterThan(3);
    expect(new Set(engrave(staves, { width: 1200, space }).bars.map(({ top }) => top)).size).toBe(1);
    expect(
      new Set(engrave(staves, { width: 1200, space: space * 1.3 }).bars.map(({ top }) => top)).size,
    ).toBe(2);
    expect(fittingSpace(staves, 100, { least: 6, most: 20 })).toBe(6);
  });

  test("a bar like the one before it can be a simile sign", () => {
    const count = (simile: boolean) =>
      engrave([{ score: writeStaff(long) }], { width: 900, simile }).symbols.length;
    expect(count(false)).toBe(32);
    expect(count(true)).toBe(4);
  });
});

describe("written over heard", () => {
  const source = groove("hi-hat-closed | xxxx |\nsnare | .x.x |\nkick | x.x. |");
  const over = (differences: ReadonlyMap<number, Difference>) =>
    engrave(
      [
        { score: writeStaff(source), label: "written" },
        { score: writeStaff(source), label: "heard", differences },
      ],
      { width: 700 },
    );
  const marksOf = (difference: Difference) =>
    over(new Map([[0, difference]]))
      .paths.filter(({ tone }) => tone === "mark")
      .map(({ d }) => d)
      .join(" ");

  test("what is written together stands together in both staves", () => {
    const { symbols } = over(new Map());
    const lefts = (staff: number) => symbols.flatMap((each) => (each.staff === staff ? [each.left] : []));
    expect(lefts(0)).toStrictEqual(lefts(1));
    expect(lefts(0).length).toBeGreaterThan(4);
  });

  test("nothing is marked where nothing differs", () => {
    expect(over(new Map()).paths.filter(({ tone }) => tone === "mark")).toStrictEqual([]);
  });

  test("each difference has a shape of its own", () => {
    const shapes = [
      { kind: "left-out" },
      { kind: "added" },
      { kind: "other-sound", written: staffPlace("snare") },
      { kind: "ahead" },
      { kind: "behind" },
    ] as const satisfies readonly Difference[];
    expect(new Set(shapes.map(marksOf)).size).toBe(5);
    expect(shapes.every((shape) => marksOf(shape).length > 0)).toBe(true);
  });

  test("a difference is marked at its head, also at one that stands beyond the stem", () => {
    const close = groove("high-tom | x... |\nmid-tom | x... |");
    const { symbols, paths } = engrave(
      [
        {
          score: writeStaff(close),
          differences: new Map(close.notes.map((_, at) => [at, { kind: "left-out" } as const])),
        },
      ],
      { width: 400, heading: false },
    );
    const heads = symbols.flatMap(({ heads }) => heads);
    expect(heads).toHaveLength(2);
    // A ring begins at the right of its head's middle, a ring's radius away: 6.5 tenths of a space.
    const rings = paths.flatMap(({ d, tone }) =>
      tone === "mark" ? [...d.matchAll(/M(-?[\d.]+)/g)].map(([, x]) => Number(x)) : [],
    );
    const middles = heads.map(({ left, right }) => (left + right) / 2);
    expect(Math.abs((middles[0] ?? 0) - (middles[1] ?? 0))).toBeCloseTo(11, 0);
    for (const middle of middles) expect(rings.some((x) => Math.abs(x - middle) < 8)).toBe(true);
    expect(rings).toHaveLength(2);
  });

  test("a stroke that was left out keeps its place, but not its head", () => {
    const ink = (differences: ReadonlyMap<number, Difference>) =>
      over(differences)
        .paths.filter(({ tone, strokeWidth }) => tone === "ink" && strokeWidth === undefined)
        .reduce((length, { d }) => length + d.length, 0);
    const without = over(new Map([[0, { kind: "left-out" }]]));
    expect(ink(new Map([[0, { kind: "left-out" }]]))).toBeLessThan(ink(new Map()));
    expect(without.symbols).toHaveLength(over(new Map()).symbols.length);
  });
});

test("staves of different lengths are refused in words", () => {
  const [one, two] = [writeStaff(groove("snare | x |")), writeStaff(groove("snare | x | x |"))];
  expect(() => engrave([{ score: one }, { score: two }], { width: 500 })).toThrow(EngravingError);
  expect(() => engrave([], { width: 500 })).toThrow("There is no staff to engrave");
});

test("a score without a stroke is a staff with rests", () => {
  const { symbols, paths } = engrave(
    [{ score: writeStaff({ metre: FOUR_FOUR, feel: STRAIGHT, bars: 2, notes: [] }) }],
    { width: 500 },
  );
  expect(symbols).toStrictEqual([]);
  expect(paths.length).toBeGreaterThan(0);
});

test("flams, drags, ghosts, accents and hands each add to the picture", () => {
  const plain = (marks: string, below = "") => inkOf(groove(`snare | ${marks} |${below}`));
  const bare = plain("x...");
  for (const mark of ["f", "d", "g", "X"]) expect(plain(`${mark}...`)).toBeGreaterThan(bare);
  expect(plain("x...", "\nhands | R... |")).toBeGreaterThan(bare);
  expect(inkOf(groove("hi-hat-open | x... |"))).toBeGreaterThan(inkOf(groove("hi-hat-closed | x... |")));
});

function inkOf(of: Groove): number {
  return engraved(of).paths.reduce((length, { d }) => length + d.length, 0);
}

test("the shuffle is engraved with its tempo and swing over it, or without", () => {
  const shuffle = styleGroove("shuffle");
  const heading = (shown: boolean) =>
    engrave([{ score: writeStaff(shuffle) }], { width: 600, heading: shown }).height;
  expect(heading(true)).toBeGreaterThan(heading(false));
});

describe("rests of one part keep clear of the heads of the other", () => {
  const all = [...STYLES.flatMap(({ variants }) => variants), ...FILLS.map(inWholeBars)];
  test.each(all)("in $id", (of) => {
    const { symbols } = engraved(of, 1000);
    const rests = symbols.filter(({ symbol }) => symbol.kind === "rest");
    for (const rest of rests) {
      const touching = symbols
        .filter(({ bar, part }) => bar === rest.bar && part !== rest.part)
        .flatMap(({ heads }) => heads)
        .filter((head) => head.left < rest.right - 1 && head.right > rest.left + 1)
        .filter((head) => head.y - HALF_HEAD < rest.bottom - 1 && head.y + HALF_HEAD > rest.top + 1);
      expect(touching).toEqual([]);
    }
  });
});

const HALF_HEAD = 5;
