import { describe, expect, test } from "vitest";
import type { Voice } from "../../../engine/kit/index.ts";
import type { Candidate, Evidence, Heard } from "../../../engine/listening/index.ts";
import {
  inSentence,
  placesWords,
  whyWords,
} from "../../../renderer/screens/call-a-style/report/evidenceWords.ts";

test.each([
  [[1, 3], 4, "two and four"],
  [[0], 4, "one"],
  [[3, 2, 1, 0], 4, "every beat"],
  [[2.5], 4, "the “and” of three"],
  [[0.25, 0.75], 4, "the “e” of one, and the “a” of one"],
  [[0, 2 / 3, 1, 5 / 3], 2, "every beat, and the last triplet of every beat"],
  [[1 / 3], 3, "the second triplet of one"],
  [[3.75, 4.5, 6], 4, "the “a” of four in the first bar; three, and the “and” of one in the second"],
  [[3.75, 3.99], 4, "the “a” of four in the first bar; one in the second"],
  [[1.1], 4, "just after two"],
  [[1.9], 4, "just before three"],
  [[3.9], 4, "just before one"],
  [[5, 7], 4, "two and four in the second"],
])("places %o of a bar of %i: %s", (places, beats, words) => {
  expect(placesWords(places, beats)).toBe(words);
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
    tempoBpm: 104,
    metre: { numerator: 4, denominator: 4 },
    beats: [],
    downbeats: [],
    confidence: 1,
  };
  return { kind: "heard", pulse, span: { from: 0, to: 20, bars: 8 }, candidates, noneConfidence: 0, known };
}

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
    expect(whyWords(heard([shuffle, swing]))).toEqual({
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
    expect(whyWords(heard([leaning, swing])).reasons).toEqual([
      "The snare is on two and four.",
      "The kick is on three.",
      "There is no kick on two.",
    ]);
  });

  test("but not when the other laid its bars differently", () => {
    const leaning = candidate("Shuffle", [evidence("ride", 0, 1, 1, 3), evidence("kick", 2, 1, 1, 1)]);
    const turned = candidate("Swing", [evidence("ride", 0, 0.5, 1, 1)], [evidence("snare", 0, 1, 0, -9)]);
    expect(whyWords(heard([leaning, turned])).reasons).toEqual([
      "The ride is on one.",
      "The kick is on three.",
    ]);
  });

  test("without a second candidate all that spoke for it is told", () => {
    const why = whyWords(heard([shuffle]));
    expect(why.heading).toBe("Why shuffle");
    expect(why.reasons).toContain("The ride is on one.");
  });

  test("none I know: the nearest, and what speaks against it", () => {
    expect(whyWords(heard([shuffle], false))).toEqual({
      heading: "Why none I know",
      reasons: [
        "The nearest is shuffle.",
        "Against it: kick on the “and” of two.",
        "Against it: little or no kick on three.",
      ],
    });
  });
});
