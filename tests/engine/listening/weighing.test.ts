import { describe, expect, test } from "vitest";
import type { Hit } from "../../../engine/kit/index.ts";
import { pulseHypotheses, rootPulses } from "../../../engine/listening/pulse.ts";
import { likelyBars, likelyPulses } from "../../../engine/listening/reading.ts";
import { strokesOfHits } from "../../../engine/listening/roles.ts";
import { type Beforehand, placeGrooves, type Weighed, weigh } from "../../../engine/listening/weighing.ts";
import { usualTempo } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { pulseAt, stockOf } from "./hypotheses.ts";
import { played, writtenGrooveOf } from "./played.ts";

const IDS = ["rock-eighths", "bossa-nova", "samba", "jazz-waltz", "one-drop"];
const stock = stockOf(...IDS);
const { general } = stock;

function take(id: string, tempoBpm = usualTempo(writtenGrooveOf(id))): readonly Hit[] {
  return played(writtenGrooveOf(id), { tempoBpm, bars: 8, spreadMs: 8, chance: seededChance(6) });
}

function weighed(hits: readonly Hit[], before: Beforehand = {}): Weighed {
  const found = weigh(strokesOfHits(hits), stock, before);
  if (!found) throw new Error("No pulse was heard.");
  return found;
}

const standingOutMost = ({ placed }: Weighed): string | undefined =>
  [...placed].sort((a, b) => b.evidence - a.evidence)[0]?.known.id;

describe("strokes and what could be made of them", () => {
  const bossa = weighed(take("bossa-nova"));

  test("every groove of the stock is placed, in its order, with what speaks for it", () => {
    expect(bossa.placed.map(({ known }) => known.id)).toEqual(stock.grooves.map(({ id }) => id));
    expect(bossa.utilities.length).toBe(IDS.length);
    expect(bossa.utilities.every(Number.isFinite)).toBe(true);
  });

  test("what is played every day is likelier beforehand, and nothing else is", () => {
    const rare = { ...stock, grooves: stock.grooves.map((known) => ({ ...known, isEveryday: false })) };
    const strokes = strokesOfHits(take("bossa-nova"));
    const without = weigh(strokes, rare)?.utilities ?? [];
    bossa.utilities.forEach((utility, index) => {
      const more = stock.grooves[index]?.isEveryday ? 1.2 : 0;
      expect(utility - (without[index] ?? Number.NaN)).toBeCloseTo(more, 9);
    });
    expect(stock.grooves.filter(({ isEveryday }) => isEveryday).map(({ id }) => id)).toEqual([
      "rock-eighths",
    ]);
  });

  test("the likeliest bar is the first of all", () => {
    expect(bossa.likeliest).toBe(bossa.bars[0]);
    for (const { chance } of bossa.bars) expect(chance).toBeLessThanOrEqual(bossa.likeliest.chance);
  });

  test("evidence is how far a groove stands above grooves in general, at their best", () => {
    const pulses = likelyPulses(pulseHypotheses(strokesOfHits(take("bossa-nova")), general), general);
    const most = likelyBars(pulses, general)[0]?.logChance ?? Number.NaN;
    for (const { evidence, placing } of bossa.placed) expect(evidence).toBeCloseTo(placing.score - most, 6);
  });

  test.each(IDS)("%s stands out most when it is played", (id) => {
    expect(standingOutMost(weighed(take(id)))).toBe(id);
  });

  test("do not depend on when they were struck", () => {
    const later = weighed(take("bossa-nova").map((hit) => ({ ...hit, time: hit.time + 2048 })));
    later.placed.forEach(({ evidence }, index) => {
      expect(evidence).toBeCloseTo(bossa.placed[index]?.evidence ?? Number.NaN, 4);
    });
    expect(later.likeliest.chance).toBeCloseTo(bossa.likeliest.chance, 4);
  });

  test.each([0.9, 1.1])("played at %f of its time, the same groove stands out, on its own beat", (share) => {
    const scaled = weighed(take("bossa-nova").map((hit) => ({ ...hit, time: hit.time * share })));
    expect(standingOutMost(scaled)).toBe("bossa-nova");
    const beat = (of: Weighed): number =>
      of.placed.find(({ known }) => known.id === "bossa-nova")?.placing.pulse.beatSeconds ?? Number.NaN;
    expect(beat(scaled) / beat(bossa)).toBeCloseTo(share, 2);
  });

  test.each(["rock-eighths", "bossa-nova"])(
    "what speaks for %s does not jump between one tempo and the next",
    (id) => {
      const utilityAt = (tempoBpm: number): number => {
        const { placed, utilities } = weighed(take(id, tempoBpm));
        return utilities[placed.findIndex(({ known }) => known.id === id)] ?? Number.NaN;
      };
      // Two units make likely as not into seven to one.
      for (const tempoBpm of [97, 107, 122, 142]) {
        expect(Math.abs(utilityAt(tempoBpm + 0.6) - utilityAt(tempoBpm - 0.6)), `${tempoBpm}`).toBeLessThan(
          2,
        );
      }
    },
  );

  test("of too few there is nothing to weigh", () => {
    expect(weigh(strokesOfHits(take("samba").slice(0, 3)), stock)).toBeUndefined();
    expect(weigh([], stock)).toBeUndefined();
  });

  test("an empty stock leaves the bars", () => {
    const { bars, placed, utilities } = weigh(strokesOfHits(take("samba")), { ...stock, grooves: [] }) ?? {};
    expect(bars?.length).toBeGreaterThan(0);
    expect({ placed, utilities }).toEqual({ placed: [], utilities: [] });
  });
});

