import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { questionOf, RUNGS, rungAt, rungOf, SURFACES, surfacesOf } from "../../../engine/ear/index.ts";
import { seededChance } from "../../../engine/units/index.ts";

const anyStanding = fc.integer({ min: 1, max: RUNGS.length });

test("every surface can be asked by itself, wherever the listener stands, and then sounds alone", () => {
  fc.assert(
    fc.property(fc.constantFrom(...SURFACES), anyStanding, fc.integer(), (surface, standing, seed) => {
      const drawn = questionOf(surface, standing, seededChance(seed));
      expect(drawn?.moments).toEqual([[{ surface }]]);
      expect(rungAt(drawn?.rung ?? 0).pool).toContain(surface);
    }),
  );
});

test("rows, two at once, and touches are asked as they are named", () => {
  fc.assert(
    fc.property(anyStanding, fc.integer(), fc.integer({ min: 2, max: 8 }), (standing, seed, length) => {
      const chance = seededChance(seed);
      expect(questionOf(`sequence-${length}`, standing, chance)?.moments).toHaveLength(length);
      const [together] = questionOf("two-at-once", standing, chance)?.moments ?? [];
      expect(together).toHaveLength(2);
      expect(questionOf("soft-stroke", standing, chance)?.moments[0]?.[0]?.touch).toBe("soft");
      expect(questionOf("loud-stroke", standing, chance)?.moments[0]?.[0]?.touch).toBe("loud");
    }),
  );
});

describe("the rung that asks it", () => {
  test.each([
    ["kick", 1, 1],
    ["kick", 12, 12],
    ["floor-tom", 1, 2],
    ["floor-tom", 6, 5],
    ["hi-hat-half", 2, 11],
    ["sequence-3", 1, 14],
    ["two-at-once", 20, 13],
    ["soft-stroke", 1, 6],
  ])("%s, standing at %i: %i", (subject, standing, rung) => {
    expect(rungOf(subject, standing)).toBe(rung);
  });

  test("what no rung asks", () => {
    expect(rungOf("cowbell", 3)).toBe(null);
    expect(questionOf("sequence-9", 3, seededChance(1))).toBe(null);
  });
});

test("a question of one thing has no more surfaces than its rung has", () => {
  const drawn = questionOf("sequence-4", 1, seededChance(2));
  expect(surfacesOf(drawn?.moments ?? [])).toHaveLength(4);
});
