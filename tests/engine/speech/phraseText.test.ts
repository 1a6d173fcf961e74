import fc from "fast-check";
import { expect, test } from "vitest";
import { FOUR_FOUR, type Metre } from "../../../engine/score/index.ts";
import {
  type Counting,
  OUR_SYLLABLES,
  PhraseTextError,
  printPhraseText,
  readPhraseText,
  renamed,
  type SyllableSet,
} from "../../../engine/speech/index.ts";
import { add, fraction, toNumber } from "../../../engine/units/index.ts";

const COUNTED: Counting = { counted: true, voice: "snare" };

function read(text: string, syllables: SyllableSet | Counting = OUR_SYLLABLES, metre: Metre = FOUR_FOUR) {
  return readPhraseText(text, { syllables, metre, tempoBpm: 80 });
}

function strokes(text: string, syllables?: SyllableSet | Counting, metre?: Metre) {
  return read(text, syllables, metre).notes.map(({ position, voice }) => [toNumber(position), voice]);
}

test.each([
  [
    "a beat each",
    "doo ka doo ka",
    [
      [0, "kick"],
      [1, "snare"],
      [2, "kick"],
      [3, "snare"],
    ],
  ],
  [
    "rests as dashes or dots",
    "doo - . ka",
    [
      [0, "kick"],
      [3, "snare"],
    ],
  ],
  [
    "two in one beat",
    "doo (ka tss)",
    [
      [0, "kick"],
      [1, "snare"],
      [1.5, "hi-hat-closed"],
    ],
  ],
  ["rests need no spaces", "(doo..ka)|", undefined],
  [
    "large letters",
    "DOO Ka",
    [
      [0, "kick"],
      [1, "snare"],
    ],
  ],
  [
    "a second bar",
    "doo - - - | ka",
    [
      [0, "kick"],
      [4, "snare"],
    ],
  ],
] as const)("%s: %s", (_, text, expected) => {
  if (expected === undefined) expect(() => read(text)).toThrow("complete the bar");
  else expect(strokes(text)).toEqual(expected);
});

test.each([
  ["1 2 and 3 e and a", [0, 1, 1.5, 2, 2.25, 2.5, 2.75]],
  ["1 & 2 + 3", [0, 0.5, 1, 1.5, 2]],
  ["1 (2) and | 4", [0, 1.5, 7]],
  ["(1) a", [0.75]],
] as const)("counted: %s", (text, expected) => {
  expect(read(text, COUNTED).notes.map(({ position }) => toNumber(position))).toEqual(expected);
});

test("triplets are counted with trip and let", () => {
  expect(read("1 trip let", COUNTED).notes.map(({ position }) => position)).toEqual([
    fraction(0),
    fraction(1, 3),
    fraction(2, 3),
  ]);
});

test.each([
  ["", 1, "Nothing is said"],
  ["- - .", 1, "Nothing is said"],
  ["doo boom", 5, '"boom" is not one of the syllables: doo, ka'],
  ["doo (ka", 5, "not closed"],
  ["doo ka)", 7, "was not opened"],
  ["((ka", 2, "within a bracket"],
  ["doo ()", 6, "Nothing stands in the brackets"],
  ["(ka ka ka ka ka ka ka)", 1, "at most 6 parts; this has 7"],
  ["doo ka | ka", 8, "after 2 of 4 beats"],
  ["doo - - - | - - - - | - - - - | - - - - | ka", 1, "5 bars long"],
] as const)("%j is not read: column %i, %s", (text, column, why) => {
  const told = toldBy(() => read(text));
  expect(told.column).toBe(column);
  expect(told.message).toContain(why);
});

test.each([
  ["1 5", 3, "5 is not a beat of this bar: it has 4"],
  ["and", 1, "needs the number of its beat"],
  ["1 e and e", 9, "goes back in the bar"],
  ["1 tak", 3, '"tak" counts nothing'],
  ["1 (and) 2", 4, "Only a number stands in brackets"],
  ["1 (2", 3, "not closed"],
  ["| 1", 1, "before anything is counted"],
] as const)("counted, %j is not read: column %i, %s", (text, column, why) => {
  const told = toldBy(() => read(text, COUNTED));
  expect(told.column).toBe(column);
  expect(told.message).toContain(why);
});

