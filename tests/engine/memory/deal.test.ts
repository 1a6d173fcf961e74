import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  dealBadDay,
  dealRounds,
  dealWords,
  goesWell,
  type ItemId,
  type ListEntry,
  LONGEST_ROUND_MINUTES,
  likingOf,
  nextTimeList,
  roundOf,
  SHORTEST_ROUND_MINUTES,
} from "../../../engine/memory/index.ts";
import { ROUND_KINDS, type RoundKind } from "../../../engine/session/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { aDay, someChanges, someResults } from "./laws.ts";
import { result } from "./results.ts";

function entry(
  item: ItemId,
  chanceForgotten: number | null,
  teacher: ListEntry["teacher"] = null,
): ListEntry {
  return { item, chanceForgotten, evidence: null, teacher, words: null };
}

const list = {
  refresh: [
    entry("rudiment:flam-tap", 0.6),
    entry("style:bossa-nova", 0.5),
    entry("sound:floor-tom", 0.4),
    entry("symbol:fermata", 0.3),
  ],
  new: [entry("symbol:dotted-quarter-rest", null), entry("style-name:tango", null)],
};

const dealt = (deal: ReturnType<typeof dealRounds>): readonly ItemId[] =>
  deal.rounds.flatMap(({ items }) => items.map(({ item }) => item));

test("five minutes hold something held before, the first new one, and more of what is fading", () => {
  const deal = dealRounds({ rounds: ROUND_KINDS, list, minutesLeft: 5, chance: seededChance(3) });
  expect(deal.minutes).toBeLessThanOrEqual(5);
  expect(deal.rounds.length).toBeGreaterThanOrEqual(2);
  expect(dealt(deal)).toContain("symbol:dotted-quarter-rest");
  expect(dealt(deal)).not.toContain("style-name:tango");
  expect(dealt(deal).some((item) => list.refresh.some((each) => each.item === item))).toBe(true);
});

test("the same chance deals the same; another may deal another", () => {
  const of = (seed: number) =>
    dealt(dealRounds({ rounds: ROUND_KINDS, list, minutesLeft: 5, chance: seededChance(seed) })).join();
  expect(of(3)).toBe(of(3));
  expect(new Set(Array.from({ length: 30 }, (_, seed) => of(seed))).size).toBeGreaterThan(3);
});

test("what is likelier forgotten comes up more often", () => {
  const faded = { refresh: [entry("style:samba", 0.8), entry("style:polka", 0.2)], new: [] };
  const firsts = Array.from(
    { length: 2000 },
    (_, seed) =>
      dealt(dealRounds({ rounds: ROUND_KINDS, list: faded, minutesLeft: 2, chance: seededChance(seed) }))[0],
  );
  // By Efraimidis & Spirakis the first is drawn with its share of all weights: 0.8 of 1. Four standard errors are 0.036.
  const share = firsts.filter((item) => item === "style:samba").length / firsts.length;
  expect(Math.abs(share - 0.8)).toBeLessThan(0.036);
});

test("items of one round share it; only rounds that can be played here are dealt", () => {
  const deal = dealRounds({
    list,
    minutesLeft: 10,
    rounds: ["card-table"],
    chance: seededChance(1),
  });
  expect(deal.rounds).toHaveLength(1);
  expect(deal.rounds[0]).toMatchObject({ round: "card-table", minutes: 2 });
  expect(new Set(dealt(deal))).toEqual(new Set(["symbol:fermata", "symbol:dotted-quarter-rest"]));
});

