import { expect, test } from "vitest";
import { grooveById, STYLES } from "../../../../engine/catalogue/index.ts";
import type { Hit } from "../../../../engine/kit/index.ts";
import type { Hearing, Stock } from "../../../../engine/listening/index.ts";
import { calledStock } from "../../../../engine/rounds/callAStyle/takeListener.ts";
import { judgeTake, stockOfPlayer, TakeListener } from "../../../../engine/rounds/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";
import { withHabit } from "../../listening/habit.ts";
import { steadily } from "../../listening/played.ts";

/** A player's rock eighths, always with the same strokes of his own. */
function ofPlayer(seed: number): readonly Hit[] {
  const groove = grooveById("rock-eighths");
  if (!groove) throw new Error("The catalogue has no rock-eighths.");
  return steadily(withHabit(groove, seededChance(7)), { chance: seededChance(seed) });
}

const own = stockOfPlayer([{ styleId: "rock-eighths", takes: [ofPlayer(1), ofPlayer(2)] }]);
const asWritten = stockOfPlayer([]);

/** A stock in which only the player's own ways speak for what he has played before. */
function byOwnWaysOnly(stock: Stock): Stock {
  const grooves = stock.grooves.map((groove) => {
    const ways = groove.models.filter(({ ownWayOf }) => ownWayOf !== undefined);
    return ways.length > 0 ? { ...groove, models: ways } : groove;
  });
  return { ...stock, grooves };
}

function chanceOf(id: string, hearing: Hearing): number {
  if (hearing.kind !== "heard") throw new Error("Nothing was heard.");
  return hearing.candidates.find((candidate) => candidate.id === id)?.confidence ?? 0;
}

test("the styles stay those of the catalogue; earlier takes of other ids are not taken", () => {
  const ids = STYLES.map(({ id }) => id);
  expect(own.grooves.map(({ id }) => id)).toEqual(ids);
  const odd = stockOfPlayer([{ styleId: "no-such-style", takes: [ofPlayer(1)] }]);
  expect(odd).toEqual(asWritten);
});

test("a take is heard by the stock it is judged with, in the end as while it is played", () => {
  const take = { hits: ofPlayer(9), styleId: null, click: null };
  const listening = (stock: Stock): Hearing => {
    const listener = new TakeListener(null, stock);
    for (const hit of take.hits) listener.add(hit);
    return listener.hearing();
  };
  const ways = byOwnWaysOnly(own);
  const plain = chanceOf("rock-eighths", judgeTake(take, asWritten).hearing);
  expect(chanceOf("rock-eighths", judgeTake(take, ways).hearing)).not.toBeCloseTo(plain, 6);
  expect(chanceOf("rock-eighths", listening(ways))).not.toBeCloseTo(
    chanceOf("rock-eighths", listening(asWritten)),
    6,
  );
  expect(judgeTake(take).hearing).toEqual(judgeTake(take, asWritten).hearing);
});

test("the called style alone is as this player has it, too; a free choice calls none", () => {
  const played = own.grooves.filter(({ id }) => id === "rock-eighths");
  expect(played).not.toEqual(asWritten.grooves.filter(({ id }) => id === "rock-eighths"));
  expect(calledStock(own, "rock-eighths")).toEqual({ ...own, grooves: played, isCertain: true });
  expect(calledStock(own, null)).toBeUndefined();
});
