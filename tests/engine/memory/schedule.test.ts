import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  chanceForgotten,
  chanceWords,
  daysAfter,
  daysHeld,
  memoryOf,
  type Result,
  ratingOfDay,
} from "../../../engine/memory/index.ts";
import type { Outcome } from "../../../engine/session/index.ts";
import { aResult } from "./laws.ts";
import { result } from "./results.ts";

const ofOneItem = fc
  .array(aResult, { minLength: 1, maxLength: 40 })
  .map((results): Result[] => results.map((each) => ({ ...each, item: "style:samba" })));

function forgotten(results: readonly Result[], day: string): number {
  const memory = memoryOf(results);
  if (!memory) throw new Error("No results were made.");
  return chanceForgotten(memory, day);
}

test.each<[readonly Outcome[], number]>([
  [["known"], 3],
  [["known", "known", "known"], 3],
  [["known", "slipped"], 2],
  [["known", "slipped", "known"], 2],
  [["slipped"], 1],
  [["slipped", "known", "known"], 1],
  [["new"], 1],
  [["new", "known"], 1],
])("a day of %j is rated %i", (outcomes, rating) => {
  expect(ratingOfDay(outcomes)).toBe(rating);
});

test("nothing is remembered of what was never asked", () => {
  expect(memoryOf([])).toBeNull();
});

test("on the day it was asked, and before, nothing is forgotten", () => {
  const results = [result("style:samba", "known", "2026-03-02")];
  expect(forgotten(results, "2026-03-02")).toBe(0);
  expect(forgotten(results, "2026-02-02")).toBe(0);
});

describe("laws", () => {
  test("forgetting never goes back while nothing is asked, and stays a chance", () => {
    fc.assert(
      fc.property(ofOneItem, fc.nat(3000), fc.nat(3000), (results, some, more) => {
        const memory = memoryOf(results);
        if (!memory) throw new Error("No results were made.");
        const sooner = chanceForgotten(memory, daysAfter(memory.lastDay, some));
        const later = chanceForgotten(memory, daysAfter(memory.lastDay, some + more));
        expect(later).toBeGreaterThanOrEqual(sooner);
        expect(sooner).toBeGreaterThanOrEqual(0);
        expect(later).toBeLessThan(1);
      }),
    );
  });

  test("the order results are handed over in decides nothing", () => {
    fc.assert(
      fc.property(
        ofOneItem.chain((results) =>
          fc.tuple(fc.constant(results), fc.shuffledSubarray(results, { minLength: results.length })),
        ),
        ([results, shuffled]) => {
          expect(memoryOf(shuffled)).toEqual(memoryOf(results));
        },
      ),
    );
  });

  test("one more lesson in which it held leaves it remembered at least as well as one in which it slipped", () => {
    fc.assert(
      fc.property(ofOneItem, fc.integer({ min: 1, max: 60 }), fc.nat(400), (results, gap, wait) => {
        const last = memoryOf(results)?.lastDay ?? "2026-01-05";
        const next = daysAfter(last, gap);
        const then = daysAfter(next, wait);
        const known = forgotten([...results, result("style:samba", "known", next)], then);
        const shaky = forgotten(
          [...results, result("style:samba", "known", next), result("style:samba", "slipped", next, 1)],
          then,
        );
        const slipped = forgotten([...results, result("style:samba", "slipped", next)], then);
        expect(known).toBeLessThanOrEqual(shaky);
        expect(shaky).toBeLessThanOrEqual(slipped);
      }),
    );
  });

  test("holding makes it last, slipping never makes it last longer", () => {
    fc.assert(
      fc.property(ofOneItem, fc.integer({ min: 1, max: 60 }), (results, gap) => {
        const before = memoryOf(results);
        if (!before) throw new Error("No results were made.");
        const next = daysAfter(before.lastDay, gap);
        const held = memoryOf([...results, result("style:samba", "known", next)]);
        const missed = memoryOf([...results, result("style:samba", "slipped", next)]);
        expect(held?.stabilityDays).toBeGreaterThanOrEqual(before.stabilityDays);
        expect(missed?.stabilityDays).toBeLessThanOrEqual(before.stabilityDays);
      }),
    );
  });

  test("the more is wanted, the sooner it is due", () => {
    fc.assert(
      fc.property(ofOneItem, fc.double({ min: 0.7, max: 0.97, noNaN: true }), (results, retention) => {
        const memory = memoryOf(results);
        if (!memory) throw new Error("No results were made.");
        expect(daysHeld(memory, retention)).toBeGreaterThan(daysHeld(memory, retention + 0.02));
      }),
    );
  });
});

test.each([
  [0, "hardly likely"],
  [0.08, "one in ten"],
  [0.22, "one in five"],
  [0.3, "one in three"],
  [0.47, "about one in two"],
  [0.7, "two in three"],
  [1, "nine in ten"],
])("a chance of %f is said %s", (chance, words) => {
  expect(chanceWords(chance)).toBe(words);
});
