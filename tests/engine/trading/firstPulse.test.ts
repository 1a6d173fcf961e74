import { describe, expect, test } from "vitest";
import type { Heard } from "../../../engine/listening/index.ts";
import { beatsPerBar, type Metre } from "../../../engine/score/index.ts";
import { firstPulse, firstPulseWords } from "../../../engine/trading/index.ts";
import { beatSeconds } from "../../../engine/units/index.ts";

const metre = (numerator: number, denominator: number): Metre => ({ numerator, denominator });

function heard(
  tempoBpm: number,
  its: Metre,
  { line = 10, confidence = 0.9, one = 0.05, between = 0.05 } = {},
): Pick<Heard, "pulse" | "doubt"> {
  const bar = beatsPerBar(its) * beatSeconds(tempoBpm);
  return {
    pulse: { tempoBpm, metre: its, beats: [], downbeats: [line, line + bar, line + 2 * bar], confidence },
    doubt: { one, between },
  };
}

describe("bars of a first player", () => {
  test.each([
    ["four-four, on the one", heard(120, metre(4, 4)), 10, 120, null, "4/4", 10],
    ["heard as half as fast", heard(60, metre(4, 4)), 10, 120, null, "4/4", 10],
    ["a waltz with an upbeat of a beat", heard(120, metre(3, 4)), 9.5, 110, null, "3/4", 10],
    ["five, said", heard(120, metre(5, 4)), 10, 120, metre(5, 4), "5/4", 10],
    ["six-eight heard in six quarters, said", heard(180, metre(6, 4)), 10, 60, metre(6, 8), "6/8", 10],
    ["a stroke a little before the line belongs to it", heard(120, metre(4, 4)), 9.95, 120, null, "4/4", 10],
  ] as const)("%s", (_, hearing, first, aboutBpm, said, name, from) => {
    const told = firstPulse(hearing, first, { aboutBpm, metre: said });
    const { numerator, denominator } = told.pulse.metre;
    expect(`${numerator}/${denominator}`).toBe(name);
    expect(told.pulse.from).toBeCloseTo(from, 9);
    expect(Math.abs(Math.log2(told.pulse.tempoBpm / aboutBpm))).toBeLessThan(0.5);
    expect(told).toMatchObject({ isMetreSure: true, isOneSure: true });
    expect(firstPulseWords(told)).toEqual([]);
  });

  test.each([
    ["neither is clear", heard(120, metre(3, 4), { confidence: 0.4 }), null, false, "4/4"],
    ["the one is not clear", heard(120, metre(3, 4), { one: 0.4 }), null, true, "3/4"],
    ["the beat may lie between", heard(120, metre(4, 4), { between: 0.4 }), null, true, "4/4"],
    ["bars are heard half as long", heard(240, metre(4, 4)), null, true, "4/4"],
    ["another metre was said than is heard", heard(120, metre(4, 4)), metre(3, 4), true, "3/4"],
  ] as const)(
    "where %s, the first stroke is the one, and that is said",
    (_, hearing, said, isMetreSure, name) => {
      const told = firstPulse(hearing, 9.5, { aboutBpm: 120, metre: said });
      const { numerator, denominator } = told.pulse.metre;
      expect(`${numerator}/${denominator}`).toBe(name);
      expect(told).toMatchObject({ isMetreSure, isOneSure: false, pulse: { from: 9.5 } });
      expect(firstPulseWords(told).length).toBe(isMetreSure ? 1 : 2);
    },
  );
});
