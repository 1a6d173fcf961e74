import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { strokesOfHits } from "../../../engine/listening/roles.ts";
import { followPulse, timeOfBeat } from "../../../engine/listening/tracking.ts";
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
    const { map } = followPulse(strokes, { from: 0, to, period: 0.6 * (1 - gain / 8), beatsRound: 4 });
    const last = map.beats.at(-1) ?? 0;
    // 24 bars of 4 beats, the last eighth of which is struck half a beat before the end.
    expect(Math.abs(last - 95.5)).toBeLessThan(0.12);
  });

  test("a stroke's beat comes at its own moment, and time never runs back", () => {
    const strokes = strokesOfHits(rushing(0.02));
    const { map } = followPulse(strokes, { from: 0, to: 60, period: 0.6, beatsRound: 4 });
    map.beats.forEach((beat, index) => {
      // The strokes of a unison may share one beat, a few milliseconds apart.
      expect(Math.abs(timeOfBeat(map, beat) - (map.times[index] ?? Number.NaN))).toBeLessThan(0.03);
    });
    const anyBeat = fc.double({ min: -4, max: 100, noNaN: true });
    fc.assert(
      fc.property(anyBeat, anyBeat, (a, b) => {
        expect(timeOfBeat(map, Math.max(a, b))).toBeGreaterThanOrEqual(timeOfBeat(map, Math.min(a, b)));
      }),
    );
    for (let index = 1; index < map.beats.length; index += 1) {
      expect(map.beats[index] ?? 0).toBeGreaterThanOrEqual(map.beats[index - 1] ?? 0);
    }
  });
});
