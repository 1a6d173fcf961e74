/**
 * The stand-ins for other players are only as good as their likeness to people: their noise is held to what is measured
 * on the human takes, and what they play to the groove they are meant to play.
 */
import { describe, expect, test } from "vitest";
import { median, seededChance } from "../../../engine/units/index.ts";
import { type DerivedGroove, derivedGroove } from "../../../scripts/learn/players/derivedGroove.ts";
import { humanFills } from "../../../scripts/learn/players/fills.ts";
import { type HumanNoise, MEASURED, noiseOf } from "../../../scripts/learn/players/humanNoise.ts";
import { anotherPlayer } from "../../../scripts/learn/players/otherPlayers.ts";
import { perform } from "../../../scripts/learn/players/performance.ts";
import { distinct, likeness, TOO_ALIKE } from "../../../scripts/learn/players/shelves.ts";
import { DEVELOPMENT_TAKES_ARE_HERE } from "../../reference/developmentTakes.ts";
import { type HumanTake, heldOutFills, heldOutTakes } from "./heldOut.ts";

interface Played {
  readonly take: HumanTake;
  readonly groove: DerivedGroove;
}

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
}

/** A performance laid on its own click again, as the human takes are. */
function asTake(groove: DerivedGroove, seed: number, fills: ReturnType<typeof humanFills>): HumanTake {
  const chance = seededChance(seed);
  const player = anotherPlayer(groove, fills, chance);
  const { hits, downbeats } = perform(groove, player, { bars: 33, slower: 1 }, chance);
  const bar = (60 / groove.tempoBpm) * groove.beatsInBar;
  // A groove of two bars may have been cut out in its second: either downbeat may be its first.
  const candidates = downbeats.slice(0, groove.bars).map((from): HumanTake => {
    const shifted = hits
      .map((hit) => ({ ...hit, time: hit.time - from }))
      .filter(({ time }) => time > -0.04 && time < 30 * bar);
    return {
      id: groove.id,
      style: "",
      bpm: groove.tempoBpm,
      beatsInBar: groove.beatsInBar,
      path: "",
      hits: shifted,
    };
  });
  const likest = (take: HumanTake): number => {
    const found = derivedGroove(take);
    return found ? likeness(found, groove) : 0;
  };
  return candidates.reduce((best, one) => (likest(one) > likest(best) ? one : best));
}

describe.skipIf(!DEVELOPMENT_TAKES_ARE_HERE)("stand-ins for other players", () => {
  const takes = heldOutTakes();
  const played = takes.flatMap((take): readonly Played[] => {
    const groove = derivedGroove(take);
    return groove ? [{ take, groove }] : [];
  });
  const fills = humanFills(heldOutFills());

  test("the noise they are given is that of the human takes", () => {
    const noise = played.flatMap(({ take, groove }): readonly HumanNoise[] => {
      const found = noiseOf(take, groove);
      return found ? [found] : [];
    });
    const of = (key: keyof HumanNoise): readonly number[] => noise.map((one) => one[key]);
    for (const key of ["partLeanMs", "spreadMs", "limbMs", "wanderCorrelation", "velocitySd"] as const) {
      const figures = [0.1, 0.5, 0.9].map((share) => quantile(of(key), share).toFixed(3));
      console.log(`${key} of ${noise.length} takes: ${figures.join(", ")} (tenth, median, ninth tenth).`);
    }
    expect(noise.length).toBeGreaterThan(50);
    expect(median(of("partLeanMs"))).toBeCloseTo(MEASURED.partLeanMs, 0);
    expect(quantile(of("spreadMs"), 0.1)).toBeCloseTo(MEASURED.spreadMs.low, 0);
    expect(quantile(of("spreadMs"), 0.9)).toBeCloseTo(MEASURED.spreadMs.high, 0);
    expect(median(of("limbMs")) / median(of("spreadMs"))).toBeCloseTo(MEASURED.limbShare, 1);
    expect(median(of("wanderCorrelation"))).toBeCloseTo(MEASURED.wanderCorrelation, 1);
    expect(median(of("velocitySd"))).toBeCloseTo(MEASURED.velocitySd, 2);
  });

  test("measured in the same way, their performances have that noise", () => {
    const noise = played.flatMap(({ groove }, index) => {
      const take = asTake(groove, index, fills);
      const found = noiseOf(take, groove);
      return found ? [found] : [];
    });
    const spread = median(noise.map(({ spreadMs }) => spreadMs));
    const limb = median(noise.map(({ limbMs }) => limbMs));
    console.log(
      `Performances of ${noise.length} grooves: spread ${spread.toFixed(1)} ms, limb ${limb.toFixed(1)} ms.`,
    );
    expect(noise.length).toBeGreaterThan(50);
    expect(spread).toBeGreaterThan(MEASURED.spreadMs.low);
    expect(spread).toBeLessThan(MEASURED.spreadMs.high);
    expect(limb / spread).toBeGreaterThan(MEASURED.limbShare - 0.15);
    expect(limb / spread).toBeLessThan(MEASURED.limbShare + 0.15);
  });

  test("what they play is more like their groove than like any other on a shelf", () => {
    const chance = seededChance(11);
    const likest = Array.from({ length: 4 }, () =>
      distinct(
        played.map(({ groove }) => groove),
        10,
        chance,
      ),
    ).flatMap((shelf, round) =>
      shelf.flatMap((groove, index) => {
        const found = derivedGroove(asTake(groove, 100 * round + index, fills));
        if (!found) return [];
        const order = [...shelf].sort((a, b) => likeness(found, b) - likeness(found, a));
        return [{ own: order[0]?.id === groove.id, like: likeness(found, groove) }];
      }),
    );
    const own = likest.filter((one) => one.own).length;
    console.log(
      `${own} of ${likest.length} performances are likest to their own groove; likeness ${median(likest.map(({ like }) => like)).toFixed(2)}.`,
    );
    expect(likest.length).toBeGreaterThan(30);
    expect(own / likest.length).toBeGreaterThan(0.9);
  });

  test("a shelf holds no two grooves that are too alike", () => {
    const shelf = distinct(
      played.map(({ groove }) => groove),
      10,
      seededChance(3),
    );
    expect(shelf.length).toBe(10);
    shelf.forEach((a, index) => {
      for (const b of shelf.slice(0, index)) expect(likeness(a, b)).toBeLessThanOrEqual(TOO_ALIKE);
    });
  });

  test("the same chance plays the same", () => {
    const groove = played[0]?.groove;
    if (!groove) throw new Error("No groove was found in the held-out takes.");
    const once = () => {
      const chance = seededChance(7);
      return perform(groove, anotherPlayer(groove, fills, chance), { bars: 8, slower: 1.1 }, chance);
    };
    expect(once()).toEqual(once());
    expect(once().hits.length).toBeGreaterThan(40);
  });
});
