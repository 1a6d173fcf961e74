import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { WorkOn } from "../../../../engine/grading/index.ts";
import { practiceSteps, practiceTempos, whereWords } from "../../../../renderer/out/print/practice.ts";

const VOICES = ["ride", "snare", "cross-stick", "kick"] as const;

/** One of every kind. */
const WORK: readonly WorkOn[] = [
  { kind: "nothing" },
  { kind: "no-match" },
  { kind: "left-out", voice: "snare", count: 3, written: 24 },
  { kind: "other-sound", voice: "snare", heard: "mid-tom", count: 2 },
  { kind: "added", voice: "kick", count: 4 },
  { kind: "beat-wanders", voice: "snare", beat: 4, spreadMs: 31 },
  { kind: "beat-leans", voice: "kick", beat: 2.5, leanMs: -24 },
  { kind: "drift", percent: 2 },
  { kind: "touch", voice: "snare", touch: "heavy", count: 9 },
  { kind: "form", slip: { kind: "bars-dropped", bar: 5, beat: 1, bars: 1, strokes: 6 } },
  { kind: "unison", limb: "kick", against: "hats", gapMs: 40 },
  { kind: "ornament", ornament: "flam", was: "too-open", count: 3 },
  { kind: "hi-hat", was: "open-as-closed", count: 3 },
  { kind: "accents", voice: "snare", count: 5 },
];

describe("tempos to practise at", () => {
  test.each([
    [{ kind: "drift", percent: 2 } as const, 100, [85, 90, 95, 100]],
    [{ kind: "added", voice: "kick", count: 4 } as const, 100, [70, 80, 90, 100]],
    [{ kind: "nothing" } as const, 104.4, [104]],
    [{ kind: "beat-leans", voice: "kick", beat: 2, leanMs: 12 } as const, 100, [85, 90, 95, 100]],
    [{ kind: "beat-leans", voice: "kick", beat: 2, leanMs: 24 } as const, 100, [70, 80, 90, 100]],
    [{ kind: "added", voice: "kick", count: 4 } as const, 44, [40, 41, 43, 44]],
    [{ kind: "added", voice: "kick", count: 4 } as const, 38, [38]],
  ])("%o at %d", (workOn, played, tempos) => {
    expect(practiceTempos(workOn, { playedBpm: played, bandMs: 30 })).toEqual(tempos);
  });

  test("rise to the tempo of the take, and never pass it", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...WORK),
        fc.double({ min: 20, max: 400, noNaN: true }),
        (workOn, played) => {
          const tempos = practiceTempos(workOn, { playedBpm: played, bandMs: 30 });
          expect(tempos.at(-1)).toBe(Math.round(played));
          expect(tempos).toEqual([...new Set(tempos)].sort((a, b) => a - b));
        },
      ),
    );
  });
});

describe("steps", () => {
  test.each(WORK.map((workOn) => [workOn.kind, workOn] as const))(
    "%s has three, each a sentence",
    (_, workOn) => {
      const steps = practiceSteps(workOn, VOICES);
      expect(new Set(steps).size).toBe(3);
      for (const step of steps) expect(step).toMatch(/^[A-Z].*[.?]$/);
    },
  );

  test("speak of the voice and the beat that are meant", () => {
    const steps = practiceSteps({ kind: "beat-leans", voice: "cross-stick", beat: 2.5, leanMs: 20 }, VOICES);
    expect(steps.join(" ")).toContain("cross-stick on the “and” of two");
  });

  test.each([
    ["snare", VOICES, "The snare and the ride, eight bars."],
    ["ride", VOICES, "The ride and the kick, eight bars."],
    ["ride", ["ride"], "The ride and a count aloud, eight bars."],
    ["kick", ["kick", "hi-hat-closed", "ride"], "The kick and the hi-hat, eight bars."],
  ] as const)("a %s of %o is first joined by another voice", (voice, voices, step) => {
    expect(practiceSteps({ kind: "beat-wanders", voice, beat: 1, spreadMs: 40 }, voices)).toContain(step);
  });
});

test("where it is plainest is a sentence, or nothing", () => {
  const added = { kind: "added", voice: "kick", count: 4 } as const;
  expect(whereWords(added, { bar: 7, beat: 3 })).toBe("It is plainest in bar 7, beat 3.");
  const leans = { kind: "beat-leans", voice: "snare", beat: 2.5, leanMs: 20 } as const;
  expect(whereWords(leans, { bar: 7, beat: 2 })).toBe("It is plainest in bar 7.");
  expect(whereWords(added, null)).toBeNull();
});
