/**
 * The forty rudiments, one by one.
 * Source: Percussive Arts Society, International Drum Rudiments (sheet, adopted 1984): order, names, families and order of
 * hands (from memory). What the sheet does not settle, note values and accents, is not tested here.
 */
import { describe, expect, test } from "vitest";
import {
  RUDIMENTS,
  type Rudiment,
  rudimentById,
  rudimentGroove,
  stickingOf,
} from "../../engine/catalogue/index.ts";
import { beatsPerBar, grooveBeats, writeStaff } from "../../engine/score/index.ts";
import { toNumber } from "../../engine/units/index.ts";

/** Number, name, family, one cycle (graces small), contacts in it: one lead where the two are parted. */
const SHEET: readonly (readonly [number, string, string, string, number])[] = [
  [1, "Single Stroke Roll", "roll", "R L R L R L R L", 8],
  [2, "Single Stroke Four", "roll", "R L R L / L R L R", 4],
  [3, "Single Stroke Seven", "roll", "R L R L R L R / L R L R L R L", 7],
  [4, "Multiple Bounce Roll", "roll", "R L R L", 4],
  [5, "Triple Stroke Roll", "roll", "R R R L L L", 6],
  [6, "Double Stroke Open Roll", "roll", "R R L L", 4],
  [7, "Five Stroke Roll", "roll", "R R L L R / L L R R L", 5],
  [8, "Six Stroke Roll", "roll", "R L L R R L / L R R L L R", 6],
  [9, "Seven Stroke Roll", "roll", "R R L L R R L", 7],
  [10, "Nine Stroke Roll", "roll", "R R L L R R L L R / L L R R L L R R L", 9],
  [11, "Ten Stroke Roll", "roll", "R R L L R R L L R L", 10],
  [12, "Eleven Stroke Roll", "roll", "R R L L R R L L R R L", 11],
  [13, "Thirteen Stroke Roll", "roll", "R R L L R R L L R R L L R / L L R R L L R R L L R R L", 13],
  [14, "Fifteen Stroke Roll", "roll", "R R L L R R L L R R L L R R L", 15],
  [
    15,
    "Seventeen Stroke Roll",
    "roll",
    "R R L L R R L L R R L L R R L L R / L L R R L L R R L L R R L L R R L",
    17,
  ],
  [16, "Single Paradiddle", "diddle", "R L R R L R L L", 8],
  [17, "Double Paradiddle", "diddle", "R L R L R R L R L R L L", 12],
  [18, "Triple Paradiddle", "diddle", "R L R L R L R R L R L R L R L L", 16],
  [19, "Single Paradiddle-Diddle", "diddle", "R L R R L L", 6],
  [20, "Flam", "flam", "lR rL", 4],
  [21, "Flam Accent", "flam", "lR L R rL R L", 8],
  [22, "Flam Tap", "flam", "lR R rL L", 6],
  [23, "Flamacue", "flam", "lR L R L lR", 7],
  [24, "Flam Paradiddle", "flam", "lR L R R rL R L L", 10],
  [25, "Single Flammed Mill", "flam", "lR R L R rL L R L", 10],
  [26, "Flam Paradiddle-Diddle", "flam", "lR L R R L L rL R L L R R", 14],
  [27, "Pataflafla", "flam", "lR L R rL", 6],
  [28, "Swiss Army Triplet", "flam", "lR R L", 4],
  [29, "Inverted Flam Tap", "flam", "lR L rL R", 6],
  [30, "Flam Drag", "flam", "lR L L R rL R R L", 10],
  [31, "Drag", "drag", "llR rrL", 6],
  [32, "Single Drag Tap", "drag", "llR L rrL R", 8],
  [33, "Double Drag Tap", "drag", "llR llR L rrL rrL R", 14],
  [34, "Lesson 25", "drag", "llR L R", 5],
  [35, "Single Dragadiddle", "drag", "R R L R R L L R L L", 10],
  [36, "Drag Paradiddle #1", "drag", "R llR L R R L rrL R L L", 14],
  [37, "Drag Paradiddle #2", "drag", "R llR llR L R R L rrL rrL R L L", 20],
  [38, "Single Ratamacue", "drag", "llR L R L rrL R L R", 12],
  [39, "Double Ratamacue", "drag", "llR llR L R L rrL rrL R L R", 18],
  [40, "Triple Ratamacue", "drag", "llR llR llR L R L rrL rrL rrL R L R", 24],
];

function rudiment(id: string): Rudiment {
  const found = rudimentById(id);
  if (!found) throw new Error(`There is no rudiment ${id}.`);
  return found;
}

function hands(id: string): string {
  return rudiment(id)
    .strokes.map(({ hand }) => hand)
    .join("");
}

test("forty, in the order of the sheet", () => {
  expect(RUDIMENTS.map(({ number }) => number)).toEqual(SHEET.map(([number]) => number));
  expect(RUDIMENTS).toHaveLength(40);
});

