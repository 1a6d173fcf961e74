/**
 * Swing against published figures, from what is played to what is told.
 * Source: Friberg & Sundström, "Swing ratios and ensemble timing in jazz performance", Music Perception 19 (2002)
 * 333–349 (abstract): the drummer's ratio falls with tempo, from as high as 3.5 : 1 at slow tempos to 1 : 1 at fast ones; at
 * medium to fast tempos the short note stays near 100 ms.
 */
import { describe, expect, test } from "vitest";
import { demonstrate, grooveById, STYLES } from "../../engine/catalogue/index.ts";
import { gradeTake, grooveTarget } from "../../engine/grading/index.ts";
import type { Hit } from "../../engine/kit/index.ts";
import { catalogueStock, hear } from "../../engine/listening/index.ts";
import { type Groove, offBeatPlace } from "../../engine/score/index.ts";
import { seededChance } from "../../engine/units/index.ts";

describe("the place of the off-beat: p = r / (r + 1)", () => {
  // Computed from the definition; ticks of 480 and milliseconds at 120 a minute.
  test.each([
    { ratio: 1, percent: 50, tick: 240, ms: 250 },
    { ratio: 1.2, percent: 54.545, tick: 261.82, ms: 272.73 },
    { ratio: 1.25, percent: 55.556, tick: 266.67, ms: 277.78 },
    { ratio: 4 / 3, percent: 57.143, tick: 274.29, ms: 285.71 },
    { ratio: 1.5, percent: 60, tick: 288, ms: 300 },
    { ratio: 5 / 3, percent: 62.5, tick: 300, ms: 312.5 },
    { ratio: 2, percent: 66.667, tick: 320, ms: 333.33 },
    { ratio: 2.5, percent: 71.429, tick: 342.86, ms: 357.14 },
    { ratio: 3, percent: 75, tick: 360, ms: 375 },
    { ratio: 3.5, percent: 77.778, tick: 373.33, ms: 388.89 },
  ])("$ratio : 1", ({ ratio, percent, tick, ms }) => {
    const place = offBeatPlace(ratio);
    expect(100 * place).toBeCloseTo(percent, 3);
    expect(480 * place).toBeCloseTo(tick, 2);
    expect(500 * place).toBeCloseTo(ms, 2);
  });
});

/** Computed from "the short note stays near 100 ms": (beat − 100) / 100. */
const SHORT_NOTE_OF_100_MS = [
  { tempoBpm: 150, ratio: 3 },
  { tempoBpm: 200, ratio: 2 },
  { tempoBpm: 240, ratio: 1.5 },
  { tempoBpm: 300, ratio: 1 },
];

function swingAt(ratio: number): Groove {
  const groove = grooveById("swing");
  if (groove?.feel.kind !== "swung") throw new Error("The catalogue has no swung groove called swing.");
  return { ...groove, feel: { ...groove.feel, ratio } };
}

function playedSwing(ratio: number, tempoBpm: number): readonly Hit[] {
  return demonstrate(swingAt(ratio), {
    tempoBpm,
    bars: 8,
    leanMs: 0,
    spreadMs: 6,
    leftOut: 0,
    added: 0,
    chance: seededChance(2002),
  }).map((stroke) => ({ ...stroke, zone: "whole", pad: 0 }));
}

describe("a ride whose short note lasts 100 ms", () => {
  test.each(SHORT_NOTE_OF_100_MS)("at $tempoBpm a minute is told as $ratio : 1", ({ tempoBpm, ratio }) => {
    expect((60_000 / tempoBpm - 100) / 100).toBeCloseTo(ratio, 12);
    const target = grooveTarget(swingAt(2), { tempoBpm, bars: 8 });
    const told = gradeTake(playedSwing(ratio, tempoBpm), target, { start: "shared" }).swingRatio ?? 0;
    // 6 ms of spread over some thirty pairs: about 1.5 ms on the mean place of the off-beat, widened to three times that.
    const off = offBeatPlace(told) - offBeatPlace(ratio);
    expect(Math.abs(off) * (60_000 / tempoBpm)).toBeLessThan(4.5);
    expect((60_000 / tempoBpm) * (1 - offBeatPlace(told))).toBeCloseTo(100, -1);
  });

  const stock = catalogueStock(STYLES);
  // The slowest is the report TMH-QPSR 4/1997 of the same authors: 3.5 : 1 at about 120. The fastest is computed as above.
  test.each([
    { tempoBpm: 120, ratio: 3.5 },
    { tempoBpm: 150, ratio: 3 },
    { tempoBpm: 200, ratio: 2 },
    { tempoBpm: 228, ratio: 1.63 },
  ])("at $tempoBpm a minute and $ratio : 1 is heard as swing", ({ tempoBpm, ratio }) => {
    const hearing = hear(playedSwing(ratio, tempoBpm), stock);
    if (hearing.kind !== "heard") throw new Error("Nothing was heard.");
    expect(hearing.candidates[0]?.id).toBe("swing");
  });
});
