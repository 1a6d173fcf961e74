/**
 * Figures of grading against published values, and against values computed here from the noise that was put in.
 */
import { describe, expect, test } from "vitest";
import { beatOfBar, gradeTake, grooveTarget, hearableMs } from "../../engine/grading/index.ts";
import { parseGrid, playedBeat } from "../../engine/score/index.ts";
import {
  MAD_TO_SD,
  median,
  medianDeviation,
  normal,
  seededChance,
  theilSen,
} from "../../engine/units/index.ts";
import { FUNK, played, rock, SHUFFLE } from "../engine/grading/takes.ts";

const shared = { start: "shared" } as const;
const free = { start: "free" } as const;

test("median absolute deviation: worked data", () => {
  // Data 1,1,2,2,4,6,9: median 2, MAD 1; factor 1/Φ⁻¹(0.75) = 1.482602 (computed).
  const data = [1, 1, 2, 2, 4, 6, 9];
  expect(median(data)).toBe(2);
  expect(medianDeviation(data)).toBe(1);
  expect(medianDeviation(data) * MAD_TO_SD).toBeCloseTo(1.482602, 6);
});

test("Theil–Sen: worked data", () => {
  // Theil 1950; Sen, JASA 63 (1968): pair slopes 1 six times, 10, 13, 19, 37, median 1 (computed; least squares 8.2).
  expect(theilSen([0, 1, 2, 3, 4], [0, 1, 2, 3, 40]).slope).toBe(1);
});

test.each([
  // Friberg & Sundberg, JASA 98 (1995) 2524–2531: 6 ms below 240 ms, 2.5 % above; rows computed from it.
  { what: "quarters at 60", intervalMs: 1000, leastMs: 25 },
  { what: "quarters at 120", intervalMs: 500, leastMs: 12.5 },
  { what: "eighths at 120", intervalMs: 250, leastMs: 6.25 },
  { what: "sixteenths at 120", intervalMs: 125, leastMs: 6 },
  { what: "the bend of the curve", intervalMs: 240, leastMs: 6 },
])("the smallest displacement heard in $what is $leastMs ms", ({ intervalMs, leastMs }) => {
  expect(hearableMs(intervalMs)).toBeCloseTo(leastMs, 9);
});

describe("swing: a take played at r gives r back", () => {
  // Friberg & Sundström 2002: off-beat at r/(r + 1) of the beat. Milliseconds at 120: 250, 300, 333.33, 375 (computed).
  const written = { swung: SHUFFLE, "straight eighths": { ...SHUFFLE, feel: { kind: "straight" } as const } };
  const table = [
    { ratio: 1, offBeatMs: 250 },
    { ratio: 1.5, offBeatMs: 300 },
    { ratio: 2, offBeatMs: 333.33 },
    { ratio: 3, offBeatMs: 375 },
  ];
  test.each(table)("written as swung eighths, played at $ratio", ({ ratio, offBeatMs }) => {
    const target = grooveTarget(written.swung, { tempoBpm: 120, bars: 8 });
    const playedAt = (beat: number) => playedBeat({ kind: "swung", ratio, written: "eighths" }, beat) / 2;
    expect(playedAt(0.5) * 1000).toBeCloseTo(offBeatMs, 2);
    const chance = seededChance(11);
    const hits = played(target, ({ beat }) => playedAt(beat) + 0.004 * normal(chance));
    for (const start of [shared, free]) {
      expect(Math.abs((gradeTake(hits, target, start).swingRatio ?? 0) - ratio)).toBeLessThanOrEqual(
        ratio < 3 ? 0.02 : 0.03,
      );
    }
    const clean = played(target, ({ beat }) => playedAt(beat));
    for (const start of [shared, free]) {
      expect(Math.abs((gradeTake(clean, target, start).swingRatio ?? 0) - ratio)).toBeLessThan(0.02);
    }
  });

  test.each(table.filter(({ ratio }) => ratio <= 2))("written straight, played at $ratio", ({ ratio }) => {
    const target = grooveTarget(written["straight eighths"], { tempoBpm: 120, bars: 8 });
    const hits = played(
      target,
      ({ beat }) => playedBeat({ kind: "swung", ratio, written: "eighths" }, beat) / 2,
    );
    expect(Math.abs((gradeTake(hits, target, shared).swingRatio ?? 0) - ratio)).toBeLessThan(0.02);
  });

  test.each(table)("written as the outer two of triplets, played at $ratio", ({ ratio }) => {
    const jazz = parseGrid(
      "groove: jazz\nname: Jazz ride\nmetre: 4/4\nfeel: swung 2 triplets\ntempo: 60-300\n\nride | x.. x.x x.. x.x |\nhi-hat-pedal | ... x.. ... x.. |",
    );
    const target = grooveTarget(jazz, { tempoBpm: 120, bars: 8 });
    const hits = played(
      target,
      ({ beat }) => playedBeat({ kind: "swung", ratio, written: "triplets" }, beat) / 2,
    );
    expect(Math.abs((gradeTake(hits, target, shared).swingRatio ?? 0) - ratio)).toBeLessThan(0.02);
  });

  test.each(table)("swung sixteenths, the same inside an eighth, played at $ratio", ({ ratio }) => {
    const target = grooveTarget(
      { ...FUNK, feel: { kind: "swung", ratio: 2, written: "sixteenths" } },
      { tempoBpm: 90, bars: 4 },
    );
    const hits = played(
      target,
      ({ beat }) => (playedBeat({ kind: "swung", ratio, written: "sixteenths" }, beat) * 60) / 90,
    );
    expect(Math.abs((gradeTake(hits, target, shared).swingRatio ?? 0) - ratio)).toBeLessThan(0.02);
  });

  test("a snare that leans is no swing, and without off-beats there is no ratio", () => {
    const target = rock(4);
    const late = played(target, ({ time, voice }) => time + (voice === "hi-hat-closed" ? 0 : 0.04));
    expect(gradeTake(late, target, shared).swingRatio).toBeCloseTo(1, 6);
    const quarters = parseGrid(
      "groove: q\nname: Quarters\nmetre: 4/4\nfeel: straight\ntempo: 60-90\nkick | xxxx |",
    );
    const plain = grooveTarget(quarters, { tempoBpm: 80, bars: 4 });
    expect(gradeTake(played(plain), plain, shared).swingRatio).toBeNull();
  });
});

