import { describe, expect, test } from "vitest";
import type { Moments } from "../../../../engine/ear/index.ts";
import type { Hit } from "../../../../engine/kit/index.ts";
import {
  CONTRAST_SECONDS,
  contrastStrokes,
  MOMENT_SECONDS,
  soundedStrokes,
} from "../../../../renderer/screens/back-turned/soundedStrokes.ts";
import { struckMoments } from "../../../../renderer/screens/back-turned/struckMoments.ts";

const ROW: Moments = [[{ surface: "kick" }], [{ surface: "snare" }, { surface: "ride" }]];

describe("what is asked, sounded", () => {
  test("one moment after the other, two at once at the same time", () => {
    expect(soundedStrokes(ROW).map((stroke) => [stroke.voice, stroke.time])).toEqual([
      ["kick", 0],
      ["snare", MOMENT_SECONDS],
      ["ride", MOMENT_SECONDS],
    ]);
  });

  test("loud is harder than plain, plain harder than soft", () => {
    const velocity = (touch?: "loud" | "soft"): number => {
      const [stroke] = soundedStrokes([[touch ? { surface: "snare", touch } : { surface: "snare" }]]);
      return stroke && "velocity" in stroke ? stroke.velocity : Number.NaN;
    };
    expect(velocity("loud")).toBeGreaterThan(velocity());
    expect(velocity()).toBeGreaterThan(velocity("soft"));
  });

  test("a half-open hi-hat is an open one that is stopped", () => {
    const [open, choke] = soundedStrokes([[{ surface: "hi-hat-half" }]]);
    expect(open).toMatchObject({ voice: "hi-hat-open", time: 0 });
    expect(choke).toMatchObject({ voice: "hi-hat-open", isChoke: true });
    expect(choke?.time).toBeGreaterThan(0.1);
  });

  test("toms at the studio's own pitches, from the nearest recording", () => {
    const toms = { "high-tom": 50, "mid-tom": 46, "floor-tom": 38 };
    const moments: Moments = [
      [{ surface: "high-tom" }],
      [{ surface: "mid-tom" }],
      [{ surface: "floor-tom" }],
    ];
    // Recordings at 49 (key 48), 46 (key 47) and 36 or 40 (keys 41, 43): two semitones from either, the first is taken.
    expect(soundedStrokes(moments, toms)).toMatchObject([
      { key: 48, semitones: 1 },
      { key: 47, semitones: 0 },
      { key: 41, semitones: 2 },
    ]);
  });

  test("side by side: what it was first, a breath, then what was said", () => {
    const strokes = contrastStrokes(ROW, [[{ surface: "bell" }]]);
    expect(strokes.at(-1)).toMatchObject({ voice: "bell", time: MOMENT_SECONDS + CONTRAST_SECONDS });
  });
});

function struck(time: number, voice: Hit["voice"], velocity = 0.7): Hit {
  return { time, voice, zone: "whole", velocity, pad: 1 };
}

describe("what is struck, as moments", () => {
  test.each([
    ["one after the other", [struck(1, "kick"), struck(1.3, "snare")], [["kick"], ["snare"]]],
    ["two hands together", [struck(1, "kick"), struck(1.05, "ride")], [["kick", "ride"]]],
    ["a hand and its rebound are one", [struck(1, "kick"), struck(1.03, "kick")], [["kick"]]],
    [
      "a third hand begins another moment",
      [struck(1, "kick"), struck(1.01, "ride"), struck(1.02, "bell")],
      [["kick", "ride"], ["bell"]],
    ],
    ["what is no surface is left out", [struck(1, "cowbell"), struck(2, "kick")], [["kick"]]],
    ["nothing", [], []],
  ] as const)("%s", (_, hits, surfaces) => {
    expect(struckMoments(hits).map((moment) => moment.map(({ surface }) => surface))).toEqual(surfaces);
  });

  test("more than eight moments are not asked", () => {
    const hits = Array.from({ length: 12 }, (_, at) => struck(at, "kick"));
    expect(struckMoments(hits)).toHaveLength(8);
  });

  test("where touch is asked, a hard strike is loud and a gentle one soft", () => {
    expect(struckMoments([struck(1, "snare", 0.9), struck(2, "snare", 0.3)], true)).toEqual([
      [{ surface: "snare", touch: "loud" }],
      [{ surface: "snare", touch: "soft" }],
    ]);
  });
});
