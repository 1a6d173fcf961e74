import { expect, test } from "vitest";
import { OUR_SYLLABLES, PhraseTextError } from "../../../../engine/speech/index.ts";
import {
  saidStrokes,
  strokesOf,
  tempoOf,
  typedPhrase,
  wordsOf,
} from "../../../../renderer/screens/say-and-strike/phraseStrokes.ts";

test("a line in syllables and a line that is counted, as strokes and as they are said", () => {
  const typed = strokesOf(typedPhrase("doo (ka ka)", OUR_SYLLABLES, 60));
  expect(typed).toEqual([
    { time: 0, voice: "kick" },
    { time: 1, voice: "snare" },
    { time: 1.5, voice: "snare" },
  ]);
  const said = wordsOf({ text: "doo (ka ka)", strokes: typed, tempoBpm: 60 }, OUR_SYLLABLES);
  expect(said.map(({ text }) => text)).toEqual(["doo", "ka", "ka"]);
  const counted = strokesOf(typedPhrase("1 (2) and", OUR_SYLLABLES, 60));
  const numbers = wordsOf({ text: "1 (2) and", strokes: counted, tempoBpm: 60 }, OUR_SYLLABLES);
  expect(numbers.map(({ text }) => text)).not.toContain("ka");
  expect(numbers.length).toBe(counted.length);
  expect(() => typedPhrase("doo boom", OUR_SYLLABLES, 60)).toThrow(PhraseTextError);
});

test.each([
  ["beats", [0, 0.6, 1.2, 1.8], 100],
  ["eighths, at half", [0, 0.3, 0.6, 0.9], 100],
  ["halves, at double", [0, 1.2, 2.4], 100],
  ["a single stroke", [0], 80],
] as const)("the tempo of %s", (_, times, bpm) => {
  expect(tempoOf(times.map((time) => ({ time, voice: "snare" })))).toBeCloseTo(bpm);
});

test("what was heard said is the strokes that were meant, without what is no syllable", () => {
  const heard = ["doo", "ahem", "ka"].map((syllable, at) => ({ syllable, centre: at / 2 }));
  expect(saidStrokes(heard, OUR_SYLLABLES)).toEqual([
    { time: 0, voice: "kick" },
    { time: 1, voice: "snare" },
  ]);
});
