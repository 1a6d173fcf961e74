import { describe, expect, test } from "vitest";
import { shippedBackground } from "../../../engine/listening/background.ts";
import { type Weight, weighed } from "../../../engine/listening/weights.ts";
import { readingQuestions } from "../../../scripts/learn/reading.ts";
import { learnWeights } from "../../../scripts/learn/regression.ts";
import { fixtureTakes, madeTake } from "./fixtureTakes.ts";

const general = shippedBackground();
const human = fixtureTakes();
const questions = readingQuestions(human, general, 1);
/** Of the features: the log of the tempo over 100 a minute, and whether the bar has three beats. */
const LOG_TEMPO = 1;
const IN_THREE = 3;

describe("questions about human takes", () => {
  test("each has what is right and what is not, with as many features for every bar", () => {
    expect(questions.length).toBeGreaterThan(human.length);
    const size = questions[0]?.features[0]?.length ?? 0;
    expect(size).toBeGreaterThan(100);
    for (const { features, right } of questions) {
      expect(right.length).toBe(features.length);
      expect(right).toContain(true);
      expect(right).toContain(false);
      for (const own of features) {
        expect(own.length).toBe(size);
        expect(own.every(Number.isFinite)).toBe(true);
      }
    }
  });

  test("are about every take, and count as one group for each", () => {
    expect(new Set(questions.map(({ group }) => group))).toEqual(new Set(human.map(({ id }) => id)));
  });

  test("at most six stretches of each length are cut out of a take", () => {
    for (const { id } of human) {
      expect(questions.filter(({ group }) => group === id).length).toBeLessThanOrEqual(3 * 6);
    }
  });

  test("a right bar has the click's tempo to four in a hundred, and its beats", () => {
    for (const { group, features, right } of questions) {
      const tempoBpm = human.find(({ id }) => id === group)?.tempoBpm ?? Number.NaN;
      features.forEach((own, index) => {
        if (!right[index]) return;
        expect(Math.abs((100 * Math.exp(own[LOG_TEMPO] ?? 0)) / tempoBpm - 1)).toBeLessThan(0.04);
        expect(own[IN_THREE]).toBe(0);
      });
    }
  });

  test("the same seed cuts the same stretches, another one others", () => {
    const few = human.slice(0, 2);
    expect(readingQuestions(few, general, 5)).toEqual(readingQuestions(few, general, 5));
    expect(readingQuestions(few, general, 6)).not.toEqual(readingQuestions(few, general, 5));
  });

  test("a take shorter than two bars is not asked about", () => {
    expect(readingQuestions([madeTake("rock-eighths", 110, 1, 1)], general, 1)).toEqual([]);
  });
});

test("weights learnt from such questions read the takes they were learnt from better than grooves in general do", () => {
  const asked = readingQuestions(
    [...human, ...["rock-eighths", "bossa-nova", "samba", "one-drop"].map((id) => madeTake(id, 100, 24, 2))],
    general,
    3,
  );
  const read = (weights: readonly Weight[]): number =>
    asked.filter(({ features, right }) => {
      const logits = features.map((own) => weighed([...own], weights));
      return right[logits.indexOf(Math.max(...logits))];
    }).length / asked.length;
  const learnt = read(learnWeights(asked, [0], { ridge: 0.005, apart: 2 }));
  expect(learnt).toBeGreaterThan(read([{ weight: 1, low: -1e6, high: 1e6 }]));
  expect(learnt).toBeGreaterThan(0.9);
});
