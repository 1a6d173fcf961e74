import * as fc from "fast-check";
import { expect, test } from "vitest";
import { axisTicks, beatMarks } from "../../../renderer/charts/beatMarks.ts";

const beat = (leanMs: number | null, spreadMs: number | null) => ({ beat: 1, count: 12, leanMs, spreadMs });

test.each([
  { leanMs: 39, spreadMs: 10, state: "inside", why: "within 30 of the take's own 10" },
  { leanMs: 41, spreadMs: 10, state: "outside", why: "31 behind the take's own lean" },
  { leanMs: -19, spreadMs: 10, state: "inside", why: "29 ahead of it" },
  { leanMs: -21, spreadMs: 10, state: "outside", why: "31 ahead of it" },
  { leanMs: 12, spreadMs: 22, state: "inside", why: "a spread under three quarters of the band" },
  { leanMs: 12, spreadMs: 24, state: "wanders", why: "a spread over three quarters of the band" },
  { leanMs: 12, spreadMs: null, state: "inside", why: "one stroke has no spread" },
  { leanMs: null, spreadMs: null, state: "untold", why: "nothing was played there" },
])("$leanMs ± $spreadMs is $state: $why", ({ leanMs, spreadMs, state }) => {
  expect(beatMarks([beat(leanMs, spreadMs)], { leanMs: 10, bandMs: 30 })[0]?.state).toBe(state);
});

test.each([
  {
    workOn: { kind: "beat-wanders", voice: "snare", beat: 4, spreadMs: 26 },
    states: ["inside", "voice-wanders"],
  },
  // Polish within the band is said, and marked as no fault.
  { workOn: { kind: "beat-wanders", voice: "snare", beat: 4, spreadMs: 12 }, states: ["inside", "inside"] },
  { workOn: { kind: "beat-leans", voice: "ride", beat: 4, leanMs: 12 }, states: ["inside", "inside"] },
  { workOn: { kind: "beat-leans", voice: "ride", beat: 4.5, leanMs: 20 }, states: ["inside", "voice-leans"] },
  { workOn: { kind: "drift", percent: 2 }, states: ["inside", "inside"] },
] as const)("a beat named by $workOn.kind is marked, the others are not", ({ workOn, states }) => {
  const beats = [3, 4].map((number) => ({ ...beat(10, 5), beat: number }));
  expect(beatMarks(beats, { leanMs: 10, bandMs: 30, workOn }).map(({ state }) => state)).toEqual(states);
});

test("a constant lean moves no beat out of the band", () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: -60, max: 60, noNaN: true }), { minLength: 1 }),
      fc.integer({ min: -80, max: 80 }),
      (leans, by) => {
        const states = (shift: number) =>
          beatMarks(
            leans.map((leanMs) => beat(Math.round(leanMs) + shift, 5)),
            { leanMs: shift, bandMs: 30.5 },
          ).map(({ state }) => state);
        expect(states(by)).toEqual(states(0));
      },
    ),
  );
});

test("the axis is even about the beat and holds all that is drawn", () => {
  expect(axisTicks(43)).toEqual([-60, -40, -20, 0, 20, 40, 60]);
  fc.assert(
    fc.property(fc.double({ min: 0, max: 2900, noNaN: true }), (reachMs) => {
      const ticks = axisTicks(reachMs);
      expect(ticks.at(-1)).toBeGreaterThanOrEqual(reachMs);
      expect(
        ticks
          .map((tick) => -tick)
          .reverse()
          .map((tick) => tick + 0),
      ).toEqual([...ticks]);
      expect(ticks.length).toBeLessThanOrEqual(7);
    }),
  );
});
