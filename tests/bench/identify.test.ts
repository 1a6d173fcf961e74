/**
 * How long it takes to name 200 takes against a shelf, in one process of the built program, reading files included.
 */
import { join } from "node:path";
import { expect, test } from "vitest";
import { z } from "zod";
import { grooveById, STYLES } from "../../engine/catalogue/index.ts";
import { seededChance } from "../../engine/units/index.ts";
import { runJson, temporaryFolder } from "../cli/program.ts";
import { strikesOfGroove, writeTake } from "../cli/takeFiles.ts";

const folder = temporaryFolder();
const GROOVES = STYLES.slice(0, 10).map(({ id }) => id);
const TAKES = 200;
const LIMIT_SECONDS = 30;

const chance = seededChance(2026);

function write(path: string, id: string, bars: number): string {
  const groove = grooveById(id);
  if (!groove) throw new Error(`The stock has no ${id}.`);
  const { low, high } = groove.tempoBpm;
  const how = {
    tempoBpm: low + (high - low) * chance(),
    bars,
    leanMs: 20 * (chance() - 0.5),
    spreadMs: 12,
    leftOut: 0.05,
    added: 0.03,
    chance,
  };
  return writeTake(path, strikesOfGroove(groove, how, chance()));
}

test(`${TAKES} takes of 8 bars against ${GROOVES.length} grooves with three reference takes each`, () => {
  const shelf = join(folder, "shelf");
  for (const id of GROOVES) {
    for (const reference of [1, 2, 3]) write(join(shelf, id, `${reference}.mid`), id, 8);
  }
  const asked = Array.from({ length: TAKES }, (_, index) => GROOVES[index % GROOVES.length] ?? "");
  const takes = asked.map((id, index) => write(join(folder, `${index}.mid`), id, 8));

  const from = performance.now();
  const { code, objects } = runJson(["identify", "--shelf", shelf, ...takes]);
  const seconds = (performance.now() - from) / 1000;

  expect(code).toBe(0);
  const found = z
    .array(z.object({ known: z.boolean(), candidates: z.array(z.object({ id: z.string() })).min(1) }))
    .length(TAKES)
    .parse(objects);
  const mistaken = found.flatMap(({ candidates }, index) =>
    candidates[0]?.id === asked[index] ? [] : [`${asked[index]} as ${candidates[0]?.id}`],
  );
  const named = TAKES - mistaken.length;
  const known = found.filter((each) => each.known).length;
  console.info(
    `${TAKES} takes in ${seconds.toFixed(1)} s, ${((seconds / TAKES) * 1000).toFixed(0)} ms a take; ${named} named rightly, ${known} said to be known`,
  );
  if (mistaken.length > 0) console.info(`named wrongly: ${mistaken.join(", ")}`);
  expect(seconds).toBeLessThan(LIMIT_SECONDS);
  expect(named / TAKES).toBeGreaterThan(0.9);
});