/** Plain mean and standard deviation (n − 1), the yardstick for what grading finds. */
function meanAndSd(values: readonly number[]): { mean: number; sd: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, sd: Math.sqrt(squares / (values.length - 1)) };
}

describe("what was put into a take comes out again", () => {
  const ways = [-18, 0, 7, 25].flatMap((leanMs) => [4, 12, 20].map((sdMs) => ({ leanMs, sdMs })));
  test.each(ways)("lean $leanMs ms, spread $sdMs ms", ({ leanMs, sdMs }) => {
    for (let seed = 1; seed <= 10; seed += 1) {
      const chance = seededChance(seed);
      const target = rock(12, 110);
      const noiseMs: number[] = [];
      const hits = played(target, ({ time }) => {
        const slipMs = leanMs + sdMs * normal(chance);
        noiseMs.push(slipMs);
        return time + slipMs / 1000;
      });
      const truth = meanAndSd(noiseMs);
      const report = gradeTake(hits, target, shared);
      expect(Math.abs((report.leanMs ?? 99) - truth.mean)).toBeLessThanOrEqual(0.5);
      expect(Math.abs((report.spreadMs ?? 99) / truth.sd - 1)).toBeLessThanOrEqual(0.05);
    }
  });

  test.each([92.5, 97, 100, 104.2, 107])("tempo %s against a target at 100, within 0.1 %", (tempoBpm) => {
    for (let seed = 1; seed <= 6; seed += 1) {
      const chance = seededChance(seed);
      const target = rock(16);
      const hits = played(target, ({ time }) => 12 + (time * 100) / tempoBpm + 0.01 * normal(chance));
      const report = gradeTake(hits, target, free);
      expect(Math.abs((report.tempoBpm ?? 0) / tempoBpm - 1)).toBeLessThanOrEqual(0.001);
    }
  });

  test.each([-2, -0.7, 1, 2])(
    "a drift of %s in 100 against the clock, and the spread around it",
    (percent) => {
      for (let seed = 1; seed <= 6; seed += 1) {
        const chance = seededChance(seed);
        const target = rock(16);
        const noiseMs: number[] = [];
        const hits = played(target, ({ time }) => {
          const slipMs = 10 * normal(chance);
          noiseMs.push(slipMs);
          return time * (1 - percent / 100) + slipMs / 1000;
        });
        const report = gradeTake(hits, target, shared);
        expect(Math.abs((report.driftPercent ?? 99) - percent)).toBeLessThanOrEqual(0.1);
        expect(Math.abs((report.tempoBpm ?? 0) / (100 / (1 - percent / 100)) - 1)).toBeLessThanOrEqual(0.001);
        expect(Math.abs((report.spreadMs ?? 99) / meanAndSd(noiseMs).sd - 1)).toBeLessThanOrEqual(0.05);
        // Lean along the take shows what the single figure hides: the last bar is off by the whole drift.
        const lastBar = report.perBar[report.perBar.length - 1];
        expect(Math.sign(lastBar?.leanMs ?? 0)).toBe(-Math.sign(percent));
      }
    },
  );

  test("lean and spread of each beat, each against its own noise", () => {
    const chance = seededChance(9);
    const target = rock(40, 110);
    const leanOf = [0, 14, -6, 9];
    const noiseMs = new Map<number, number[]>();
    const hits = played(target, ({ time, beat }) => {
      const at = beatOfBar(target, beat);
      const slipMs = (leanOf[at - 1] ?? 0) + (6 + 3 * at) * normal(chance);
      noiseMs.set(at, [...(noiseMs.get(at) ?? []), slipMs]);
      return time + slipMs / 1000;
    });
    const report = gradeTake(hits, target, shared);
    expect(report.perBeat.map(({ beat }) => beat)).toEqual([1, 2, 3, 4]);
    for (const { beat, count, leanMs, spreadMs } of report.perBeat) {
      const noise = noiseMs.get(beat) ?? [];
      const truth = meanAndSd(noise);
      expect(count).toBe(noise.length);
      expect(Math.abs((leanMs ?? 99) - truth.mean)).toBeLessThanOrEqual(1);
      // Of some hundred strokes one far out may be taken for a mistake: that alone is 5 to 7 in 100.
      expect(Math.abs((spreadMs ?? 99) / truth.sd - 1)).toBeLessThanOrEqual(0.08);
    }
  });
});
