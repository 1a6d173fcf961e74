import { describe, expect, test } from "vitest";
import type { Hit } from "../../../engine/kit/index.ts";
import { shippedBackground } from "../../../engine/listening/background.ts";
import { namingFeatures, standingOutMost, utilities } from "../../../engine/listening/naming.ts";
import { strokesOfHits } from "../../../engine/listening/roles.ts";
import { shelfStock } from "../../../engine/listening/stock.ts";
import { type Weighed, weigh } from "../../../engine/listening/weighing.ts";
import type { Weight } from "../../../engine/listening/weights.ts";
import { usualTempo } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { stockOf } from "./hypotheses.ts";
import { played, writtenGrooveOf } from "./played.ts";

const general = shippedBackground();
/** Ten: more than are weighed in full. */
const IDS = [
  "rock-eighths",
  "rock-sixteenths",
  "bossa-nova",
  "samba",
  "one-drop",
  "shuffle",
  "swing",
  "jazz-waltz",
  "merengue",
  "reggaeton",
];
const stock = stockOf(...IDS);
const WEIGHED_IN_FULL = 8;
/** So many features tell how it lies beside the other grooves, and before them beside each take of its own. */
const BESIDE_OTHERS = 5;
const EACH_TAKE = 4;

const take = (id: string, seed = 5) => {
  const groove = writtenGrooveOf(id);
  return played(groove, { tempoBpm: usualTempo(groove), bars: 8, spreadMs: 8, chance: seededChance(seed) });
};

function weighed(id: string, among = stock): Weighed {
  const found = weigh(strokesOfHits(take(id)), among);
  if (!found) throw new Error(`No pulse was heard in ${id}.`);
  return found;
}

const bossa = weighed("bossa-nova");
const featuresOf = ({ placed, bars }: Weighed) => namingFeatures(standingOutMost(placed), bars);
const features = featuresOf(bossa);
const COUNT = features[0]?.length ?? 0;
/** All but two of them come once more by the length of the take. */
const ONCE = (COUNT + 2) / 2;

describe("what is asked before a groove is named", () => {
  test("is always as much, in numbers, with as many weights", () => {
    const all = [...features, ...featuresOf(weighed("jazz-waltz")), ...featuresOf(weighed("swing"))];
    expect(all.length).toBe(3 * WEIGHED_IN_FULL);
    for (const one of all) {
      expect(one.length).toBe(COUNT);
      expect(one.filter((value) => !Number.isFinite(value))).toEqual([]);
    }
    expect(general.naming.asWritten.length).toBe(COUNT);
    expect(general.naming.byTakes.length).toBe(COUNT);
  });

  test("begins with 1 and the evidence, for a written groove and for one known by takes", () => {
    standingOutMost(bossa.placed).forEach(({ evidence }, index) => {
      expect(features[index]?.slice(0, 2)).toEqual([1, evidence]);
    });
    const shelf = shelfStock([{ id: "a", name: "A", takes: [take("samba", 1)] }], general);
    const fromTakes = weighed("samba", shelf);
    expect(featuresOf(fromTakes)[0]?.slice(0, 2)).toEqual([1, fromTakes.placed[0]?.evidence]);
  });
});

test("all but being named at all and the length come once more by the length, in natural log of ten seconds", () => {
  for (const own of features) {
    const [always, evidence, length = Number.NaN] = own;
    expect(always).toBe(1);
    expect(own[ONCE]).toBeCloseTo((evidence ?? Number.NaN) * length, 9);
    expect(own.slice(ONCE + 1)).toEqual(own.slice(3, ONCE).map((feature) => feature * length));
  }
});

test("a groove known by several takes is seen beside each of them too; one known by a single take is not", () => {
  const others = [1, 2, 3].map((seed) => take("samba", seed));
  const asked = (takes: readonly (readonly Hit[])[]): readonly number[] => {
    const own = featuresOf(weighed("samba", shelfStock([{ id: "a", name: "A", takes }], general)))[0] ?? [];
    return own.slice(ONCE - BESIDE_OTHERS - EACH_TAKE, ONCE - BESIDE_OTHERS);
  };
  expect(asked(others.slice(0, 1))).toEqual([0, 0, 0, 0]);
  const [likest = 0, unlikest = 0, least = 0, most = 0] = asked(others);
  expect(likest).toBeGreaterThan(unlikest);
  expect(most).toBeGreaterThanOrEqual(least);
  // The same groove by the same hands contradicts none of its takes.
  expect(most).toBeLessThan(0.05);
  const [, , , contradicted = 0] = asked([take("bossa-nova"), ...others]);
  expect(contradicted).toBeGreaterThan(most + 0.05);
});

