import { describe, expect, test } from "vitest";
import { STYLES } from "../../../engine/catalogue/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import {
  catalogueStock,
  type KnownGroove,
  type Stock,
  shelfStock,
  withOwnTakes,
} from "../../../engine/listening/index.ts";
import { pulseHypotheses } from "../../../engine/listening/pulse.ts";
import { strokesOfHits } from "../../../engine/listening/roles.ts";
import { placeGrooves } from "../../../engine/listening/weighing.ts";
import { whyWords } from "../../../engine/listening/why.ts";
import type { Groove } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { withHabit } from "./habit.ts";
import { heardAmong, stockOf } from "./hypotheses.ts";
import { played, steadily, writtenGrooveOf } from "./played.ts";

const stock = stockOf("rock-eighths", "bossa-nova", "shuffle");

/** A take of a groove by a player who has a habit with it, always the same. */
function ofPlayer(id: string, seed: number, bars = 8): readonly Hit[] {
  return steadily(withHabit(writtenGrooveOf(id), seededChance(7)), { bars, chance: seededChance(seed) });
}

function own(id: string, ...takes: readonly (readonly Hit[])[]) {
  return { id, name: id, takes };
}

function known(id: string, among: Stock): KnownGroove {
  const groove = among.grooves.find((one) => one.id === id);
  if (!groove) throw new Error(`The stock holds no ${id}.`);
  return groove;
}

/** How well a groove lies on a take, in natural-log units. */
function fit(id: string, among: Stock, hits: readonly Hit[]): number {
  const pulses = pulseHypotheses(strokesOfHits(hits), among.general);
  const [placed] = placeGrooves({ ...among, grooves: [known(id, among)] }, pulses, 0);
  return placed?.evidence ?? Number.NEGATIVE_INFINITY;
}

describe("takes of a groove of the stock", () => {
  const once = withOwnTakes(stock, [own("rock-eighths", ofPlayer("rock-eighths", 1))]);
  const thrice = withOwnTakes(stock, [
    own("rock-eighths", ...[1, 2, 3].map((seed) => ofPlayer("rock-eighths", seed))),
  ]);

  test("join it beside what is written; the other grooves stay what they were", () => {
    expect(once.grooves.map(({ id }) => id)).toEqual(stock.grooves.map(({ id }) => id));
    const { models, metre, name, own: itself } = known("rock-eighths", once);
    const before = known("rock-eighths", stock);
    expect(models.slice(0, before.models.length)).toEqual(before.models);
    expect(models.length).toBeGreaterThan(before.models.length);
    expect({ metre, name, itself }).toEqual({ metre: before.metre, name: before.name, itself: before.own });
    for (const id of ["bossa-nova", "shuffle"]) expect(known(id, once)).toBe(known(id, stock));
  });

  test("are weighed as reference takes are, and say which variant they are a way of", () => {
    const learnt = known("rock-eighths", once).models.filter(({ written }) => written === undefined);
    const variants = new Set(known("rock-eighths", stock).models.map(({ written }) => written?.id));
    expect(learnt.map(({ beats }) => beats)).toEqual([4, 8]);
    for (const { ownWayOf } of learnt) expect(variants).toContain(ownWayOf?.id);
  });

  test("one take helps the same player's next one, three help more, and no other groove", () => {
    const next = ofPlayer("rock-eighths", 9);
    expect(fit("rock-eighths", once, next)).toBeGreaterThan(fit("rock-eighths", stock, next) + 1);
    expect(fit("rock-eighths", thrice, next)).toBeGreaterThan(fit("rock-eighths", once, next));
    for (const id of ["bossa-nova", "shuffle"]) expect(fit(id, thrice, next)).toBe(fit(id, stock, next));
  });

  test("take nothing from the groove as written", () => {
    const asWritten = steadily(writtenGrooveOf("rock-eighths"));
    expect(fit("rock-eighths", thrice, asWritten)).toBeGreaterThanOrEqual(
      fit("rock-eighths", stock, asWritten),
    );
  });

  test.each(["bossa-nova", "shuffle"])("draw no %s to it: that lies better on its own", (id) => {
    const other = steadily(writtenGrooveOf(id));
    expect(fit(id, thrice, other)).toBeGreaterThan(fit("rock-eighths", thrice, other) + 5);
  });

  test("one that was counted in is learnt without the counting", () => {
    const groove = withHabit(writtenGrooveOf("rock-eighths"), seededChance(7));
    const counted = played(groove, { tempoBpm: 100, bars: 8, countIn: 4 });
    const taught = (hits: readonly Hit[]) => withOwnTakes(stock, [own("rock-eighths", hits)]);
    expect(taught(counted)).toEqual(taught(counted.slice(4)));
  });
});

test("the groove is at home at the tempos it was played at, too", () => {
  const before = known("rock-eighths", stock).tempoBpm;
  const slow = steadily(writtenGrooveOf("rock-eighths"), { tempoBpm: before.low * 0.9 });
  const { low, high } = known("rock-eighths", withOwnTakes(stock, [own("rock-eighths", slow)])).tempoBpm;
  expect(low / (before.low * 0.9)).toBeCloseTo(1, 1);
  expect(low).toBeLessThan(before.low);
  expect(high).toBe(before.high);
});

