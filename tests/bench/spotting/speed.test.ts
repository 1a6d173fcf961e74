/** Question: what does it cost to listen for drum parts of the Shelf? A whole part, heard with fifty known and with none. */
import { expect, test } from "vitest";
import { NOTHING_OF_SHELF } from "../../../engine/catalogue/index.ts";
import { hearTake, STOCK, withShelf } from "../../../engine/rounds/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { IN_FOUR, ownParts, passagesOf, takeOf } from "./ownMusic.ts";

const chance = seededChance(41);
const parts = ownParts(50, IN_FOUR, chance);
const hits = takeOf(parts.slice(0, 1).flatMap(passagesOf), 1, chance);

function leastMs(stock: typeof STOCK): number {
  const times = Array.from({ length: 5 }, () => {
    const from = performance.now();
    hearTake(hits, null, undefined, stock);
    return performance.now() - from;
  });
  return Math.min(...times);
}

test("what fifty parts cost beside none", () => {
  const [without, beside] = [leastMs(STOCK), leastMs(withShelf({ ...NOTHING_OF_SHELF, parts }))];
  console.log(
    `spotting, the studio's own: a whole part heard in ${without.toFixed(0)} ms, beside fifty parts in ${beside.toFixed(0)} ms`,
  );
  // A take is over after two seconds and a half of silence; another second of thinking would be felt.
  expect(beside).toBeLessThan(1000);
});