describe("every kind of item is dealt where its round can be played, and nowhere else", () => {
  test.each<[ItemId, RoundKind]>([
    ["style:samba", "call-a-style"],
    ["style-name:samba", "spotting"],
    ["fill:any", "spotting"],
    ["fill-name:any", "spotting"],
    ["rudiment:flam-tap", "wall-chart"],
    ["order:flam-tap", "wall-chart"],
    ["sticking:flam-tap", "wall-chart"],
    ["symbol:fermata", "card-table"],
    ["sound:floor-tom", "back-turned"],
    ["syllable:dum", "say-and-strike"],
    ["skill:time", "call-a-style"],
  ])("%s in %s", (item, round) => {
    const deal = (rounds: readonly RoundKind[]) =>
      dealRounds({
        list: { refresh: [entry(item, 0.5)], new: [] },
        minutesLeft: 5,
        rounds,
        chance: seededChance(1),
      }).rounds.map((each) => each.round);
    expect(deal([round])).toEqual([round]);
    expect(deal(ROUND_KINDS.filter((each) => each !== round))).toEqual([]);
  });

  test("the teacher's own words are asked in none", () => {
    const own = { refresh: [entry("own:brushes", 0.5)], new: [] };
    expect(
      dealRounds({ list: own, minutesLeft: 5, rounds: ROUND_KINDS, chance: seededChance(1) }).rounds,
    ).toEqual([]);
  });
});

test("each says why it is dealt", () => {
  const results = [
    result("style:samba", "known", "2026-02-23"),
    result("style:samba", "slipped", "2026-03-02"),
    result("symbol:fermata", "new", "2026-03-02"),
  ];
  const derived = nextTimeList({ results, lessonDay: "2026-03-09" });
  const mine = { ...derived, refresh: [...derived.refresh, entry("sound:floor-tom", null, "added")] };
  const whys = new Map(
    dealRounds({ rounds: ROUND_KINDS, list: mine, minutesLeft: 10, chance: seededChance(1) }).rounds.flatMap(
      ({ items }) => items.map(({ item, why }): [ItemId, string] => [item, why]),
    ),
  );
  expect(whys.get("style:samba")).toMatch(/^missed last time; chance it is gone: /);
  expect(whys.get("symbol:fermata")).toBe("new: it came up and was never met before");
  expect(whys.get("sound:floor-tom")).toBe("you put it on the list");
});

test.each([
  ["too little time", { list, minutesLeft: 1.9 }],
  ["an empty list", { list: { refresh: [], new: [] }, minutesLeft: 5 }],
  [
    "only the teacher's own words",
    { list: { refresh: [], new: [entry("own:a", null, "added")] }, minutesLeft: 5 },
  ],
])("%s deals nothing, and says so", (_, question) => {
  const deal = dealRounds({ rounds: ROUND_KINDS, ...question, chance: seededChance(1) });
  expect(deal).toEqual({ of: "due", rounds: [], minutes: 0 });
  expect(dealWords(deal)).toBe("Nothing fits the time that is left.");
});

