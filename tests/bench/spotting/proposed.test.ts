/**
 * Question: is what a kit plays proposed under its right name?
 * Method: the demonstration player's usual hand (lean 4 ms, spread 9 ms), eight bars, tempos within a quarter of the usual
 * one; heard whole, as the round hears it once it is over. Every way of every style; every fill in a groove of
 * its metre, in bar 4 or 8. A fill is asked for where it is known that one is played, as the round does.
 */
import { describe, expect, test } from "vitest";
import { demonstrate, FILLS, STYLES } from "../../../engine/catalogue/index.ts";
import { grooveAround, hearTake, proposalOf, STOCK, USUAL_HAND } from "../../../engine/rounds/index.ts";
import { fillBars, type Groove, usualTempo } from "../../../engine/score/index.ts";
import { type Chance, seededChance, wilson } from "../../../engine/units/index.ts";
import { FULL } from "../listening/size.ts";

const BARS = 8;
const TARGET = 0.97;
const TIMES = FULL ? 8 : 1;

type Extra = Partial<Parameters<typeof demonstrate>[1]>;

function heardOf(groove: Groove, tempoBpm: number, chance: Chance, extra: Extra = {}) {
  const strokes = demonstrate(groove, { ...USUAL_HAND, tempoBpm, bars: BARS, chance, ...extra });
  const hits = strokes.map((stroke) => ({ ...stroke, zone: "whole" as const, pad: 0 }));
  return hearTake(hits, null, undefined, STOCK);
}

function tempoAbout({ tempoBpm }: Pick<Groove, "tempoBpm">, chance: Chance): number {
  return usualTempo({ tempoBpm }) * (0.75 + 0.5 * chance());
}

interface Told {
  readonly truth: string;
  readonly proposed: string | undefined;
}

function styles(chance: Chance): readonly Told[] {
  return STYLES.flatMap(({ id, variants }) =>
    variants.map((groove) => {
      const hearing = heardOf(groove, tempoAbout(groove, chance), chance);
      return { truth: id, proposed: proposalOf(hearing, "grooves")?.thing.id };
    }),
  );
}

function fills(chance: Chance): readonly Told[] {
  return FILLS.flatMap((fill) =>
    [4, 8].map((lastBar) => {
      const groove = grooveAround(fill);
      const within = {
        low: Math.max(fill.tempoBpm.low, groove.tempoBpm.low),
        high: Math.min(fill.tempoBpm.high, groove.tempoBpm.high),
      };
      const tempo = within.low + chance() * (within.high - within.low);
      const bar = lastBar + 1 - fillBars(fill);
      const hearing = heardOf(groove, tempo, chance, { fills: [{ fill, bar, thenCrash: true }] });
      return { truth: fill.id, proposed: proposalOf(hearing, "fills")?.thing.id };
    }),
  );
}

function shareOf(name: string, told: readonly Told[]): number {
  const right = told.filter(({ truth, proposed }) => truth === proposed).length;
  const { low, high } = wilson(right, told.length);
  const wrong = told.filter(({ truth, proposed }) => truth !== proposed);
  console.log(
    `spotting: ${name}: proposed rightly ${(right / told.length).toFixed(3)} [${low.toFixed(3)}, ${high.toFixed(3)}] of ${told.length}${wrong.map(({ truth, proposed }) => `\n  ${truth} as ${proposed ?? "none"}`).join("")}`,
  );
  return right / told.length;
}

describe(`the demonstration player, ${BARS} bars`, () => {
  const chance = seededChance(97);
  const ofStyles: Told[] = [];
  const ofFills: Told[] = [];

  test("styles", { timeout: 1_800_000 }, () => {
    for (let time = 0; time < TIMES; time += 1) ofStyles.push(...styles(chance));
    expect(shareOf("styles", ofStyles)).toBeGreaterThanOrEqual(TARGET);
  });

  test("fills", { timeout: 1_800_000 }, () => {
    for (let time = 0; time < TIMES; time += 1) ofFills.push(...fills(chance));
    expect(shareOf("fills", ofFills)).toBeGreaterThanOrEqual(TARGET);
  });

  test("both together", () => {
    expect(shareOf("styles and fills", [...ofStyles, ...ofFills])).toBeGreaterThanOrEqual(TARGET);
  });
});
