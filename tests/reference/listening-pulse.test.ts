/**
 * Pulse and downbeat without a click, on the development part of the Groove MIDI Dataset.
 * Measures: accuracy 1 (tempo within 4 %) and accuracy 2 (within 4 % of 1, 2, 3, 1/2 or 1/3 times it) of Gouyon
 * et al., IEEE TASLP 14 (2006); downbeat within ±70 ms, the window of the beat measures in mir_eval (Raffel et
 * al., ISMIR 2014).
 * The bars of grooves in general were learnt from these very takes, so these figures say that listening works
 * as intended, not how well it does on takes it has never met: DEVELOPERS.md gives both.
 */
import { describe, expect, test } from "vitest";
import { shippedBackground } from "../../engine/listening/background.ts";
import { hear } from "../../engine/listening/index.ts";
import { seededChance } from "../../engine/units/index.ts";
import {
  DEVELOPMENT_TAKES_ARE_HERE,
  developmentGrooves,
  stretchOf,
  strikesOfTake,
} from "./developmentTakes.ts";

const within4Percent = (tempo: number, truth: number): boolean => Math.abs(tempo / truth - 1) <= 0.04 + 1e-9;

describe.skipIf(!DEVELOPMENT_TAKES_ARE_HERE)("eight bars from a random place, tempo hidden", () => {
  test("accuracy 1 ≥ .85, accuracy 2 ≥ .95, downbeat ≥ .70", () => {
    const chance = seededChance(2006);
    const counted = { takes: 0, accuracy1: 0, accuracy2: 0, downbeat: 0 };
    for (const take of developmentGrooves()) {
      const bar = (take.beatsInBar * 60) / take.bpm;
      const hits = strikesOfTake(take);
      const spare = (hits.at(-1)?.time ?? 0) - 8 * bar;
      if (spare < 0) continue;
      const from = chance() * spare;
      const hearing = hear(stretchOf(hits, from, from + 8 * bar), {
        grooves: [],
        general: shippedBackground(),
      });
      counted.takes += 1;
      if (hearing.kind !== "heard") continue;
      const { tempoBpm, downbeats } = hearing.pulse;
      if (within4Percent(tempoBpm, take.bpm)) counted.accuracy1 += 1;
      if ([1, 2, 3, 1 / 2, 1 / 3].some((times) => within4Percent(tempoBpm, take.bpm * times)))
        counted.accuracy2 += 1;
      const middle = downbeats[Math.floor(downbeats.length / 2)] ?? 0;
      const inBars = (middle + from) / bar;
      if (Math.abs(inBars - Math.round(inBars)) * bar <= 0.07) counted.downbeat += 1;
    }
    const share = (count: number): number => count / counted.takes;
    console.log(
      `Pulse on ${counted.takes} development takes: accuracy 1 ${share(counted.accuracy1).toFixed(3)}, ` +
        `accuracy 2 ${share(counted.accuracy2).toFixed(3)}, downbeat ${share(counted.downbeat).toFixed(3)}.`,
    );
    expect(counted.takes).toBeGreaterThan(200);
    expect(share(counted.accuracy1)).toBeGreaterThanOrEqual(0.85);
    expect(share(counted.accuracy2)).toBeGreaterThanOrEqual(0.95);
    expect(share(counted.downbeat)).toBeGreaterThanOrEqual(0.7);
  }, 180_000);
});

describe("the tempo measures themselves (worked rows: computed from Gouyon et al. 2006)", () => {
  test.each([
    [124.8, true],
    [124.9, false],
    [60, false],
  ])("%f against 120: accuracy 1 %s", (tempo, right) => {
    expect(within4Percent(tempo, 120)).toBe(right);
  });
});
