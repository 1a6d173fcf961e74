import { describe, expect, test } from "vitest";
import { shippedBackground } from "../../../engine/listening/background.ts";
import { namingFeatures, utilities } from "../../../engine/listening/naming.ts";
import { strokesOfHits } from "../../../engine/listening/roles.ts";
import { shelfStock } from "../../../engine/listening/stock.ts";
import { type Weighed, weigh } from "../../../engine/listening/weighing.ts";
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
const featuresOf = ({ placed, bars }: Weighed) => placed.map((one) => namingFeatures(one, bars, general));
const features = featuresOf(bossa);
const HALF = (features[0]?.length ?? 0) / 2;

describe("what is asked before a groove is named", () => {
  test("is always as much, in numbers, with as many weights", () => {
    const all = [...features, ...featuresOf(weighed("jazz-waltz")), ...featuresOf(weighed("swing"))];
    expect(all.length).toBe(3 * IDS.length);
    for (const one of all) {
      expect(one.length).toBe(2 * HALF);
      expect(one.filter((value) => !Number.isFinite(value))).toEqual([]);
    }
    expect(general.naming.length).toBe(2 * HALF);
  });

  test("of a written groove fills the first half, of a shelf's takes the second, with 1 and the evidence first", () => {
    bossa.placed.forEach(({ evidence }, index) => {
      expect(features[index]?.slice(0, 2)).toEqual([1, evidence]);
      expect(features[index]?.slice(HALF).filter((value) => value !== 0)).toEqual([]);
    });
    const shelf = shelfStock([{ id: "a", name: "A", takes: [take("samba", 1)] }], general);
    const fromTakes = weighed("samba", shelf);
    const [ofTakes] = featuresOf(fromTakes);
    expect(ofTakes?.slice(0, HALF).filter((value) => value !== 0)).toEqual([]);
    expect(ofTakes?.slice(HALF, HALF + 2)).toEqual([1, fromTakes.placed[0]?.evidence]);
  });
});

describe("what speaks for naming each groove", () => {
  const { placed, bars } = bossa;
  const evidenceAlone = {
    ...general,
    naming: Array.from({ length: 2 * HALF }, (_, index) => (index === 1 ? 2 : index === 0 ? -3 : 0)),
  };

  test("is weighed as the weights say, for those that stand out most", () => {
    const told = utilities(placed, bars, evidenceAlone);
    const order = [...placed.keys()].sort((a, b) => (placed[b]?.evidence ?? 0) - (placed[a]?.evidence ?? 0));
    for (const index of order.slice(0, WEIGHED_IN_FULL)) {
      expect(told[index]).toBeCloseTo(2 * (placed[index]?.evidence ?? Number.NaN) - 3, 6);
    }
    // The others come below the least of those, and the lower the less they stand out.
    const least = Math.min(...order.slice(0, WEIGHED_IN_FULL).map((index) => told[index] ?? Number.NaN));
    const others = order.slice(WEIGHED_IN_FULL).map((index) => told[index] ?? Number.NaN);
    expect(others.length).toBe(IDS.length - WEIGHED_IN_FULL);
    expect([...others].sort((a, b) => b - a)).toEqual(others);
    for (const other of others) expect(other).toBeLessThanOrEqual(least);
  });

  test("does not depend on the order of the stock", () => {
    const told = utilities(placed, bars, general);
    const turnedRound = utilities([...placed].reverse(), bars, general);
    expect([...turnedRound].reverse()).toEqual(told);
  });

  test("is nothing for no groove", () => {
    expect(utilities([], bars, general)).toEqual([]);
  });

  test("is the same wherever the other grooves stand that are weighed in full", () => {
    const few = placed.filter(({ known }) => ["bossa-nova", "samba"].includes(known.id));
    const ofAll = utilities(placed, bars, general);
    const order = [...placed].sort((a, b) => b.evidence - a.evidence).slice(0, WEIGHED_IN_FULL);
    utilities(few, bars, general).forEach((utility, index) => {
      const one = few[index];
      if (one && order.includes(one)) expect(utility).toBe(ofAll[placed.indexOf(one)]);
    });
    expect(order.some((one) => few.includes(one))).toBe(true);
  });
});
