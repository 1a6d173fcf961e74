import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type Askable,
  FEWEST_MET,
  nextThing,
  type Spottable,
  type SpottingQuestion,
  STOCK_TO_SPOT,
  thingKey,
} from "../../../../engine/rounds/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";

const STOCK = STOCK_TO_SPOT.slice(0, 30);

function askables(forgotten: readonly (number | null)[]): readonly Askable[] {
  return forgotten.flatMap((chanceForgotten, place) => {
    const spottable = STOCK[place];
    return spottable ? [{ spottable, chanceForgotten }] : [];
  });
}

type Asked = Pick<SpottingQuestion, "key">;

function askedOf({ thing }: Spottable, isNew: boolean): Asked {
  return { key: { by: "program", thing, performance: { way: 0, tempoBpm: 100, seed: 1 }, isNew } };
}

/** What a round of so many questions asks. */
function roundOf(all: readonly Askable[], questions: number, seed: number) {
  const chance = seededChance(seed);
  const past: Asked[] = [];
  const drawn = [];
  for (let question = 0; question < questions; question += 1) {
    const next = nextThing(all, past, chance);
    if (!next) break;
    drawn.push(next);
    past.push(askedOf(next.spottable, next.isNew));
  }
  return drawn;
}

const someForgotten = fc.array(fc.option(fc.double({ min: 0, max: 1, noNaN: true }), { freq: 2 }), {
  minLength: 1,
  maxLength: 30,
});

describe("whatever was met", () => {
  test("only that is asked, and one new thing in the round, after something that was met", () => {
    fc.assert(
      fc.property(someForgotten, fc.nat(), (forgotten, seed) => {
        const all = askables(forgotten);
        const met = forgotten.filter((each) => each !== null).length;
        const fresh = all.length - met;
        const drawn = roundOf(all, 12, seed);
        expect(drawn).toHaveLength(12);
        const isMet = new Set(
          all.flatMap(({ spottable, chanceForgotten }) =>
            chanceForgotten === null ? [] : [thingKey(spottable.thing)],
          ),
        );
        for (const { spottable, isNew } of drawn)
          if (isNew) isMet.add(thingKey(spottable.thing));
          else expect(isMet).toContain(thingKey(spottable.thing));
        const newOnes = drawn.filter(({ isNew }) => isNew).length;
        expect(newOnes).toBe(Math.min(fresh, Math.max(1, FEWEST_MET - met)));
        if (met > 0) expect(drawn[0]?.isNew).toBe(false);
      }),
      { numRuns: 200 },
    );
  });

  test("the same thing does not come twice running where there is another", () => {
    fc.assert(
      fc.property(someForgotten, fc.nat(), (forgotten, seed) => {
        const all = askables(forgotten);
        if (all.length < 2) return;
        const keys = roundOf(all, 12, seed).map(({ spottable }) => thingKey(spottable.thing));
        keys.slice(1).forEach((key, place) => {
          expect(key).not.toBe(keys[place]);
        });
      }),
      { numRuns: 200 },
    );
  });
});

test("what is likelier forgotten comes up more often", () => {
  const all = askables([0.9, 0.1, 0.1, 0.1, 0.1, 0.1]);
  const first = Array.from({ length: 600 }, (_, seed) => roundOf(all, 1, seed)[0]?.spottable);
  const share = first.filter((each) => each === all[0]?.spottable).length / first.length;
  // .9 of .9 + 5 × .1.
  expect(share).toBeGreaterThan(0.56);
  expect(share).toBeLessThan(0.73);
});

test("a first lesson begins with what most players play most days", () => {
  const all = STOCK_TO_SPOT.map((spottable) => ({ spottable, chanceForgotten: null }));
  const [first] = roundOf(all, 1, 1);
  expect(first).toMatchObject({ isNew: true, spottable: { isEveryday: true } });
});

test("nothing is drawn where there is nothing", () => {
  expect(nextThing([], [], seededChance(1))).toBeNull();
});
