import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  aimMet,
  type Comparison,
  compareAnswer,
  comparisonWords,
  type PhraseHit,
} from "../../../engine/trading/index.ts";
import { hit, moved, snareAt } from "./phrases.ts";

const HOW = { level: "steady", tempoBpm: 120 } as const;
const CALL: readonly PhraseHit[] = [
  hit(0, "kick"),
  hit(0, "snare"),
  hit(0.5, "snare"),
  hit(0.75, "high-tom"),
  hit(1, "kick"),
  hit(1.25, "floor-tom"),
  hit(1.5, "snare"),
];

function compare(call: readonly PhraseHit[], answer: readonly PhraseHit[]): Comparison {
  return compareAnswer(call, answer, HOW);
}

function without(phrase: readonly PhraseHit[], index: number): readonly PhraseHit[] {
  return phrase.filter((_, at) => at !== index);
}

function withVoice(
  phrase: readonly PhraseHit[],
  index: number,
  voice: PhraseHit["voice"],
): readonly PhraseHit[] {
  return phrase.map((each, at) => (at === index ? { ...each, voice } : each));
}

const CASES: readonly {
  readonly name: string;
  readonly answer: readonly PhraseHit[];
  readonly rhythm: boolean;
  readonly sound: boolean;
  readonly missed?: readonly number[];
  readonly added?: readonly number[];
  readonly words: string;
}[] = [
  { name: "an echo", answer: CALL, rhythm: true, sound: true, words: "Rhythm holds; sound holds." },
  {
    name: "an echo four seconds later and 15 % slower",
    answer: moved(CALL, { later: 4, stretch: 1.15 }),
    rhythm: true,
    sound: true,
    words: "Rhythm holds; sound holds.",
  },
  {
    name: "an echo 15 % faster that begins anywhere",
    answer: moved(CALL, { later: 0.37, stretch: 0.85 }),
    rhythm: true,
    sound: true,
    words: "Rhythm holds; sound holds.",
  },
  {
    name: "one voice across families",
    answer: withVoice(CALL, 2, "mid-tom"),
    rhythm: true,
    sound: false,
    words: "Rhythm holds; the third sound moved from snare to mid tom.",
  },
  {
    name: "one voice of a chord",
    answer: withVoice(CALL, 0, "floor-tom"),
    rhythm: true,
    sound: false,
    words: "Rhythm holds; the first sound moved from kick to floor tom.",
  },
  {
    name: "a stroke an eighth later",
    answer: CALL.map((each, at) => (at === 6 ? hit(1.75, "snare") : each)),
    rhythm: false,
    sound: true,
    words: "Rhythm moved: the seventh stroke came 250 ms late; sound holds.",
  },
  {
    name: "a stroke a sixteenth sooner",
    answer: CALL.map((each, at) => (at === 3 ? hit(0.625, "high-tom") : each)),
    rhythm: false,
    sound: true,
    words: "Rhythm moved: the fourth stroke came 125 ms early; sound holds.",
  },
  {
    name: "the last stroke left out",
    answer: without(CALL, 6),
    rhythm: false,
    sound: true,
    missed: [6],
    words: "Rhythm moved: one stroke left out; sound holds.",
  },
  {
    name: "the first stroke left out",
    answer: moved(without(without(CALL, 0), 0), { later: 3 }),
    rhythm: false,
    sound: true,
    missed: [0, 1],
    words: "Rhythm moved: two strokes left out; sound holds.",
  },
  {
    name: "one stroke of a chord left out",
    answer: without(CALL, 0),
    rhythm: false,
    sound: true,
    missed: [0],
    words: "Rhythm moved: one stroke left out; sound holds.",
  },
  {
    name: "a stroke added",
    answer: [...CALL, hit(1.75, "ride")],
    rhythm: false,
    sound: true,
    added: [7],
    words: "Rhythm moved: one stroke added; sound holds.",
  },
  {
    name: "a stroke doubled",
    answer: [...CALL, hit(1.56, "snare")],
    rhythm: false,
    sound: true,
    added: [7],
    words: "Rhythm moved: one stroke added; sound holds.",
  },
  {
    name: "a pad that speaks twice",
    answer: [...CALL, hit(1.508, "snare", 0.2)],
    rhythm: true,
    sound: true,
    words: "Rhythm holds; sound holds.",
  },
  {
    name: "a flam where none was called",
    answer: [...CALL, hit(1.47, "snare", 0.2)],
    rhythm: true,
    sound: true,
    added: [7],
    words: "Rhythm holds; sound holds; a grace stroke added.",
  },
];

