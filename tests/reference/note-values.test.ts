import { createRequire } from "node:module";
import { describe, expect, test } from "vitest";
import { SIGNS, type Sign, signById } from "../../engine/catalogue/index.ts";
import { staffPlace, stepsAboveBottomLine, valueLength } from "../../engine/score/index.ts";
import { fraction } from "../../engine/units/index.ts";
import { GLYPH_CODES } from "../../engraving/index.ts";

// Names of note values in both usages: primers of music theory (Taylor 1989; Read, 2nd ed. 1979), from memory. Of a whole,
// stem and flags: the same.
const VALUES = [
  ["whole", "semibreve", 1, "no stem", 0],
  ["half", "minim", 2, "stem", 0],
  ["quarter", "crotchet", 4, "stem", 0],
  ["eighth", "quaver", 8, "stem", 1],
  ["sixteenth", "semiquaver", 16, "stem", 2],
  ["thirty-second", "demisemiquaver", 32, "stem", 3],
  ["sixty-fourth", "hemidemisemiquaver", 64, "stem", 4],
] as const;
const COUNT = ["no", "one", "two", "three", "four"];

function found(id: string): Sign {
  const sign = signById(id);
  if (!sign) throw new Error(`There is no sign ${id}.`);
  return sign;
}

describe("note values and rests", () => {
  test.each(VALUES)("%s is %s: 1/%d of a whole, %s, %d flags", (us, uk, base, stem, flags) => {
    const note = found(`${us}-note`);
    expect(note.names).toEqual({ us: `${us} note`, uk });
    expect(note.drawn).toEqual({ kind: "note", value: { base, dots: 0 } });
    expect(note.seen).toContain(stem);
    expect(note.seen.includes("flag")).toBe(flags > 0);
    if (flags > 0) expect(note.seen).toContain(`${COUNT[flags]} flag`);
    const rest = found(`${us}-rest`);
    expect(rest.names).toEqual({ us: `${us} rest`, uk: `${uk} rest` });
    expect(rest.drawn).toEqual({ kind: "rest", value: { base, dots: 0 } });
    // Eighth rests and shorter have as many hooks as the note has flags (the same primers, from memory).
    expect(rest.seen.includes("hook")).toBe(flags > 0);
    if (flags > 0) expect(rest.seen).toContain(`${COUNT[flags]} hook`);
  });

  // One dot: three halves of the value (the same primers, from memory; computed).
  test.each(VALUES)("a dotted %s (dotted %s) is half as long again", (us, uk, base) => {
    const note = found(`dotted-${us}-note`);
    expect(note.names).toEqual({ us: `dotted ${us} note`, uk: `dotted ${uk}` });
    if (note.drawn.kind !== "note") throw new Error("It is drawn as a note.");
    expect(valueLength(note.drawn.value)).toEqual(fraction(3, 2 * base));
    expect(found(`dotted-${us}-rest`).names).toEqual({ us: `dotted ${us} rest`, uk: `dotted ${uk} rest` });
  });

  // A whole rest hangs under the fourth line, a half rest sits on the third (the same primers, from memory).
  test("whole and half rests are told apart by their line", () => {
    expect(found("whole-rest").seen).toContain("hangs under the fourth line");
    expect(found("half-rest").seen).toContain("sits on the middle line");
  });
});

// m in the time of n (the same primers, from memory).
test.each([
  ["eighth-triplet", 3, 2, 8],
  ["quarter-triplet", 3, 2, 4],
  ["sixteenth-triplet", 3, 2, 16],
  ["duplet", 2, 3, 8],
  ["quadruplet", 4, 3, 8],
  ["quintuplet", 5, 4, 16],
  ["sextuplet", 6, 4, 16],
  ["septuplet", 7, 4, 16],
] as const)("%s: %d in the time of %d", (id, actual, normal, unit) => {
  expect(found(id).drawn).toEqual({ kind: "tuplet", actual, normal, unit });
});

// Weinberg, "Guidelines for Drumset Notation", Percussive Notes, June 1994; positions from memory. Steps over the bottom line.
test.each([
  ["hi-hat-pedal", -1, "x"],
  ["kick", 1, "normal"],
  ["floor-tom", 3, "normal"],
  ["snare", 5, "normal"],
  ["cross-stick", 5, "x"],
  ["mid-tom", 6, "normal"],
  ["high-tom", 7, "normal"],
  ["ride", 8, "x"],
  ["bell", 8, "diamond"],
  ["hi-hat-closed", 9, "x"],
  ["hi-hat-open", 9, "x"],
  ["crash-left", 10, "x"],
] as const)("%s stands %d steps over the bottom line", (voice, steps, head) => {
  expect(found(`place-${voice}`).drawn).toEqual({ kind: "place", voice });
  expect(stepsAboveBottomLine(staffPlace(voice))).toBe(steps);
  expect(staffPlace(voice).head).toBe(head);
});

/** SMuFL's names as the makers of Bravura publish them for their font, with the width of each glyph in staff spaces. */
const bravura = createRequire(import.meta.url)("@vexflow-fonts/bravura/metadata.json") as {
  readonly glyphAdvanceWidths: Readonly<Record<string, number>>;
};

describe("names of SMuFL, the Standard Music Font Layout (W3C Music Notation Community Group)", () => {
  const named = SIGNS.flatMap(({ id, glyph }) => (glyph === null ? [] : [{ id, glyph }]));

  test("most signs have one", () => {
    expect(named.length).toBeGreaterThan(35);
  });

  test.each(named)("$id: $glyph is a glyph of Bravura's published metadata", ({ glyph }) => {
    expect(bravura.glyphAdvanceWidths[glyph]).toBeGreaterThan(0);
  });

  // Code points: SMuFL 1.4 (from memory).
  test.each([
    ["noteWhole", 0xe1d2],
    ["noteHalfUp", 0xe1d3],
    ["noteQuarterUp", 0xe1d5],
    ["note8thUp", 0xe1d7],
    ["note16thUp", 0xe1d9],
    ["note32ndUp", 0xe1db],
    ["note64thUp", 0xe1dd],
    ["restWhole", 0xe4e3],
    ["restHalf", 0xe4e4],
    ["restQuarter", 0xe4e5],
    ["rest8th", 0xe4e6],
    ["rest16th", 0xe4e7],
    ["rest32nd", 0xe4e8],
    ["rest64th", 0xe4e9],
    ["repeat1Bar", 0xe500],
    ["segno", 0xe047],
    ["coda", 0xe048],
    ["dynamicForte", 0xe522],
  ] as const)("%s is at %i", (name, code) => {
    expect(GLYPH_CODES[name]).toBe(code);
  });
});