describe("laws", () => {
  test("a deal never exceeds the minutes, and each round is of a round's length", () => {
    fc.assert(
      fc.property(
        someResults,
        someChanges,
        aDay,
        fc.double({ min: 0, max: 45, noNaN: true }),
        fc.integer(),
        fc.option(fc.subarray([...ROUND_KINDS])),
        (results, changes, lessonDay, minutesLeft, seed, rounds) => {
          const from = nextTimeList({ results, changes, lessonDay });
          const deal = dealRounds({
            rounds: ROUND_KINDS,
            list: from,
            minutesLeft,
            chance: seededChance(seed),
            ...(rounds === null ? {} : { rounds }),
          });
          expect(deal.minutes).toBeLessThanOrEqual(minutesLeft);
          expect(deal.minutes).toBe(deal.rounds.reduce((sum, { minutes }) => sum + minutes, 0));
          for (const each of deal.rounds) {
            expect(each.minutes).toBeGreaterThanOrEqual(SHORTEST_ROUND_MINUTES);
            expect(each.minutes).toBeLessThanOrEqual(LONGEST_ROUND_MINUTES);
            if (rounds !== null) expect(rounds).toContain(each.round);
            for (const { item, why } of each.items) {
              expect(why).not.toBe("");
              expect(roundOf(item)).toBe(each.round);
            }
          }
          const all = dealt(deal);
          expect(new Set(all).size).toBe(all.length);
          const news = new Set(from.new.map(({ item }) => item));
          expect(all.filter((item) => news.has(item)).length).toBeLessThanOrEqual(1);
          const there = new Set([...from.refresh, ...from.new].map(({ item }) => item));
          for (const item of all) expect(there).toContain(item);
        },
      ),
    );
  });

  test("where anything can be asked and there is time for it, something is dealt", () => {
    fc.assert(
      fc.property(
        someResults,
        aDay,
        fc.integer({ min: 2, max: 45 }),
        fc.integer(),
        (results, day, left, seed) => {
          const from = nextTimeList({ results, lessonDay: day });
          const deal = dealRounds({
            rounds: ROUND_KINDS,
            list: from,
            minutesLeft: left,
            chance: seededChance(seed),
          });
          expect(deal.rounds.length > 0).toBe(from.refresh.length + from.new.length > 0);
        },
      ),
    );
  });

  test("on a bad day only what held all through the last day it was asked is dealt, into its round, within the minutes", () => {
    fc.assert(
      fc.property(
        someResults,
        aDay,
        fc.double({ min: 0, max: 45, noNaN: true }),
        fc.integer(),
        fc.subarray([...ROUND_KINDS]),
        (results, day, minutesLeft, seed, rounds) => {
          const deal = dealBadDay({
            goesWell: goesWell(results, day),
            minutesLeft,
            rounds,
            liking: likingOf(results),
            chance: seededChance(seed),
          });
          expect(deal.minutes).toBeLessThanOrEqual(minutesLeft);
          expect(deal.minutes).toBe(deal.rounds.reduce((sum, { minutes }) => sum + minutes, 0));
          const all = dealt(deal);
          expect(new Set(all).size).toBe(all.length);
          for (const each of deal.rounds) {
            expect(rounds).toContain(each.round);
            expect(each.minutes).toBeGreaterThanOrEqual(SHORTEST_ROUND_MINUTES);
            for (const { item } of each.items) {
              expect(roundOf(item)).toBe(each.round);
              const ofItem = results.filter((result) => result.item === item);
              const lastDay = ofItem
                .map((result) => result.day)
                .sort()
                .at(-1);
              const last = ofItem.filter((result) => result.day === lastDay);
              expect(last.map(({ outcome }) => outcome)).toEqual(last.map(() => "known"));
            }
          }
        },
      ),
    );
  });
});

describe("what is liked", () => {
  const rounds = ["back-turned", "spotting"] as const;
  const played = (item: ItemId, roundId: string) => ({
    ...result(item, "known", "2026-03-02"),
    evidence: { words: "", roundId },
  });

  test("is the round that was played most, a round counted once however much was asked in it", () => {
    const liking = likingOf([
      played("sound:kick", "r1"),
      played("sound:ride", "r2"),
      played("style-name:samba", "r3"),
      played("style-name:polka", "r3"),
      played("style-name:tango", "r3"),
    ]);
    expect(rounds.map(liking)).toEqual([1, 0.5]);
    expect(liking("card-table")).toBe(0);
  });

  test("comes up more often than what is as faded and never played", () => {
    const faded = { refresh: [entry("sound:kick", 0.5), entry("style-name:samba", 0.5)], new: [] };
    const liking = likingOf([played("sound:ride", "r1")]);
    const firsts = Array.from(
      { length: 2000 },
      (_, seed) =>
        dealt(dealRounds({ list: faded, minutesLeft: 2, rounds, liking, chance: seededChance(seed) }))[0],
    );
    // Its weight is doubled: two of three. Four standard errors are 0.042.
    const share = firsts.filter((item) => item === "sound:kick").length / firsts.length;
    expect(Math.abs(share - 2 / 3)).toBeLessThan(0.042);
  });
});

test("a bad day without anything that goes well deals nothing, and says so", () => {
  const results = [result("sound:kick", "slipped", "2026-03-02")];
  const deal = dealBadDay({
    goesWell: goesWell(results, "2026-03-09"),
    minutesLeft: 5,
    rounds: ROUND_KINDS,
    chance: seededChance(1),
  });
  expect(dealWords(deal)).toBe("Nothing is known to go well yet.");
});
