import { describe, expect, test } from "vitest";
import { type Chance, normal, seededChance } from "../../../engine/units/index.ts";
import { type Learning, learnWeights, type Question } from "../../../scripts/learn/regression.ts";

const HELD_BACK: Learning = { ridge: 0.005, apart: 6 };

const weightsOf = (questions: readonly Question[], free: readonly number[]): readonly number[] =>
  learnWeights(questions, free, HELD_BACK).map(({ weight }) => weight);

const CANDIDATES = 4;

/** Questions answered by chance, as a conditional logit with these weights has it. Each is a group of its own. */
function answered(weights: readonly number[], count: number, chance: Chance): readonly Question[] {
  return Array.from({ length: count }, (_, number) => {
    const features = Array.from({ length: CANDIDATES }, () =>
      Float64Array.from(weights, (_weight, at) => (at + 1) * normal(chance)),
    );
    const shares = features.map((own) =>
      Math.exp(own.reduce((sum, value, at) => sum + value * (weights[at] ?? 0), 0)),
    );
    let draw = chance() * shares.reduce((sum, share) => sum + share, 0);
    const index = shares.findIndex((share) => {
      draw -= share;
      return draw < 0;
    });
    return { group: `${number}`, features, right: features.map((_own, each) => each === index) };
  });
}

/** A question with one feature: 1 for the first of two, −1 for the other; which of them is right. */
function oneFeature(group: string, right: "first" | "other"): Question {
  return {
    group,
    features: [Float64Array.of(1), Float64Array.of(-1)],
    right: [right === "first", right === "other"],
  };
}

const times = <T>(count: number, make: (index: number) => T): readonly T[] =>
  Array.from({ length: count }, (_, index) => make(index));

describe("learning weights", () => {
  const truth = [1.2, -0.5, 0, 0.25];
  const questions = answered(truth, 2500, seededChance(7));

  test("recovers those of a made-up conditional logit", () => {
    const learnt = weightsOf(questions, []);
    expect(learnt.length).toBe(truth.length);
    learnt.forEach((weight, at) => {
      // The sampling error of 2,500 questions is about 0.05 of a scaled feature; a little more for the ridge.
      expect(Math.abs(weight - (truth[at] ?? Number.NaN)) * (at + 1), `${at}`).toBeLessThan(0.15);
    });
  });

  test("gives the same weights again", () => {
    const few = questions.slice(0, 50);
    expect(weightsOf(few, [0])).toEqual(weightsOf(few, [0]));
  });

  test("what all candidates of a question have alike changes nothing", () => {
    const few = questions.slice(0, 300);
    const chance = seededChance(8);
    const shifted = few.map((question) => {
      const more = truth.map(() => 0.5 * normal(chance));
      return {
        ...question,
        features: question.features.map((own) => own.map((value, at) => value + (more[at] ?? 0))),
      };
    });
    // Another spread of the features is another measure for step and ridge: not to the last digit.
    const plain = weightsOf(few, []);
    weightsOf(shifted, []).forEach((weight, at) => {
      expect(Math.abs(weight - (plain[at] ?? Number.NaN))).toBeLessThan(0.06);
    });
  });

  test("a feature in other units gets as much more or less weight", () => {
    const few = questions.slice(0, 200);
    const inThousandths = few.map((question) => ({
      ...question,
      features: question.features.map((own) => own.map((value, at) => (at === 1 ? 1000 * value : value))),
    }));
    const plain = weightsOf(few, []);
    const scaled = weightsOf(inThousandths, []);
    expect((scaled[1] ?? 0) * 1000).toBeCloseTo(plain[1] ?? Number.NaN, 3);
    expect(scaled[0]).toBeCloseTo(plain[0] ?? Number.NaN, 3);
  });

  test("a feature that is always the same has no weight", () => {
    const same = questions.slice(0, 100).map((question) => ({
      ...question,
      features: question.features.map((own) => Float64Array.of(...own, 3)),
    }));
    expect(weightsOf(same, [])[truth.length]).toBeCloseTo(0, 10);
  });
});