function toldBy(act: () => unknown): PhraseTextError {
  try {
    act();
  } catch (error) {
    if (error instanceof PhraseTextError) return error;
    throw error;
  }
  throw new Error("Nothing was wrong.");
}

const beat = fc.constantFrom(1, 2, 3, 4, 6).chain((parts) =>
  fc.array(fc.option(fc.nat(OUR_SYLLABLES.syllables.length - 1), { freq: 2 }), {
    minLength: parts,
    maxLength: parts,
  }),
);
const phrase = fc
  .tuple(
    fc.constantFrom<Metre>(FOUR_FOUR, { numerator: 3, denominator: 4 }, { numerator: 6, denominator: 8 }),
    fc.integer({ min: 1, max: 4 }),
  )
  .chain(([metre, bars]) => {
    const beats = bars * (metre.denominator === 8 ? 2 : metre.numerator);
    return fc
      .array(beat, { minLength: beats, maxLength: beats })
      .map((all) => ({
        metre,
        bars,
        notes: all.flatMap((parts, at) =>
          parts.flatMap((which, part) => {
            const syllable = which === null ? undefined : OUR_SYLLABLES.syllables[which];
            if (!syllable) return [];
            return [
              {
                position: add(fraction(at), fraction(part, parts.length)),
                voice: syllable.voice,
                dynamic: "plain" as const,
              },
            ];
          }),
        ),
      }))
      .filter(({ notes }) => notes.length > 0);
  });

test("law: a phrase that is written is read back, stroke by stroke and bar by bar", () => {
  fc.assert(
    fc.property(phrase, (written) => {
      const back = read(printPhraseText(written, OUR_SYLLABLES), OUR_SYLLABLES, written.metre);
      expect(back.notes).toEqual(written.notes);
      expect(back.bars).toBe(written.bars);
    }),
  );
});

test("law: what is counted is read back, where every place has a count", () => {
  fc.assert(
    fc.property(phrase, (written) => {
      const notes = written.notes
        .filter(({ position }) => position.den !== 6)
        .map((note) => ({ ...note, voice: "snare" as const }));
      fc.pre(notes.length > 0);
      const back = read(printPhraseText({ ...written, notes }, COUNTED), COUNTED, written.metre);
      expect(back.notes).toEqual(notes);
      expect(back.bars).toBe(written.bars);
    }),
  );
});

test("law: any text is read or refused with a column inside it, never anything else", () => {
  fc.assert(
    fc.property(
      fc.string({ unit: fc.constantFrom(..."dok a()|-.12e&ptrl") }),
      fc.boolean(),
      (text, isCounted) => {
        try {
          expect(read(text, isCounted ? COUNTED : OUR_SYLLABLES).notes.length).toBeGreaterThan(0);
        } catch (error) {
          if (!(error instanceof PhraseTextError)) throw error;
          expect(error.column).toBeGreaterThanOrEqual(1);
          expect(error.column).toBeLessThanOrEqual(Math.max(1, text.length));
        }
      },
    ),
  );
});

test("what cannot be said is told", () => {
  const at = (voice: "kick" | "china", num: number, den: number) => ({
    position: fraction(num, den),
    voice,
    dynamic: "plain" as const,
  });
  const print =
    (...notes: readonly ReturnType<typeof at>[]) =>
    () =>
      printPhraseText({ metre: FOUR_FOUR, bars: 1, notes }, OUR_SYLLABLES);
  expect(print(at("kick", 0, 1), at("china", 1, 1))).toThrow("none for the china");
  expect(print(at("kick", 0, 1), at("kick", 0, 1))).toThrow("fall together");
  expect(print(at("kick", 1, 16))).toThrow("too fine");
});

test("a studio's own spelling, and what no set may hold", () => {
  const own = renamed(OUR_SYLLABLES, { snare: " Tak " });
  expect(strokes("doo tak", own)).toEqual([
    [0, "kick"],
    [1, "snare"],
  ]);
  expect(() => renamed(OUR_SYLLABLES, { snare: "doo" })).toThrow("spelt the same");
  expect(() => renamed(OUR_SYLLABLES, { snare: "t-k" })).toThrow("small letters");
  expect(() => renamed(OUR_SYLLABLES, { snare: "" })).toThrow("small letters");
});
