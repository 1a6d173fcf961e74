import fc from "fast-check";
import { expect, test } from "vitest";
import { FOUR_FOUR } from "../../../engine/score/index.ts";
import {
  beginningRung,
  inventPhrase,
  LONG_AGO_DAYS,
  nextRung,
  OUR_SYLLABLES,
  RUNGS,
  readPhraseText,
  syllableSetSchema,
} from "../../../engine/speech/index.ts";
import { seededChance } from "../../../engine/units/index.ts";

test("our own syllables are a set as any studio's", () => {
  expect(syllableSetSchema.parse(OUR_SYLLABLES)).toEqual(OUR_SYLLABLES);
});

test.each([
  ["nothing yet", [], "first-year", 1],
  ["nothing yet, a working player", [], "working", 10],
  ["one held", [[3, true]], "first-year", 3],
  [
    "two held",
    [
      [3, true],
      [3, true],
    ],
    "first-year",
    4,
  ],
  [
    "two held, not in a row",
    [
      [3, true],
      [3, false],
      [2, true],
    ],
    "first-year",
    2,
  ],
  [
    "one missed",
    [
      [3, true],
      [3, false],
    ],
    "first-year",
    2,
  ],
  ["missed at the lowest", [[1, false]], "first-year", 1],
  [
    "held at the highest",
    [
      [RUNGS.length, true],
      [RUNGS.length, true],
    ],
    "steady",
    RUNGS.length,
  ],
] as const)("%s: the next rung", (_, results, level, expected) => {
  expect(
    nextRung(
      results.map(([rung, held]) => ({ rung, held })),
      level,
    ),
  ).toBe(expected);
});

test.each([
  ["never played", "second-year", null, 4],
  ["last week", "first-year", { rung: 9, daysAgo: 7 }, 9],
  ["three weeks ago", "first-year", { rung: 9, daysAgo: LONG_AGO_DAYS }, 9],
  ["longer ago", "first-year", { rung: 9, daysAgo: LONG_AGO_DAYS + 1 }, 8],
  ["longer ago, at the lowest", "working", { rung: 1, daysAgo: 400 }, 1],
] as const)(
  "%s: where a round begins; from its first answer on it goes by its own",
  (_, level, left, expected) => {
    expect(beginningRung(level, left)).toBe(expected);
    expect(nextRung([], level, left)).toBe(expected);
    expect(nextRung([{ rung: expected, held: true }], level, left)).toBe(expected);
  },
);

test("law: a phrase of a rung has its strokes, voices, bars and parts, can be typed, and is the same by the same chance", () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: RUNGS.length }), fc.nat(), (number, seed) => {
      const phrase = inventPhrase(number, OUR_SYLLABLES, seededChance(seed));
      const rung = RUNGS[number - 1];
      if (!rung) throw new Error("There is no such rung.");
      expect(phrase.notes.length).toBeLessThanOrEqual(rung.strokes);
      expect(phrase.notes.length).toBeGreaterThan(rung.strokes / 2);
      expect(phrase.voices.length).toBe(rung.voices);
      expect(phrase.bars).toBe(rung.bars);
      expect(phrase.notes.every(({ position }) => rung.parts % position.den === 0)).toBe(true);
      if (!rung.mayEnterLate) expect(phrase.notes[0]?.position.num).toBe(0);
      const back = readPhraseText(phrase.name, {
        syllables: OUR_SYLLABLES,
        metre: FOUR_FOUR,
        tempoBpm: rung.tempoBpm,
      });
      expect(back).toEqual(phrase);
      expect(inventPhrase(number, OUR_SYLLABLES, seededChance(seed))).toEqual(phrase);
    }),
  );
});

test("each rung is harder than the one before in something", () => {
  RUNGS.slice(1).forEach((rung, at) => {
    const before = RUNGS[at];
    if (!before) throw new Error("There is no rung before.");
    const harder = [
      rung.bars > before.bars,
      rung.strokes !== before.strokes,
      rung.voices > before.voices,
      rung.parts > before.parts,
      rung.offBeat > before.offBeat,
      rung.tempoBpm > before.tempoBpm,
    ];
    expect(harder.some(Boolean)).toBe(true);
  });
});
