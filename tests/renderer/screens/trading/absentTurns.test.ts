import { expect, test } from "vitest";
import { freshPlay, type TradingSet, tradingRules } from "../../../../engine/rounds/index.ts";
import { FOUR_FOUR } from "../../../../engine/score/index.ts";
import { turnsOf } from "../../../../engine/trading/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";
import { AbsentTurns } from "../../../../renderer/screens/trading/absentTurns.ts";
import { NOTHING_ON, type TradingNow } from "../../../../renderer/screens/trading/tradingNow.ts";
import type { TradingPlace } from "../../../../renderer/screens/trading/tradingPlace.ts";

/** A bar is two seconds, and the first line is at ten. */
const PULSE = { from: 10, tempoBpm: 120, metre: FOUR_FOUR };

function absent(set: Partial<TradingSet>, on: Partial<TradingNow> = {}) {
  const fresh = freshPlay(tradingRules);
  const play = { ...fresh, own: { ...fresh.own, set: { ...fresh.own.set, ...set } } };
  const { form, groove } = play.own.set;
  const turns = turnsOf(form, { groove, calls: 0 });
  const planned: { readonly moment: number; readonly act: () => void }[] = [];
  const stops: (() => void)[] = [];
  const sounded: number[] = [];
  const kit = { kitMap: { get: () => ({ map: { entries: [] } }) }, receive: () => {} };
  const absentTurns = new AbsentTurns({
    now: () => ({ ...NOTHING_ON, turns, pulse: PULSE, ...on }),
    play: () => play,
    place: {
      chance: seededChance(1),
      kits: [kit, kit],
      sound: {
        playStrokes: (strokes: readonly unknown[]) => {
          sounded.push(strokes.length);
          return { from: 0, stop: () => {} };
        },
      },
    } as unknown as TradingPlace,
    isFree: form === "free",
    at: (moment, act) => planned.push({ moment, act }),
    playing: (stop) => stops.push(stop),
  });
  return { absentTurns, turns, planned, stops, sounded };
}

test("an eighth of a beat before its line a player who is not there decides, and is sounded", () => {
  const { absentTurns, turns, planned, stops, sounded } = absent({ form: "twos", kits: "with-player" });
  const answer = turns.findIndex(({ side }) => side === 1);
  absentTurns.decideSoon(answer);
  expect(planned[0]?.moment).toBeCloseTo(10 + (turns[answer]?.fromBar ?? Number.NaN) * 2 - 0.0625);
  expect(sounded).toEqual([]);
  planned[0]?.act();
  expect(sounded).toHaveLength(1);
  expect(stops).toHaveLength(1);
});

test("nothing is decided for who is there", () => {
  const { absentTurns, turns, planned } = absent({ form: "twos", kits: "with-player" });
  absentTurns.decideSoon(turns.findIndex(({ side }) => side === 0));
  expect(planned).toEqual([]);
  expect([0, 1].map((side) => absentTurns.character(side === 0 ? 0 : 1))).toEqual([null, "sparse"]);
});

test("in a free form a call of a player who is not there is of two bars, from the bar it begins with", () => {
  const free = absent({ form: "free", kits: "demonstration" }, { began: [12] });
  expect(free.absentTurns.endsAt(0)).toBe(16);
  expect(absent({ form: "free", kits: "two" }, { began: [12] }).absentTurns.endsAt(0)).toBeNull();
  expect(absent({ form: "twos", kits: "demonstration" }).absentTurns.endsAt(0)).toBeNull();
});