describe("limits", () => {
  test("lie so many standard deviations from the mean", () => {
    const asked = times(40, (index) => oneFeature(`${index}`, index % 4 === 0 ? "other" : "first"));
    const [learnt] = learnWeights(asked, [], { ridge: 0.005, apart: 2 });
    expect(learnt?.low).toBeCloseTo(-2, 6);
    expect(learnt?.high).toBeCloseTo(2, 6);
  });

  test("what lies beyond them in learning counts as if it lay on them", () => {
    const plain = answered([1, 1], 60, seededChance(9));
    const asked = (far: number): readonly Question[] => [
      ...plain,
      { group: "far", features: [Float64Array.of(far, 0), Float64Array.of(0, 0)], right: [false, true] },
    ];
    const near = learnWeights(asked(4), [], { ridge: 0.02, apart: 2 })[0]?.weight ?? Number.NaN;
    const far = learnWeights(asked(6), [], { ridge: 0.02, apart: 2 })[0]?.weight ?? Number.NaN;
    const unlimited = learnWeights(asked(6), [], { ridge: 0.02, apart: 100 })[0]?.weight ?? Number.NaN;
    expect(Math.abs(far - near)).toBeLessThan(Math.abs(unlimited - near));
  });
});

describe("how much a question counts", () => {
  test("three of four right for the first: the odds are three to one", () => {
    const asked = times(400, (index) => oneFeature(`${index}`, index % 4 === 0 ? "other" : "first"));
    // The two features are 2 apart.
    expect(2 * (weightsOf(asked, [0])[0] ?? Number.NaN)).toBeCloseTo(Math.log(3), 1);
  });

  test("a group by the root of its questions: a hundred of one group as much as ten of ten", () => {
    const one = times(100, () => oneFeature("one", "first"));
    const ten = times(10, (index) => oneFeature(`${index}`, "other"));
    expect(weightsOf([...one, ...ten], [0])[0]).toBeCloseTo(0, 1);
    expect(weightsOf([...one, ...ten.slice(0, 5)], [0])[0] ?? 0).toBeGreaterThan(0.2);
  });

  test("where several are right it is enough that one of them is likely", () => {
    // Of three, the first two are right; the feature tells both from the third, and the one from the other.
    const asked = times(
      100,
      (index): Question => ({
        group: `${index}`,
        features: [Float64Array.of(1, 1), Float64Array.of(1, -1), Float64Array.of(0, 0)],
        right: [true, true, false],
      }),
    );
    const [both, between] = weightsOf(asked, []);
    expect(both ?? 0).toBeGreaterThan(1);
    expect(Math.abs(between ?? 1)).toBeLessThan(0.1 * (both ?? 0));
  });
});

describe("features that are trusted already", () => {
  /** No question tells anything: both candidates are alike in it. */
  const mute = times(
    20,
    (index): Question => ({
      group: `${index}`,
      features: times(2, () => Float64Array.of(index, index ** 2)),
      right: [true, false],
    }),
  );

  test("begin with a weight of one and keep it where nothing speaks against it; the others have none", () => {
    expect(weightsOf(mute, [0])).toEqual([1, 0]);
    expect(weightsOf(mute, [1])).toEqual([0, 1]);
  });

  test("are not held back: little evidence moves them further than the others", () => {
    const rare = [
      ...mute,
      ...times(
        2,
        (index): Question => ({
          group: `rare ${index}`,
          features: [Float64Array.of(1, 0), Float64Array.of(0, 0)],
          right: [true, false],
        }),
      ),
    ];
    const [free] = weightsOf(rare, [0]);
    const [held] = weightsOf(rare, []);
    expect(free ?? 0).toBeGreaterThan((held ?? 0) + 0.5);
  });
});
