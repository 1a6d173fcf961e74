import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { leads } from "../../../engine/listening/lead.ts";
import { type BarHypothesis, clickPulse } from "../../../engine/listening/pulse.ts";
import type { Bpm } from "../../../engine/units/index.ts";
import { hiHatAlone } from "./hypotheses.ts";

/** Four seconds. */
const STROKES = hiHatAlone(17);

function bar(tempoBpm: Bpm, logChance: number, begins = 0): BarHypothesis {
  return {
    pulse: clickPulse(STROKES, { tempoBpm, from: 0 }),
    beatsInBar: 4,
    turn: 0,
    logChance: logChance + begins,
    begins,
  };
}

describe("how clearly strokes lie on a pulse", () => {
  test("is by how much its best bar is before the best on any other", () => {
    expect(leads([bar(120, -3), bar(120, -9), bar(90, -8)])).toEqual([5, 5, -5]);
  });

  test("is the same at twice and half the tempo, whatever is made of the bars there", () => {
    expect(leads([bar(120, -3), bar(60, -14), bar(240, -11), bar(90, -8)])).toEqual([5, 5, 5, -5]);
  });

  test("three to two is another pulse, and so is a tempo a twelfth away", () => {
    expect(leads([bar(120, -3), bar(80, -5), bar(130, -4)])).toEqual([1, -2, -1]);
  });

  test("a tempo two parts in a hundred away is the same", () => {
    expect(leads([bar(120, -3), bar(121.9, -6), bar(90, -7)])).toEqual([4, 4, -4]);
  });

  test("what the first stroke says is not in it", () => {
    expect(leads([bar(120, -3, 0.5), bar(90, -8)])).toEqual([5, -5]);
  });

  test("is beyond doubt where there is no rival, or one that is far behind", () => {
    expect(leads([bar(120, -3), bar(60, -9)])).toEqual([20, 20]);
    expect(leads([bar(120, -3), bar(90, -50)])).toEqual([20, -20]);
    expect(leads([])).toEqual([]);
  });

  test("is above nothing for the octaves of one pulse only", () => {
    const some = fc.array(
      fc.record({
        tempoBpm: fc.constantFrom(60, 75, 80, 90, 120, 150, 180),
        logChance: fc.integer({ min: -40, max: 0 }),
      }),
      { minLength: 1, maxLength: 8 },
    );
    fc.assert(
      fc.property(some, (rows) => {
        const ahead = leads(rows.map(({ tempoBpm, logChance }) => bar(tempoBpm, logChance)));
        const tempos = rows.flatMap(({ tempoBpm }, index) => ((ahead[index] ?? 0) > 0 ? [tempoBpm] : []));
        for (const tempo of tempos) expect(Math.abs(Math.log2(tempo / (tempos[0] ?? 1)) % 1)).toBe(0);
      }),
    );
  });
});
