/**
 * Long to short without a score, on the development part of the Groove MIDI Dataset.
 * Source: Friberg & Sundström, Music Perception 19 (2002) 333–349: jazz drummers' ride swings by about 3.5 at slow
 * tempos down to 1 at the fastest; takes marked rock, pop and disco are straight.
 */
import { describe, expect, test } from "vitest";
import { shippedBackground } from "../../engine/listening/background.ts";
import { hear } from "../../engine/listening/index.ts";
import { median } from "../../engine/units/index.ts";
import {
  DEVELOPMENT_TAKES_ARE_HERE,
  type DevelopmentTake,
  developmentGrooves,
  stretchOf,
  strikesOfTake,
} from "./developmentTakes.ts";

const BARS = 16;

/** Ratios of eighths, of takes long enough in which the beat itself was heard. */
function ratiosOf(isOfStyle: (style: string) => boolean): readonly number[] {
  return developmentGrooves()
    .filter(({ style }) => isOfStyle(style))
    .flatMap(ratioOf);
}

function ratioOf(take: DevelopmentTake): readonly number[] {
  const bar = (take.beatsInBar * 60) / take.bpm;
  const hits = strikesOfTake(take);
  if ((hits.at(-1)?.time ?? 0) < (BARS / 2) * bar) return [];
  const hearing = hear(stretchOf(hits, 0, BARS * bar), { grooves: [], general: shippedBackground() });
  if (hearing.kind !== "heard" || Math.abs(hearing.pulse.tempoBpm / take.bpm - 1) > 0.04) return [];
  return hearing.swing?.of === "eighths" ? [hearing.swing.ratio] : [];
}

describe.skipIf(!DEVELOPMENT_TAKES_ARE_HERE)("people", () => {
  test("jazz, swing and shuffles are swung", () => {
    const ratios = ratiosOf((style) => /^jazz(\/swing|\/mediumfast)?$|shuffle/.test(style));
    const swung = ratios.filter((ratio) => ratio > 1.5).length;
    console.log(
      `Swung: ${ratios.length} takes, median ${median(ratios).toFixed(2)}, most ${Math.max(...ratios).toFixed(2)}, ` +
        `${swung} above 1.5.`,
    );
    expect(ratios.length).toBeGreaterThanOrEqual(10);
    expect(median(ratios)).toBeGreaterThan(1.8);
    expect(Math.max(...ratios)).toBeLessThan(3.6);
    expect(swung / ratios.length).toBeGreaterThanOrEqual(0.85);
  }, 180_000);

  test("rock, pop, soul and disco are straight", () => {
    const ratios = ratiosOf((style) =>
      /^(rock|pop|soul|dance\/disco)(\/(indie|folk|soft|motown))?$/.test(style),
    );
    const straight = ratios.filter((ratio) => Math.abs(ratio - 1) <= 0.15).length;
    console.log(
      `Straight: ${ratios.length} takes, median ${median(ratios).toFixed(2)}, ${straight} within 0.15 of 1.`,
    );
    expect(ratios.length).toBeGreaterThanOrEqual(40);
    expect(Math.abs(median(ratios) - 1)).toBeLessThan(0.05);
    expect(straight / ratios.length).toBeGreaterThanOrEqual(0.85);
  }, 180_000);
});