describe("rhythm and sound apart", () => {
  test.each(CASES)("$name", ({ answer, rhythm, sound, missed = [], added = [], words }) => {
    const said = compare(CALL, answer);
    expect(said).toMatchObject({ rhythm: { holds: rhythm }, sound: { holds: sound } });
    expect(said.missed.map(({ index }) => index)).toEqual(missed);
    expect(said.added.map(({ index }) => index)).toEqual(added);
    expect(comparisonWords(said)).toBe(words);
  });

  test("two strokes fit any tempo; three do not", () => {
    expect(compare(snareAt(0, 1), snareAt(0, 1.2)).rhythm.holds).toBe(true);
    expect(compare(snareAt(0, 1, 2), snareAt(0, 1, 2.25)).rhythm.holds).toBe(false);
  });

  test("another phrase altogether", () => {
    const said = compare(snareAt(0, 1, 2, 3), [hit(0, "kick")]);
    expect(said.rhythm.holds).toBe(false);
    expect(said.missed.length).toBe(3);
  });

  test("no answer, no call", () => {
    expect(comparisonWords(compare(CALL, []))).toBe("No answer was heard.");
    expect(comparisonWords(compare([], []))).toBe("Nothing was called and nothing was answered.");
    expect(compare([], CALL)).toMatchObject({
      rhythm: { holds: false },
      transposition: null,
      spreadMs: null,
    });
  });

  test("a flam called and given back plain: the grace stroke is missed, the rhythm holds", () => {
    const call = [...CALL, hit(1.47, "snare", 0.2)].sort((a, b) => a.time - b.time);
    const said = compare(call, CALL);
    expect(said).toMatchObject({ rhythm: { holds: true }, missed: [{ index: 6, grace: true }], added: [] });
  });
});

describe("the band is the student's", () => {
  const scattered = moved(snareAt(0, 1, 2, 3, 4, 5, 6, 7), {
    offsetMs: (index) => (index % 2 === 0 ? 25 : -25),
  });
  test.each([
    ["first-year", true],
    ["steady", true],
    ["working", false],
  ] as const)("a row that limps by 25 ms, %s", (level, holds) => {
    const said = compareAnswer(snareAt(0, 1, 2, 3, 4, 5, 6, 7), scattered, { level, tempoBpm: 120 });
    expect(said.rhythm.holds).toBe(holds);
  });

  test("what cannot be heard is no fault", () => {
    const late = moved(snareAt(0, 1, 2, 3, 4), { offsetMs: (index) => (index === 2 ? 10 : 0) });
    expect(
      compareAnswer(snareAt(0, 1, 2, 3, 4), late, { level: "working", tempoBpm: 120 }).rhythm.holds,
    ).toBe(true);
  });
});

describe("lean is told against the turn", () => {
  test("25 ms behind a turn of two seconds", () => {
    const said = compareAnswer(CALL, moved(CALL, { later: 2.025 }), { ...HOW, turnSeconds: 2 });
    expect(said.leanMs).toBeCloseTo(25, 6);
    expect(said.spreadMs).toBeCloseTo(0, 6);
  });
  test("without a turn there is none", () => {
    expect(compare(CALL, CALL).leanMs).toBeNull();
  });
});

describe("aims", () => {
  const touched = CALL.map((each, at) => (at === 2 ? { ...each, velocity: 0.95 } : each));
  test.each([
    ["echo", "an echo", CALL, true],
    ["echo", "one voice moved", withVoice(CALL, 2, "mid-tom"), false],
    ["move-one", "one voice moved", withVoice(CALL, 2, "mid-tom"), true],
    ["move-one", "one accent moved", touched, true],
    ["move-one", "all of it softer", CALL.map((each) => ({ ...each, velocity: each.velocity / 2 })), false],
    ["move-one", "nothing moved", CALL, false],
    ["move-one", "two moved", withVoice(withVoice(CALL, 2, "mid-tom"), 5, "ride"), false],
    ["move-one", "a stroke left out", without(CALL, 2), false],
    ["answer", "anything", without(CALL, 2), null],
  ] as const)("%s, %s", (aim, _, answer, met) => {
    expect(aimMet(aim, compare(CALL, answer))).toBe(met);
  });

  test("the touch that moved is told", () => {
    expect(compare(CALL, touched).touch.moved).toEqual([{ index: 2, called: "plain", answered: "accent" }]);
    expect(comparisonWords(compare(CALL, touched))).toBe(
      "Rhythm holds; sound holds; the third stroke was accented.",
    );
  });
});

test("laws: an echo holds wherever it begins, up to 15 % off; hits are each paired, missed or added once", () => {
  const phrase = fc
    .uniqueArray(fc.tuple(fc.integer({ min: 0, max: 15 }), fc.constantFrom("kick", "snare", "high-tom")), {
      minLength: 3,
      maxLength: 12,
      selector: ([place, voice]) => `${place} ${voice}`,
    })
    .map((strokes) => strokes.map(([place, voice]) => hit(place / 4, voice as PhraseHit["voice"])))
    .map((strokes) => strokes.sort((a, b) => a.time - b.time));
  fc.assert(
    fc.property(
      phrase,
      phrase,
      fc.double({ min: 0.86, max: 1.15, noNaN: true }),
      fc.double({ min: 0, max: 20, noNaN: true }),
      (call, other, stretch, later) => {
        if (new Set(call.map(({ time }) => time)).size < 3) return;
        const echo = compare(call, moved(call, { later, stretch }));
        expect(echo).toMatchObject({
          rhythm: { holds: true },
          sound: { holds: true },
          missed: [],
          added: [],
        });
        const said = compare(call, other);
        const called = [...said.pairs.map(({ called: at }) => at), ...said.missed.map(({ index }) => index)];
        const answered = [
          ...said.pairs.map(({ answered: at }) => at),
          ...said.added.map(({ index }) => index),
        ];
        expect(called.sort((a, b) => a - b)).toEqual(call.map((_, at) => at));
        expect(answered.sort((a, b) => a - b)).toEqual(other.map((_, at) => at));
      },
    ),
    { numRuns: 60 },
  );
});
