/**
 * How well listening listens: one row a figure, with its 95 % interval and its target.
 * Small with every test, so that nothing gets worse unseen; at full size with THRONESIDE_BENCH=full, for measuring.
 */
import { afterAll, describe, expect, test } from "vitest";
import { DEVELOPMENT_TAKES_ARE_HERE } from "../../reference/developmentTakes.ts";
import { catalogueRows } from "./catalogueRows.ts";
import { fillRows, humanFillRows } from "./fillRows.ts";
import { longTakeRows } from "./longTakeRows.ts";
import { otherPlayersRows } from "./otherPlayersRows.ts";
import { pulseRows } from "./pulseRows.ts";
import { worseThanRecorded } from "./recorded.ts";
import { type Row, recordText, tableText } from "./row.ts";
import { FULL } from "./size.ts";
import { tempoRows } from "./tempoRows.ts";

const MOST_MINUTES = FULL ? 60 : 5;
const all: Row[] = [];
const log = (text: string): void => console.log(text);

function holds(rows: readonly Row[]): void {
  all.push(...rows);
  expect(rows.length).toBeGreaterThan(0);
  expect(worseThanRecorded(rows)).toEqual([]);
}

describe.skipIf(!DEVELOPMENT_TAKES_ARE_HERE)("on the held-out drummers, no worse than recorded", () => {
  test("grooves from other players", () => holds(otherPlayersRows(log)), MOST_MINUTES * 60_000);
  test("windows of long takes", () => holds(longTakeRows(log)), MOST_MINUTES * 60_000);
  test("pulse without a click", () => holds(pulseRows(log)), MOST_MINUTES * 60_000);
  test("fills that people play", () => holds(humanFillRows(log)), MOST_MINUTES * 60_000);
});

describe("on the catalogue, no worse than recorded", () => {
  test("hard cases", () => holds(catalogueRows(log)), MOST_MINUTES * 60_000);
  test("tempos that change", () => holds(tempoRows()), MOST_MINUTES * 60_000);
  test("fills and count-ins", () => holds(fillRows(log)), MOST_MINUTES * 60_000);
});

afterAll(() => {
  if (all.length === 0) return;
  console.log(`${FULL ? "Full" : "Small"} size.\n${tableText(all)}`);
  if (FULL) console.log(recordText(all));
});
