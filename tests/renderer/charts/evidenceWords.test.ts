import { describe, expect, test } from "vitest";
import type { Hit, Voice } from "../../../engine/kit/index.ts";
import type { Candidate, Evidence, Heard } from "../../../engine/listening/index.ts";
import {
  inSentence,
  placesWords,
  whyWords,
} from "../../../renderer/screens/call-a-style/report/evidenceWords.ts";

test.each([
  [[1, 3], { beats: 4, bars: 1 }, "on two and four"],
  [[0], { beats: 4, bars: 1 }, "on one"],
  [[3, 2, 1, 0], { beats: 4, bars: 1 }, "on every beat"],
  [[2.5], { beats: 4, bars: 1 }, "on the “and” of three"],
  [[0.25, 0.75], { beats: 4, bars: 1 }, "on the “e” and the “a” of one"],
  [[3, 3.25, 3.5, 3.75], { beats: 4, bars: 1 }, "on four, and on the “e”, the “and” and the “a” of four"],
  [[0, 2 / 3, 1, 5 / 3], { beats: 2, bars: 1 }, "on every beat, and on the last triplet of every beat"],
  [[1 / 3], { beats: 3, bars: 1 }, "on the second triplet of one"],
  [
    [3.75, 4.5, 6],
    { beats: 4, bars: 2 },
    "on the “a” of four in the first bar; on three, and on the “and” of one in the second",
  ],
  [[3.75, 3.99], { beats: 4, bars: 2 }, "on the “a” of four in the first bar; on one in the second"],
  [[0.75, 1.75, 2.75, 3.75], { beats: 2, bars: 2 }, "on the “a” of every beat in both bars"],
  [[1.1], { beats: 4, bars: 1 }, "just after two"],
  [[1.9], { beats: 4, bars: 1 }, "just before three"],
  [[3.9], { beats: 4, bars: 1 }, "just before one"],
  [[1, 2.9, 3.1], { beats: 4, bars: 1 }, "on two and four"],
  [[3, 3.1], { beats: 4, bars: 1 }, "on four"],
  [[0, 0.9, 1.1], { beats: 4, bars: 1 }, "on one and two"],
  [[2.1, 2.5], { beats: 4, bars: 1 }, "just after three, and on the “and” of three"],
  [[5, 7], { beats: 4, bars: 2 }, "on two and four in the second bar"],
  [[0, 1.5], { beats: 4, bars: 2 }, "on one, and on the “and” of two in the first bar"],
])("places %o counted in %o: %s", (places, counting, words) => {
  expect(placesWords(places, counting)).toBe(words);
});

test.each([
  ["Bossa nova", "bossa nova"],
  ["Afro-Cuban 6/8", "Afro-Cuban 6/8"],
])("%s inside a sentence: %s", (name, words) => {
  expect(inSentence(name)).toBe(words);
});

function evidence(
  voice: Voice,
  place: number,
  heardPerBar: number,
  expectedPerBar: number,
  weight: number,
): Evidence {
  return { voice, place, heardPerBar, expectedPerBar, weight };
}

function candidate(
  name: string,
  spokeFor: readonly Evidence[] = [],
  spokeAgainst: readonly Evidence[] = [],
): Candidate {
  return { id: name.toLowerCase(), name, confidence: 0.5, spokeFor, spokeAgainst };
}

function heard(candidates: readonly Candidate[], known = true): Heard {
  const pulse = {
    tempoBpm: 60,
    metre: { numerator: 4, denominator: 4 },
    beats: Array.from({ length: 32 }, (_, beat) => beat),
    downbeats: Array.from({ length: 8 }, (_, bar) => 4 * bar),
    confidence: 1,
  };
  return { kind: "heard", pulse, span: { from: 0, to: 20, bars: 8 }, candidates, noneConfidence: 0, known };
}

