import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Hit, VOICES, type Voice } from "../../../engine/kit/index.ts";
import {
  numberOf,
  PART_COUNT,
  ROLE_COUNT,
  ROLE_VOICES,
  ROLE_WEIGHTS,
  rolesOf,
  SOUND_COUNT,
  SOUND_PARTS,
  SOUND_ROLES,
  SOUND_WEIGHTS,
  soundOf,
  soundsPlaying,
  strokesOfHits,
  strokeWeight,
} from "../../../engine/listening/roles.ts";

const partOf = (voice: Voice): number | undefined => SOUND_PARTS[soundOf(voice) ?? -1];

describe("the parts of a groove", () => {
  test("every voice is one sound or is passed over, and every sound has a voice", () => {
    const sounds = VOICES.flatMap((voice) => soundOf(voice) ?? []);
    expect([...new Set(sounds)].sort((a, b) => a - b)).toEqual([...Array(SOUND_COUNT).keys()]);
    const passedOver = VOICES.filter((voice) => soundOf(voice) === undefined).sort();
    const playNoPart = ["agogo", "cuica", "effect", "guiro", "tambourine", "triangle", "unknown", "whistle"];
    expect(passedOver).toEqual(playNoPart);
    expect(rolesOf("whistle")).toEqual([]);
  });

  test.each<[Voice, Voice]>([
    ["hi-hat-closed", "ride"],
    ["hi-hat-closed", "hi-hat-open"],
    ["ride", "bell"],
    ["snare", "cross-stick"],
    ["high-tom", "floor-tom"],
  ])("%s and %s play one part", (one, other) => {
    expect(partOf(one)).toBe(partOf(other));
  });

  test.each<[Voice, Voice]>([
    ["kick", "snare"],
    ["snare", "high-tom"],
    ["hi-hat-closed", "hi-hat-pedal"],
    ["ride", "crash-left"],
  ])("%s and %s play two", (one, other) => {
    expect(partOf(one)).not.toBe(partOf(other));
  });

  test("the part comes first among a sound's roles, and counts more than the voice itself", () => {
    SOUND_ROLES.forEach(([part, ...own], sound) => {
      expect(SOUND_PARTS[sound]).toBe(part);
      for (const role of own) expect(ROLE_WEIGHTS[role] ?? 1).toBeLessThan(ROLE_WEIGHTS[part ?? -1] ?? 0);
    });
    expect(PART_COUNT).toBe(ROLE_COUNT);
  });

  test("a sound weighs what its roles weigh, and kick and back-beat weigh most", () => {
    SOUND_ROLES.forEach((roles, sound) => {
      const sum = roles.reduce((all, role) => all + (ROLE_WEIGHTS[role] ?? Number.NaN), 0);
      expect(SOUND_WEIGHTS[sound]).toBeCloseTo(sum, 12);
    });
    const byWeight = [...ROLE_WEIGHTS.keys()].sort((a, b) => (ROLE_WEIGHTS[b] ?? 0) - (ROLE_WEIGHTS[a] ?? 0));
    expect(byWeight.slice(0, 2)).toEqual([numberOf("kick"), numberOf("back-beat")]);
  });

  test("a part is played by the sounds of its voices", () => {
    const sounds = (["hi-hat-closed", "hi-hat-open", "ride"] as const).map(soundOf);
    expect(soundsPlaying("time-keeper")).toEqual(sounds);
    expect(soundsPlaying("kick")).toEqual([soundOf("kick")]);
  });

  test("the voices a part is told by play that part, each in the role that tells it apart", () => {
    ROLE_VOICES.forEach((voices, part) => {
      for (const { voice, role } of voices) {
        expect(rolesOf(voice)).toContain(part);
        expect(rolesOf(voice)).toContain(role);
      }
      expect(new Set(voices.map(({ role }) => role)).size).toBe(voices.length);
    });
    expect(ROLE_VOICES.flat().length).toBeGreaterThan(8);
  });
});

describe("strikes as strokes", () => {
  const hit = fc.record({
    time: fc.double({ min: 0, max: 60, noNaN: true }),
    voice: fc.constantFrom(...VOICES),
    velocity: fc.double({ min: 0.01, max: 1, noNaN: true }),
    zone: fc.constant("whole" as const),
    pad: fc.constant(0),
  });

  test("come in order of time, without those that are passed over, none twice", () => {
    fc.assert(
      fc.property(fc.array(hit, { maxLength: 30 }), (hits: readonly Hit[]) => {
        const strokes = strokesOfHits(hits);
        expect(strokes.length).toBe(hits.filter(({ voice }) => soundOf(voice) !== undefined).length);
        strokes.forEach(({ time }, index) => {
          expect(time).toBeGreaterThanOrEqual(strokes[index - 1]?.time ?? 0);
        });
      }),
    );
  });

  test("weigh from 0.3 to 1, more the harder they are struck", () => {
    const velocity = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(velocity, velocity, (a, b) => {
        expect(strokeWeight(a)).toBeGreaterThanOrEqual(0.3);
        expect(strokeWeight(a)).toBeLessThanOrEqual(1);
        expect(strokeWeight(Math.max(a, b))).toBeGreaterThanOrEqual(strokeWeight(Math.min(a, b)));
      }),
    );
    expect(strokeWeight(0.2)).toBeLessThan(strokeWeight(0.5));
  });
});