test("only the latest three takes are learnt from", () => {
  const takes = [1, 2, 3].map((seed) => ofPlayer("rock-eighths", seed));
  const older = [steadily(writtenGrooveOf("rock-eighths")), ...takes];
  expect(withOwnTakes(stock, [own("rock-eighths", ...older)])).toEqual(
    withOwnTakes(stock, [own("rock-eighths", ...takes)]),
  );
});

test("takes of two variants are not counted together", () => {
  const two = stockOf("rock-eighths");
  const [one, other] = [
    ...new Set(known("rock-eighths", two).models.map(({ written }) => written?.id ?? "")),
  ];
  const takes = [one, other].map((id) => steadily(writtenGrooveOf(id ?? "")));
  const learnt = known("rock-eighths", withOwnTakes(two, [own("rock-eighths", ...takes)])).models;
  expect([...new Set(learnt.flatMap(({ ownWayOf }) => ownWayOf?.id ?? []))]).toEqual([one, other]);
});

test("takes of none of the stock's grooves are a groove of their own, as on a shelf", () => {
  const tune = own("monday-tune", ofPlayer("bossa-nova", 1), ofPlayer("bossa-nova", 2));
  const more = withOwnTakes(stockOf("shuffle"), [tune]);
  expect(more.grooves.map(({ id }) => id)).toEqual(["shuffle", "monday-tune"]);
  expect(known("monday-tune", more)).toEqual(shelfStock([tune]).grooves[0]);
});

test("a groove of a shelf is joined by the player's takes, too", () => {
  const shelf = shelfStock([own("tune", steadily(writtenGrooveOf("samba")))]);
  const joined = withOwnTakes(shelf, [own("tune", ofPlayer("samba", 1))]);
  const next = ofPlayer("samba", 9);
  expect(fit("tune", joined, next)).toBeGreaterThan(fit("tune", shelf, next) + 1);
});

test.each([
  ["no takes at all", []],
  ["an empty take", [[]]],
  ["a single stroke", [steadily(writtenGrooveOf("shuffle")).slice(0, 1)]],
])("%s change nothing", (_, takes) => {
  expect(withOwnTakes(stock, [own("shuffle", ...takes)])).toEqual(stock);
  expect(withOwnTakes(stock, [own("tune", ...takes)])).toEqual(stock);
});

test("what was learnt is told as the written grooves are: variant, name inside a sentence, places counted in its metre", () => {
  const two = stockOf("shuffle", "half-time-shuffle");
  const learnt = withOwnTakes(two, [own("shuffle", ofPlayer("shuffle", 1), ofPlayer("shuffle", 2))]);
  const { candidates, ...rest } = heardAmong(ofPlayer("shuffle", 9), {
    ...learnt,
    grooves: learnt.grooves.map((groove) =>
      groove.id === "shuffle"
        ? { ...groove, models: groove.models.filter(({ written }) => written === undefined) }
        : groove,
    ),
  });
  const shuffle = candidates.find(({ id }) => id === "shuffle");
  expect(shuffle?.variant).toBe("shuffle");
  const said = whyWords({ ...rest, candidates, known: false }).join(" ");
  expect(said).toMatch(/ (is|it) shuffle, but /);
});

describe("players with habits of their own, among all styles", () => {
  const catalogue = catalogueStock(STYLES);
  const chance = seededChance(41);
  const humanised = (groove: Groove): readonly Hit[] =>
    steadily(groove, { spreadMs: 15, leanMs: 40 * (chance() - 0.5), leftOut: 0.05, added: 0.05, chance });
  // Every fifth style.
  const players = STYLES.filter((_, index) => index % 5 === 0).flatMap(({ id, variants: [groove] }) => {
    if (!groove) return [];
    const habit = withHabit(groove, chance);
    return [{ id, groove, earlier: [humanised(habit), humanised(habit)], next: humanised(habit) }];
  });
  const named = (id: string, hits: readonly Hit[], among: Stock): boolean => {
    const { known: isKnown, candidates } = heardAmong(hits, among);
    return isKnown && candidates[0]?.id === id;
  };

  test("two earlier takes, or one, and nearly all are named; without, about half", () => {
    const shareNamed = (takes: number): number => {
      const right = players.filter(({ id, earlier, next }) =>
        named(id, next, withOwnTakes(catalogue, [own(id, ...earlier.slice(0, takes))])),
      );
      return right.length / players.length;
    };
    expect(players.length).toBe(12);
    expect(shareNamed(2)).toBeGreaterThanOrEqual(11 / 12);
    expect(shareNamed(1)).toBeGreaterThanOrEqual(10 / 12);
    expect(shareNamed(0)).toBeLessThanOrEqual(9 / 12);
  });

  test("with all of them known at once, styles as written are named as before", () => {
    const all = withOwnTakes(
      catalogue,
      players.map(({ id, earlier }) => own(id, ...earlier)),
    );
    const others = STYLES.filter((_, index) => index % 5 === 2).flatMap(({ id, variants: [groove] }) =>
      groove ? [{ id, hits: humanised(groove) }] : [],
    );
    for (const { id, hits } of others) expect(named(id, hits, all), id).toBe(named(id, hits, catalogue));
  });
});
