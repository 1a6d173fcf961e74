import { describe, expect, test, vi } from "vitest";
import bars from "../../../engine/listening/bar-templates.json" with { type: "json" };
import { readBackground } from "../../../engine/listening/learning.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { FREE_IN_NAMING, namingQuestions } from "../../../scripts/learn/naming.ts";
import { fixtureTakes } from "./fixtureTakes.ts";

/** Ten styles are asked about instead of all of them: the questions are the same, and the test short. */
vi.mock("../../../engine/catalogue/index.ts", async (original) => {
  const catalogue = await original<typeof import("../../../engine/catalogue/index.ts")>();
  return { ...catalogue, STYLES: catalogue.STYLES.filter((_, index) => index % 6 === 0) };
});

const general = readBackground(bars);
const all = namingQuestions([], [], general, seededChance(3));
const catalogue = all.asWritten;

describe("questions about naming the styles of the catalogue", () => {
  test("each offers grooves, or none; one answer is right", () => {
    expect(catalogue.length).toBeGreaterThan(30);
    expect(all.byTakes).toEqual([]);
    for (const { group, features, right, noneIsRight } of catalogue) {
      expect(group).toBe("catalogue");
      expect(right.length).toBe(features.length);
      expect(features.length).toBeGreaterThan(1);
      expect(features.length).toBeLessThanOrEqual(8);
      expect([...right, noneIsRight].filter(Boolean).length).toBe(1);
      for (const own of features) expect(own.every(Number.isFinite)).toBe(true);
    }
  });

  test("of five, two are about a style that is not known", () => {
    const unknown = catalogue.filter(({ noneIsRight }) => noneIsRight).length / catalogue.length;
    // Drawn for each question: within three standard errors of 0.4.
    expect(Math.abs(unknown - 0.4)).toBeLessThan(3 * Math.sqrt(0.24 / catalogue.length));
  });

  test("grooves that are offered come in order of their evidence", () => {
    for (const { features } of catalogue) {
      const evidence = features.map((own) => own[1] ?? Number.NaN);
      expect([...evidence].sort((a, b) => b - a)).toEqual(evidence);
    }
  });

  test("free are one and the evidence", () => {
    expect(FREE_IN_NAMING).toEqual([0, 1]);
    for (const { features } of catalogue) for (const own of features) expect(own[0]).toBe(1);
  });

  test("the same chance asks the same", () => {
    expect(namingQuestions([], [], general, seededChance(3)).asWritten).toEqual(catalogue);
  });
});

describe("questions about grooves of human takes", () => {
  const asked = namingQuestions(fixtureTakes(), [], general, seededChance(4));
  const human = asked.byTakes;

  test("styles that people play are asked about among written grooves, by the dataset's name for them", () => {
    const people = asked.asWritten.filter(({ group }) => group === "people");
    expect(people.length).toBeGreaterThan(0);
    for (const { features, right, noneIsRight } of people) {
      for (const own of features) expect(own[0]).toBe(1);
      expect(noneIsRight).toBe(!right.includes(true));
    }
  });

  test("are about other players and about windows of the takes", () => {
    expect(new Set(human.map(({ group }) => group))).toEqual(new Set(["players", "windows"]));
  });

  test("weigh reference takes: one of them is right, or none", () => {
    expect(human.length).toBeGreaterThan(20);
    for (const { features, right, noneIsRight } of human) {
      for (const own of features) expect(own[0]).toBe(1);
      expect([...right, noneIsRight].filter(Boolean).length).toBe(1);
    }
  });

  test("some are about a groove on the shelf, some about one that is not", () => {
    expect(human.some(({ noneIsRight }) => noneIsRight)).toBe(true);
    expect(human.some(({ noneIsRight }) => !noneIsRight)).toBe(true);
  });
});