describe.each(SHEET)("%i %s", (number, name, family, sticking, contacts) => {
  const found = RUDIMENTS[number - 1];
  if (!found) throw new Error(`There is no rudiment number ${number}.`);

  test("is named, ordered and struck as on the sheet", () => {
    expect({ name: found.name, family: found.family, sticking: stickingOf(found) }).toEqual({
      name,
      family,
      sticking,
    });
    const [, end = found.strokes.length] = found.leads;
    const counted = found.strokes.slice(0, end).reduce((sum, { graces }) => sum + 1 + graces, 0);
    expect(counted).toBe(contacts);
  });

  test("is whole bars, each value written as one note, every stroke a head with its hand", () => {
    const groove = rudimentGroove(found);
    expect(groove.bars).toBeGreaterThanOrEqual(1);
    expect(Number.isInteger(groove.bars)).toBe(true);
    expect(grooveBeats(groove) % toNumber(found.beats)).toBeCloseTo(0);
    expect(groove.bars).toBeLessThanOrEqual(2);
    expect(beatsPerBar(groove.metre)).toBeGreaterThan(1);
    const symbols = writeStaff(groove).bars.flatMap(({ parts }) => parts.flatMap((part) => part.symbols));
    expect(symbols.filter(({ kind }) => kind === "rest")).toEqual([]);
    const heads = symbols.flatMap((symbol) => (symbol.kind === "chord" ? symbol.heads : []));
    expect(heads.map(({ note }) => note.hand)).toEqual(groove.notes.map(({ hand }) => hand));
  });

  test("where both leads are written, the second is the first with the hands changed", () => {
    const [, second] = found.leads;
    if (second === undefined) return expect(found.leads).toEqual([0]);
    const first = found.strokes.slice(0, second);
    const mirrored = found.strokes.slice(second);
    expect(mirrored.map(({ hand }) => (hand === "R" ? "L" : "R"))).toEqual(first.map(({ hand }) => hand));
  });
});

test("families: 15 rolls, 4 diddles, 11 flams, 10 drags; rolls in three parts of 3, 2 and 10", () => {
  const count = (family: string) => RUDIMENTS.filter((each) => each.family === family).length;
  expect(["roll", "diddle", "flam", "drag"].map(count)).toEqual([15, 4, 11, 10]);
  const part = (name: string) =>
    RUDIMENTS.filter(({ rollPart }) => rollPart === name).map(({ number }) => number);
  expect(part("single")).toEqual([1, 2, 3]);
  expect(part("bounce")).toEqual([4, 5]);
  expect(part("double")).toEqual([6, 7, 8, 9, 10, 11, 12, 13, 14, 15]);
});

// Computed: an n-stroke roll of doubles, n odd, has (n - 1) / 2 doubles and one single stroke.
test.each([
  ["five-stroke-roll", 5, true],
  ["seven-stroke-roll", 7, false],
  ["nine-stroke-roll", 9, true],
  ["eleven-stroke-roll", 11, false],
  ["thirteen-stroke-roll", 13, true],
  ["fifteen-stroke-roll", 15, false],
  ["seventeen-stroke-roll", 17, true],
])("%s: %i strokes; changes the leading hand: %s", (id, n, alternates) => {
  const doubles = (n - 1) / 2;
  const order = Array.from({ length: doubles }, (_, at) => (at % 2 === 0 ? "RR" : "LL")).join("");
  const first = order + (doubles % 2 === 0 ? "R" : "L");
  expect(hands(id).slice(0, n)).toBe(first);
  expect(rudiment(id).leads.length === 2).toBe(alternates);
  expect(doubles % 2 === 0).toBe(alternates);
});

// Computed, from the same sheet: without its grace strokes each of these is another rudiment.
test.each([
  ["flam-accent", "RLRLRL"],
  ["flam-paradiddle", hands("single-paradiddle")],
  ["flam-paradiddle-diddle", "RLRRLLLRLLRR"],
])("%s without its flams", (id, bare) => {
  expect(hands(id)).toBe(bare);
});

test("thirteen of the earlier list of 1933 are among them by a name of their own (from memory)", () => {
  const earlier = [
    "Long roll",
    "Five stroke roll",
    "Seven stroke roll",
    "Flam",
    "Flam accent",
    "Flam paradiddle",
    "Flamacue",
    "Ruff",
    "Single drag",
    "Double drag",
    "Double paradiddle",
    "Single ratamacue",
    "Triple ratamacue",
  ];
  const known = new Set(
    RUDIMENTS.flatMap(({ name, otherNames }) => [name, ...otherNames]).map((name) => name.toLowerCase()),
  );
  expect(earlier.filter((name) => !known.has(name.toLowerCase()))).toEqual([]);
});
