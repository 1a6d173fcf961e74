import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Voice } from "../../../engine/kit/index.ts";
import {
  FILL_RATES,
  fillLog,
  KNOWN_FILLS,
  type KnownFill,
} from "../../../engine/listening/fillLikelihood.ts";
import { soundOf } from "../../../engine/listening/roles.ts";
import { beatSlot, type LaidStroke } from "../../../engine/listening/usualBar.ts";

const BEAT = 12;
const AT = { from: 0, beat: BEAT, near: 1.2 };

function asPlayed({ notes }: KnownFill): readonly LaidStroke[] {
  return notes
    .map(({ beat, sound, ornate }) => ({ place: beat * BEAT, sound, ornate }))
    .sort((a, b) => a.place - b.place);
}

function known(id: string): KnownFill {
  const found = KNOWN_FILLS.find(({ fill }) => fill.id === id);
  if (!found) throw new Error(`The catalogue has no fill ${id}.`);
  return found;
}

function on(written: KnownFill, strokes: readonly LaidStroke[]): number {
  return fillLog(written, strokes, AT);
}

describe("strokes as a written fill", () => {
  test.each(KNOWN_FILLS.map((one) => ({ one, id: one.fill.id })))(
    "$id, played as written, is likelier as itself than as any other",
    ({ one }) => {
      const alike = KNOWN_FILLS.filter(
        ({ fill, beatsInBar }) =>
          fill.id !== one.fill.id && fill.beats === one.fill.beats && beatsInBar === one.beatsInBar,
      );
      const own = on(one, asPlayed(one));
      for (const other of alike) expect(own).toBeGreaterThan(on(other, asPlayed(one)) + 0.5);
    },
  );

  const DOWN = known("sixteenths-snare-floor");
  const moved = (voice: Voice): readonly LaidStroke[] =>
    asPlayed(DOWN).map((stroke, index) =>
      index === 5 ? { ...stroke, sound: soundOf(voice) ?? -1 } : stroke,
    );

  test("another tom costs less than another drum, that less than a cymbal", () => {
    const [tom, snare, cymbal] = [moved("mid-tom"), moved("snare"), moved("ride")].map((s) => on(DOWN, s));
    expect(on(DOWN, asPlayed(DOWN))).toBeGreaterThan(tom ?? 0);
    expect(tom).toBeGreaterThan(snare ?? 0);
    expect(snare).toBeGreaterThan(cymbal ?? 0);
  });

  test("the foot that goes on costs less than a hand that does", () => {
    const with_ = (voice: Voice): number =>
      on(DOWN, [...asPlayed(DOWN), { place: 18, sound: soundOf(voice) ?? -1, ornate: false }]);
    expect(with_("hi-hat-pedal")).toBeGreaterThan(with_("ride"));
  });

  test("no stroke makes it likelier by being lost or added, and none costs more than the few it could", () => {
    fc.assert(
      fc.property(fc.constantFrom(...KNOWN_FILLS), fc.nat({ max: 40 }), (one, at) => {
        const strokes = asPlayed(one);
        const lost = strokes.filter((_, index) => index !== at % strokes.length);
        const costs = on(one, strokes) - on(one, lost);
        expect(costs).toBeGreaterThan(0);
        expect(costs).toBeLessThan(6);
      }),
    );
  });
});

test("fills in general are struck on drums rather than on cymbals, at every place of the beat", () => {
  for (const place of [0, 3, 4, 6, 8, 9]) {
    const rate = (voice: Voice): number =>
      FILL_RATES[beatSlot(soundOf(voice) ?? 0, place, { beat: BEAT })] ?? Number.NaN;
    expect(rate("snare")).toBeGreaterThan(rate("hi-hat-closed"));
    expect(rate("floor-tom")).toBeGreaterThan(rate("ride"));
  }
});