/** Eight bars at a beat a second: ride on one, snare on two and four, kick on three. */
const HITS: readonly Hit[] = Array.from({ length: 8 }, (_, bar) =>
  (["ride", "snare", "kick", "snare"] as const).map((voice, beat) => ({
    time: 4 * bar + beat,
    voice,
    velocity: 0.6,
    zone: "whole" as const,
    pad: 38,
  })),
).flat();

describe("why", () => {
  const shuffle = candidate(
    "Shuffle",
    [
      evidence("snare", 1, 1, 1, 2),
      evidence("snare", 3, 1, 1, 2),
      evidence("ride", 0, 1, 1, 3),
      evidence("hi-hat-pedal", 1, 0, 0.1, 0.5),
    ],
    [evidence("kick", 1.5, 0.6, 0.1, -0.5), evidence("kick", 2, 0.1, 0.9, -0.4)],
  );

  test("only what tells the two apart is told: the ride on one speaks for both", () => {
    const swing = candidate("Swing", [evidence("ride", 0, 1, 1, 3)], [evidence("snare", 1, 1, 0.1, -1)]);
    expect(whyWords(heard([shuffle, swing]), HITS)).toEqual({
      heading: "Why shuffle and not swing",
      reasons: [
        "The snare is on two and four.",
        "There is no hi-hat pedal on two.",
        "Against it: kick on the “and” of two.",
        "Against it: little or no kick on three.",
      ],
    });
  });

  test("what spoke against the other is told too: the snare it has no place for", () => {
    const leaning = candidate("Shuffle", [evidence("ride", 0, 1, 1, 3), evidence("kick", 2, 1, 1, 1)]);
    const swing = candidate(
      "Swing",
      [evidence("ride", 0, 1, 1, 3)],
      [evidence("snare", 1, 1, 0, -9), evidence("snare", 3, 1, 0, -8), evidence("kick", 1, 0, 0.5, -2)],
    );
    expect(whyWords(heard([leaning, swing]), HITS).reasons).toEqual([
      "The snare is on two and four.",
      "The kick is on three.",
      "There is no kick on two.",
    ]);
  });

  test("but not when the other laid its bars differently", () => {
    const leaning = candidate("Shuffle", [evidence("ride", 0, 1, 1, 3), evidence("kick", 2, 1, 1, 1)]);
    const turned = candidate("Swing", [evidence("ride", 0, 0.5, 1, 1)], [evidence("snare", 0, 1, 0, -9)]);
    expect(whyWords(heard([leaning, turned]), HITS).reasons).toEqual([
      "The ride is on one.",
      "The kick is on three.",
    ]);
  });

  test("nor when it heard the same strokes at half the tempo, where they lie elsewhere", () => {
    const rock = candidate("Half-time", [evidence("snare", 2, 1, 1, 1)]);
    const halved = candidate("Rock eighths", [evidence("ride", 0, 1, 1, 1), evidence("snare", 0.5, 1, 0, 2)]);
    expect(whyWords(heard([rock, halved]), HITS).reasons).toEqual(["The snare is on three."]);
  });

  test("silence beside a beat is a stroke that came a little off it, and is not told", () => {
    const late = candidate("Shuffle", [evidence("ride", 0, 1, 1, 3)], [evidence("snare", 0.9, 0.1, 0.9, -2)]);
    expect(whyWords(heard([late]), HITS).reasons).toEqual(["The ride is on one."]);
  });

  test("without a second candidate all that spoke for it is told", () => {
    const why = whyWords(heard([shuffle]), HITS);
    expect(why.heading).toBe("Why shuffle");
    expect(why.reasons).toContain("The ride is on one.");
  });

  test("none I know: the nearest, and what speaks against it", () => {
    expect(whyWords(heard([shuffle], false), HITS)).toEqual({
      heading: "Why none I know",
      reasons: [
        "The nearest is shuffle.",
        "Against it: kick on the “and” of two.",
        "Against it: little or no kick on three.",
      ],
    });
  });
});
