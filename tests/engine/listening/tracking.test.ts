import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { strokesOfHits } from "../../../engine/listening/roles.ts";
import { beatAtTime, followPulse, timeOfBeat } from "../../../engine/listening/tracking.ts";
import { played, writtenGrooveOf } from "./played.ts";

/** A performance whose tempo rises evenly by `gain` (a share) from its start to its end. */
function rushing(gain: number) {
  const hits = played(writtenGrooveOf("rock-eighths"), { tempoBpm: 100, bars: 24, spreadMs: 6 });
  const end = hits.at(-1)?.time ?? 1;
  return hits.map((hit) => ({ ...hit, time: hit.time - (gain * hit.time ** 2) / (2 * end) }));
}

describe("following the pulse", () => {
  test.each([0, 0.03, -0.03])("a tempo that changes by %f is followed to the last beat", (gain) => {
    const strokes = strokesOfHits(rushing(gain));
    const to = strokes.findIndex(({ time }) => time > 8);
    const map = followPulse(strokes, 0, to, 0.6 * (1 - gain / 8));
    const last = map.beats.at(-1) ?? 0;
    // 24 bars of 4 beats, the last eighth of which is struck half a beat before the end.
    expect(Math.abs(last - 95.5)).toBeLessThan(0.12);
  });

  test("time and beat are each other's inverse, and time never runs back", () => {
    const strokes = strokesOfHits(rushing(0.02));
    const map = followPulse(strokes, 0, 60, 0.6);
    fc.assert(
      fc.property(fc.double({ min: -4, max: 100, noNaN: true }), (beat) => {
        expect(beatAtTime(map, timeOfBeat(map, beat))).toBeCloseTo(beat, 1);
      }),
    );
    for (let index = 1; index < map.beats.length; index += 1) {
      expect(map.beats[index] ?? 0).toBeGreaterThanOrEqual(map.beats[index - 1] ?? 0);
    }
  });
});
