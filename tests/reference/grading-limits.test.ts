/** What grading says beside what is published: the limits of hearing behind the bands, drift, unison, swing by limb, angles. */
import { describe, expect, test } from "vitest";
import {
  bandFigures,
  bandMs,
  driftWords,
  gradeTake,
  grooveTarget,
  HEARD_APART_MS,
  hearableMs,
  SMALLEST_DRIFT_PERCENT,
} from "../../engine/grading/index.ts";
import { LEVELS, parseGrid, playedBeat } from "../../engine/score/index.ts";
import { beatSeconds, normal, seededChance } from "../../engine/units/index.ts";
import { played, rock } from "../engine/grading/takes.ts";

const shared = { start: "shared" } as const;

test("no band of any level is narrower than what is heard in its sixteenths, at any tempo", () => {
  // Friberg & Sundberg 1995: 6 ms below 240 ms, 2.5 % of the interval above.
  for (const level of LEVELS) {
    for (let tempoBpm = 40; tempoBpm <= 300; tempoBpm += 5) {
      const { halfBandMs, hearableMs: heard } = bandFigures(level, tempoBpm);
      expect(halfBandMs).toBe(bandMs(level, tempoBpm));
      expect(heard).toBe(hearableMs(beatSeconds(tempoBpm) * 1000));
      expect(halfBandMs).toBeGreaterThan(hearableMs(beatSeconds(tempoBpm) * 250));
    }
  }
});

test("bands widen with slow tempos and never narrow", () => {
  for (const level of LEVELS) {
    const widths = [240, 160, 100, 80, 60, 40].map((tempoBpm) => bandMs(level, tempoBpm));
    expect(widths).toEqual([...widths].sort((a, b) => a - b));
    expect(widths[5]).toBeGreaterThan(widths[2] ?? 0);
  }
});

test("the smallest drift that is named is a third of the smallest change of tempo heard", () => {
  // Drake & Botte, Perception & Psychophysics 54 (1993) 277–286: 1.5 % at best.
  expect(SMALLEST_DRIFT_PERCENT).toBeCloseTo(1.5 / 3, 9);
  expect(driftWords({ driftPercent: 0.49 })).toBe("The tempo held.");
});

test("limbs less than some 20 ms apart are together, as professionals are", () => {
  // Hirsh 1959 (from memory): 20 ms for order. Fujii et al. 2011: kick and snare 8 to 12 ms before the hi-hat.
  const target = rock(12, 120);
  const hits = played(target, ({ time, voice }) => time - (voice === "hi-hat-closed" ? 0 : 0.01));
  const { unisons, workOn } = gradeTake(hits, target, shared);
  for (const { gapMs, heardApart } of unisons) {
    expect(gapMs).toBeCloseTo(-10, 6);
    expect(heardApart).toBe(0);
  }
  expect(HEARD_APART_MS).toBe(20);
  expect(workOn.kind).not.toBe("unison");
});

describe("swing by limb", () => {
  const groove = parseGrid(
    "groove: s\nname: Shuffle\nmetre: 4/4\nfeel: straight\ntempo: 60-160\n\nride | xx xx xx xx |\nkick | xx .x xx .x |",
  );
  const target = grooveTarget(groove, { tempoBpm: 120, bars: 12 });

  test.each([
    // Friberg & Sundström 2002: the off-beat at r/(r + 1); soloists' ratios are smaller than the drummer's.
    { ride: 2, kick: 1 },
    { ride: 1.5, kick: 1.5 },
    { ride: 2, kick: 1.25 },
  ])("a ride at $ride to 1 over a kick at $kick to 1", ({ ride, kick }) => {
    const chance = seededChance(5);
    const hits = played(target, ({ beat, voice }) => {
      const ratio = voice === "ride" ? ride : kick;
      return playedBeat({ kind: "swung", ratio, written: "eighths" }, beat) / 2 + 0.003 * normal(chance);
    });
    const { swingByLimb } = gradeTake(hits, target, shared);
    const ratioOf = (limb: string) => swingByLimb.find((row) => row.limb === limb);
    expect(Math.abs((ratioOf("cymbals")?.ratio ?? 0) - ride)).toBeLessThan(0.05);
    expect(Math.abs((ratioOf("kick")?.ratio ?? 0) - kick)).toBeLessThan(0.05);
    expect(ratioOf("kick")).toMatchObject({ pairs: 24, ownBeats: true });
  });

  test("a foot on the off-beats alone is measured from the hand's beats", () => {
    const offOnly = parseGrid(
      "groove: o\nname: Off\nmetre: 4/4\nfeel: straight\ntempo: 60-160\n\nride | xx xx xx xx |\nkick | .x .x .x .x |",
    );
    const off = grooveTarget(offOnly, { tempoBpm: 120, bars: 4 });
    const hits = played(
      off,
      ({ beat }) => playedBeat({ kind: "swung", ratio: 1.5, written: "eighths" }, beat) / 2,
    );
    const kick = gradeTake(hits, off, shared).swingByLimb.find(({ limb }) => limb === "kick");
    expect(kick).toMatchObject({ pairs: 16, ownBeats: false });
    expect(kick?.ratio).toBeCloseTo(1.5, 2);
  });
});

test("strokes around the bar line lie at the bar line, not half a bar off: the trap of angles", () => {
  // 20 ms early is 345.6° of a beat at 120, 20 ms late 14.4°: their mean is 0°, not 180°.
  const target = rock(16, 120);
  const hits = played(
    target,
    ({ time, beat }) => time + (beat % 4 === 0 ? ((beat / 4) % 2 === 0 ? 0.02 : -0.02) : 0),
  );
  const [one] = gradeTake(
    hits.map((hit) => ({ ...hit, time: hit.time + 1e-9 })),
    target,
    shared,
  ).perBeat;
  // The one has as many strokes before the line as behind it, and eighths of the same beat in place.
  expect(Math.abs(one?.leanMs ?? 99)).toBeLessThan(0.5);
});
