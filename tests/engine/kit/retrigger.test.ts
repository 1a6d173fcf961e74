import { describe, expect, test } from "vitest";
import { type Hit, isRetrigger, KitEar, parseKitMap, RetriggerFilter } from "../../../engine/kit/index.ts";
import generalMidi from "../../../kit-maps/general-midi-1.json" with { type: "json" };

function hit(timeMs: number, velocity: number, pad = 38): Hit {
  return { time: 5 + timeMs / 1000, voice: "snare", zone: "head", velocity, pad };
}

describe("one strike and the pad speaking twice, or two strokes", () => {
  // Flams of 13, 26 and 51 ms: tenth, fiftieth and ninetieth percentile of the Groove MIDI Dataset.
  test.each([
    { gapMs: 4, first: 0.8, second: 0.2, retrigger: true, why: "quick and soft" },
    { gapMs: 12, first: 0.8, second: 0.2, retrigger: true, why: "at the bound, soft" },
    { gapMs: 12, first: 0.8, second: 0.39, retrigger: true, why: "just under half as strong" },
    { gapMs: 12, first: 0.8, second: 0.4, retrigger: false, why: "half as strong" },
    { gapMs: 12.1, first: 0.8, second: 0.1, retrigger: false, why: "too late, however soft" },
    { gapMs: 0, first: 0.8, second: 0.1, retrigger: true, why: "at the same moment, soft" },
    { gapMs: 4, first: 0.3, second: 0.9, retrigger: false, why: "quick and louder: a tight flam" },
    { gapMs: 13, first: 0.25, second: 0.7, retrigger: false, why: "a flam of 13 ms" },
    { gapMs: 26, first: 0.25, second: 0.7, retrigger: false, why: "a flam of 26 ms" },
    { gapMs: 51, first: 0.25, second: 0.7, retrigger: false, why: "a flam of 51 ms" },
    { gapMs: 26, first: 0.7, second: 0.1, retrigger: false, why: "a flam with the soft stroke second" },
    { gapMs: 60, first: 0.9, second: 0.1, retrigger: false, why: "a ghost note after an accent" },
  ])("$gapMs ms, $first then $second: $why", ({ gapMs, first, second, retrigger }) => {
    expect(isRetrigger(hit(0, first), hit(gapMs, second))).toBe(retrigger);
    const filter = new RetriggerFilter();
    expect(filter.isRetrigger(hit(0, first))).toBe(false);
    expect(filter.isRetrigger(hit(gapMs, second))).toBe(retrigger);
  });
});

test("another pad is never a retrigger", () => {
  expect(isRetrigger(hit(0, 0.9, 38), hit(3, 0.1, 40))).toBe(false);
  const filter = new RetriggerFilter();
  expect([hit(0, 0.9, 38), hit(3, 0.1, 42), hit(4, 0.1, 38)].map((each) => filter.isRetrigger(each))).toEqual(
    [false, false, true],
  );
});

test("a pad that rings on for long is compared with the strike, not with its own echo", () => {
  const filter = new RetriggerFilter();
  const strikes = [hit(0, 0.9), hit(6, 0.3), hit(11, 0.2), hit(17, 0.1)];
  expect(strikes.map((each) => filter.isRetrigger(each))).toEqual([false, true, true, false]);
});

test("the ear keeps retriggers apart, with all that is known of them", () => {
  const ear = new KitEar(parseKitMap(generalMidi, "general-midi-1.json"));
  const strike = (velocity: number) => ({ kind: "note-on" as const, channel: 9, note: 38, velocity });
  expect(ear.hear(strike(110), 1)?.kind).toBe("hit");
  expect(ear.hear(strike(20), 1.008)).toEqual({
    kind: "retrigger",
    hit: { time: 1.008, voice: "snare", zone: "whole", velocity: 20 / 127, pad: 38 },
  });
  expect(ear.hear(strike(100), 1.2)?.kind).toBe("hit");
});