describe("what is known beforehand", () => {
  test("a click is the only pulse, for bars and grooves alike", () => {
    const hits = take("samba", 104);
    const { bars, placed } = weighed(hits, { click: { tempoBpm: 104, from: 0 } });
    const pulses = new Set([...bars, ...placed.map(({ placing }) => placing)].map(({ pulse }) => pulse));
    expect(pulses.size).toBe(1);
    const [pulse] = pulses;
    pulse?.map.times.forEach((time, index) => {
      expect(pulse.map.beats[index]).toBeCloseTo((time * 104) / 60, 9);
    });
  });

  test("periods found a moment ago give what looking for them gives", () => {
    const hits = take("one-drop");
    const roots = rootPulses(strokesOfHits(hits), general);
    const looked = weighed(hits);
    const told = weighed(hits, { roots });
    expect(told.utilities).toEqual(looked.utilities);
    expect(told.likeliest.chance).toBe(looked.likeliest.chance);
  });
});

describe("placing the grooves of a stock", () => {
  const hits = take("rock-eighths", 110);

  test("leaves out those no pulse suits", () => {
    const [rock] = stock.grooves;
    if (!rock) throw new Error("The stock is empty.");
    const never = { ...rock, id: "never", tempoBpm: { low: 400, high: 500 } };
    const placed = placeGrooves({ general, grooves: [never, rock] }, [pulseAt(hits, 110)], 0);
    expect(placed.map(({ known }) => known.id)).toEqual([rock.id]);
  });

  test("a tempo outside the groove's range speaks against it, the more the further", () => {
    const [rock] = stock.grooves;
    if (!rock) throw new Error("The stock is empty.");
    const score = (low: number, high: number): number =>
      placeGrooves({ general, grooves: [{ ...rock, tempoBpm: { low, high } }] }, [pulseAt(hits, 110)], 0)[0]
        ?.evidence ?? Number.NaN;
    expect(score(100, 120)).toBe(score(60, 110));
    expect(score(120, 140)).toBeLessThan(score(115, 140));
    expect(score(115, 140)).toBeLessThan(score(110, 140));
    // As far below as above, in ratio, says as much.
    expect(score(121, 200)).toBeCloseTo(score(60, 100), 9);
    expect(score(110, 140) - score(121, 200)).toBeLessThan(0.5);
  });

  test("of its models the best one speaks", () => {
    const pulse = pulseAt(hits, 110);
    const [placed] = placeGrooves({ general, grooves: stock.grooves.slice(0, 1) }, [pulse], 0);
    const alone = (stock.grooves[0]?.models ?? []).map((model) => {
      const known = stock.grooves[0];
      if (!known) throw new Error("The stock is empty.");
      return placeGrooves({ general, grooves: [{ ...known, models: [model] }] }, [pulse], 0)[0]?.evidence;
    });
    const scores = alone.filter((score) => score !== undefined);
    expect(scores.length).toBeGreaterThan(1);
    expect(placed?.evidence).toBe(Math.max(...scores));
  });
});
