import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  drawQuestion,
  guessChance,
  isRight,
  type Moments,
  momentsSchema,
  momentsWords,
  RUNGS,
  rungAt,
  SURFACES,
  soundName,
  strokeOf,
  surfaceCalled,
  surfaceName,
  surfaceOf,
  surfacesOf,
} from "../../../engine/ear/index.ts";
import { seededChance } from "../../../engine/units/index.ts";

describe("names", () => {
  test("each surface is known by its own name, and no two have one name", () => {
    for (const surface of SURFACES) expect(surfaceCalled(surfaceName(surface))).toBe(surface);
    expect(new Set(SURFACES.map(surfaceName)).size).toBe(SURFACES.length);
  });

  test.each([
    ["ride", "Ride"],
    ["sequence-3", "Three in a row"],
    ["sequence-8", "Eight in a row"],
    ["two-at-once", "Two at once"],
    ["soft-stroke", "A soft stroke"],
    ["anvil", undefined],
  ])("a result about %s is named %s", (sound, name) => {
    expect(soundName(sound)).toBe(name);
  });

  test.each([
    ["Rimshot", "rim-shot"],
    ["bass drum", "kick"],
    ["HI HAT", "hi-hat-closed"],
    ["half open", "hi-hat-half"],
    ["left crash", "crash-left"],
    ["bow", "ride"],
    ["side-stick", "cross-stick"],
    ["triangle", null],
    ["", null],
  ])("%s means %s", (text, surface) => {
    expect(surfaceCalled(text)).toBe(surface);
  });
});

describe("strikes", () => {
  test.each([
    [{ voice: "snare", zone: "head" }, "snare"],
    [{ voice: "snare", zone: "rim" }, "rim-shot"],
    [{ voice: "hi-hat-open", zone: "edge" }, "hi-hat-open"],
    [{ voice: "hi-hat-open", zone: "edge", openness: 0.5 }, "hi-hat-half"],
    [{ voice: "hi-hat-closed", zone: "bow", openness: 0.1 }, "hi-hat-closed"],
    [{ voice: "hi-hat-closed", zone: "bow", openness: 0.9 }, "hi-hat-open"],
    [{ voice: "ride", zone: "bell" }, "bell"],
    [{ voice: "ride", zone: "bow" }, "ride"],
    [{ voice: "cowbell", zone: "whole" }, null],
  ] as const)("%j sounds %s", (hit, surface) => {
    expect(surfaceOf(hit)).toBe(surface);
  });

  test("what a surface is struck as sounds that surface; only a half-open hi-hat needs the pedal", () => {
    for (const surface of SURFACES) {
      const { voice, zone = "whole" } = strokeOf(surface);
      const openness = surface === "hi-hat-half" ? { openness: 0.5 } : {};
      expect(surfaceOf({ voice, zone, ...openness })).toBe(surface);
    }
  });
});

describe("questions", () => {
  const anyRung = fc.integer({ min: 1, max: RUNGS.length });

  test("a drawn question is of its rung, can be kept, and is answered by itself", () => {
    fc.assert(
      fc.property(anyRung, fc.integer(), (number, seed) => {
        const rung = rungAt(number);
        const moments = drawQuestion(rung, seededChance(seed));
        expect(momentsSchema.parse(moments)).toEqual(moments);
        expect(moments).toHaveLength(rung.length);
        expect(surfacesOf(moments).every((surface) => rung.pool.includes(surface))).toBe(true);
        for (const moment of moments) {
          expect(moment).toHaveLength(rung.together ? 2 : 1);
          expect(new Set(moment.map(({ surface }) => surface)).size).toBe(moment.length);
          expect(moment.filter(({ surface }) => surface.startsWith("hi-hat")).length).toBeLessThanOrEqual(1);
        }
        expect(isRight(moments, moments)).toBe(true);
        expect(
          isRight(
            moments,
            moments.map((moment) => moment.toReversed()),
          ),
        ).toBe(true);
        expect(isRight(moments, [...moments, ...moments])).toBe(false);
      }),
    );
  });

  test("what weighs nothing is not drawn, what weighs all always is", () => {
    const chance = seededChance(3);
    for (let times = 0; times < 50; times += 1)
      expect(drawQuestion(rungAt(2), chance, (surface) => (surface === "snare" ? 1 : 0))).toEqual([
        [{ surface: "snare" }],
      ]);
  });

  test("guessing is right as often as there are answers, exactly", () => {
    expect(guessChance(rungAt(1))).toBeCloseTo(1 / 3);
    expect(guessChance({ words: "", pool: ["kick", "snare", "ride"], length: 1, touch: true })).toBeCloseTo(
      1 / 6,
    );
    expect(guessChance({ words: "", pool: ["kick", "snare", "ride"], length: 2 })).toBeCloseTo(1 / 9);
    expect(
      guessChance({ words: "", pool: ["kick", "snare", "ride"], length: 1, together: true }),
    ).toBeCloseTo(1 / 3);
  });

  test.each([
    [[[{ surface: "kick" }]], [[{ surface: "kick" }]], true],
    [[[{ surface: "kick" }]], [[{ surface: "snare" }]], false],
    [[[{ surface: "snare", touch: "soft" }]], [[{ surface: "snare", touch: "loud" }]], false],
    [[[{ surface: "snare", touch: "soft" }]], [[{ surface: "snare" }]], false],
    [[[{ surface: "snare" }]], [[{ surface: "snare", touch: "loud" }]], true],
    [[[{ surface: "kick" }], [{ surface: "ride" }]], [[{ surface: "ride" }], [{ surface: "kick" }]], false],
  ] as const satisfies readonly (readonly [Moments, Moments, boolean])[])(
    "%j answered by %j: %s",
    (asked, said, right) => {
      expect(isRight(asked, said)).toBe(right);
    },
  );

  test("in words", () => {
    expect(
      momentsWords([[{ surface: "snare", touch: "soft" }], [{ surface: "kick" }, { surface: "crash-left" }]]),
    ).toBe("soft snare, then kick and crash left together");
  });

  test("no rung is out of reach, none beyond the last is asked", () => {
    expect(rungAt(0)).toBe(RUNGS[0]);
    expect(rungAt(99)).toBe(RUNGS.at(-1));
  });
});
