import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { agreedBar } from "../../../engine/listening/agreedBar.ts";
import { PLACES_PER_BEAT } from "../../../engine/listening/barModel.ts";
import { clickPulse, type PulseHypothesis } from "../../../engine/listening/pulse.ts";
import type { ReadBar } from "../../../engine/listening/reading.ts";
import type { Bpm } from "../../../engine/units/index.ts";
import { hiHatAlone } from "./hypotheses.ts";

/** Sixteen seconds: the middle is at 8 s. */
const STROKES = hiHatAlone(65);

const pulseAt = (tempoBpm: Bpm): PulseHypothesis => clickPulse(STROKES, { tempoBpm, from: 0 });
const FAST = pulseAt(120);
const SLOW = pulseAt(60);

/** A bar of four whose ones stand this many beats after time 0. */
function bar(pulse: PulseHypothesis, beatsLater: number, chance: number): ReadBar {
  return {
    pulse,
    beatsInBar: 4,
    turn: beatsLater * PLACES_PER_BEAT,
    chance,
    logChance: Math.log(chance),
    begins: 0,
  };
}

describe("the bar whose one is agreed on", () => {
  test("is the likeliest where nothing else has a one where it has", () => {
    const bars = [bar(FAST, 0, 0.6), bar(FAST, 2, 0.3), bar(FAST, 1, 0.1)];
    expect(agreedBar(bars)).toBe(bars[0]);
  });

  test("is another at its pulse where a slower bar has its one there too", () => {
    // Beat two of the fast pulse is at 1 s, and again at 9 s: so is beat one of the slow one.
    const bars = [bar(FAST, 0, 0.4), bar(FAST, 2, 0.35), bar(SLOW, 1, 0.25)];
    expect(agreedBar(bars)).toBe(bars[1]);
  });

  test("is the likeliest where the slower bar has its one elsewhere", () => {
    const bars = [bar(FAST, 0, 0.4), bar(FAST, 2, 0.35), bar(SLOW, 1.5, 0.25)];
    expect(agreedBar(bars)).toBe(bars[0]);
  });

  test("is none where there is none", () => {
    expect(agreedBar([])).toBeUndefined();
  });

  test("is always one at the likeliest one's pulse, and the likeliest itself where that has more than half of all chances", () => {
    const some = fc.array(
      fc.record({
        isFast: fc.boolean(),
        beatsLater: fc.integer({ min: 0, max: 7 }).map((halves) => halves / 2),
        weight: fc.integer({ min: 1, max: 100 }),
      }),
      { minLength: 1, maxLength: 8 },
    );
    fc.assert(
      fc.property(some, (rows) => {
        const whole = rows.reduce((sum, { weight }) => sum + weight, 0);
        const bars = rows
          .map(({ isFast, beatsLater, weight }) => bar(isFast ? FAST : SLOW, beatsLater, weight / whole))
          .sort((a, b) => b.chance - a.chance);
        const agreed = agreedBar(bars);
        expect(agreed?.pulse).toBe(bars[0]?.pulse);
        if ((bars[0]?.chance ?? 0) > 0.5) expect(agreed?.turn).toBe(bars[0]?.turn);
      }),
    );
  });
});