describe("a groove is seen beside the others", () => {
  const most = standingOutMost(bossa.placed);
  const last = (count: number): readonly number[] =>
    Array.from({ length: BESIDE_OTHERS }, (_, index) => count - BESIDE_OTHERS + index);
  const [NEXT = 0, MEAN = 0, NEXT_WITH_FILLS = 0, MEAN_WITH_FILLS = 0, LIKEST = 0] = last(ONCE);
  const BESIDE = [NEXT, MEAN, NEXT_WITH_FILLS, MEAN_WITH_FILLS, LIKEST];
  const BESIDE_BY_LENGTH = last(COUNT);

  test("those that stand out most come first, eight at most, each of them once", () => {
    const evidence = most.map((one) => one.evidence);
    expect([...evidence].sort((a, b) => b - a)).toEqual(evidence);
    expect(most.length).toBe(WEIGHED_IN_FULL);
    const left = bossa.placed.filter((one) => !most.includes(one));
    expect(left.length).toBe(IDS.length - WEIGHED_IN_FULL);
    for (const one of left) expect(one.evidence).toBeLessThanOrEqual(evidence.at(-1) ?? Number.NaN);
  });

  test("in five features only: the next one and the mean of all, with and without fills, and the likest", () => {
    const [first, second, third] = most;
    if (!first || !second || !third) throw new Error("There are no three.");
    const [among] = namingFeatures([first, second], bossa.bars);
    const [with3] = namingFeatures([first, third], bossa.bars);
    const changed = among?.flatMap((value, index) => (value === with3?.[index] ? [] : [index])) ?? [];
    expect(changed.length).toBeGreaterThan(0);
    for (const index of changed) expect([...BESIDE, ...BESIDE_BY_LENGTH]).toContain(index);
    expect(among?.[NEXT]).toBeCloseTo(Math.min(20, first.evidence - second.evidence), 9);
    expect(with3?.[NEXT]).toBeCloseTo(Math.min(20, first.evidence - third.evidence), 9);
  });

  test("of two, the one is as far ahead as the other is behind", () => {
    const [one, other] = namingFeatures(most.slice(0, 2), bossa.bars);
    for (const index of BESIDE) expect(one?.[index]).toBeCloseTo(-(other?.[index] ?? Number.NaN), 9);
    expect(one?.[NEXT]).toBeGreaterThan(0);
  });

  test("alone it stands beside grooves in general: as far from them as its evidence", () => {
    for (const groove of most) {
      const [own] = namingFeatures([groove], bossa.bars);
      const apart = Math.max(-20, Math.min(20, groove.evidence));
      expect([NEXT, MEAN, LIKEST].map((index) => own?.[index])).toEqual([apart, apart, 0]);
      // No fill was played, so that next to nothing is gained by one.
      expect(own?.[NEXT_WITH_FILLS]).toBe(own?.[MEAN_WITH_FILLS]);
    }
  });
});

/** The evidence so many times, and so much more for any groove. */
function weightsOfEvidence(times: number, more: number): readonly Weight[] {
  return Array.from({ length: COUNT }, (_, index) => ({
    weight: index === 1 ? times : index === 0 ? more : 0,
    low: -1e6,
    high: 1e6,
  }));
}

describe("what speaks for naming each groove", () => {
  const { placed, bars } = bossa;
  const evidenceAlone = {
    ...general,
    naming: { asWritten: weightsOfEvidence(2, -3), byTakes: weightsOfEvidence(5, -4) },
  };

  test("is weighed as the weights say, for those that stand out most", () => {
    const told = utilities(placed, bars, evidenceAlone);
    const order = [...placed.keys()].sort((a, b) => (placed[b]?.evidence ?? 0) - (placed[a]?.evidence ?? 0));
    for (const index of order.slice(0, WEIGHED_IN_FULL)) {
      // Written grooves are named 2.3 times as surely as the weights alone say.
      expect(told[index]).toBeCloseTo(2.3 * (2 * (placed[index]?.evidence ?? Number.NaN) - 3), 6);
    }
    // The others come below the least of those, and the lower the less they stand out.
    const least = Math.min(...order.slice(0, WEIGHED_IN_FULL).map((index) => told[index] ?? Number.NaN));
    const others = order.slice(WEIGHED_IN_FULL).map((index) => told[index] ?? Number.NaN);
    expect(others.length).toBe(IDS.length - WEIGHED_IN_FULL);
    expect([...others].sort((a, b) => b - a)).toEqual(others);
    for (const other of others) expect(other).toBeLessThanOrEqual(least);
  });

  test("is weighed by weights of their own for grooves known by takes", () => {
    const shelf = shelfStock([{ id: "a", name: "A", takes: [take("samba", 1)] }], general);
    const fromTakes = weighed("samba", shelf);
    const [told] = utilities(fromTakes.placed, fromTakes.bars, evidenceAlone);
    expect(told).toBeCloseTo(5 * (fromTakes.placed[0]?.evidence ?? Number.NaN) - 4, 6);
  });

  test("does not depend on the order of the stock", () => {
    const told = utilities(placed, bars, general);
    const turnedRound = utilities([...placed].reverse(), bars, general);
    [...turnedRound].reverse().forEach((utility, index) => {
      expect(utility).toBeCloseTo(told[index] ?? Number.NaN, 9);
    });
  });

  test("is nothing for no groove", () => {
    expect(utilities([], bars, general)).toEqual([]);
  });
});
