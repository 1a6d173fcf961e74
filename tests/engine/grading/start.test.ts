import { describe, expect, test } from "vitest";
import { gradeTake, grooveTarget, strokesTarget, type Target } from "../../../engine/grading/index.ts";
import { FOUR_FOUR } from "../../../engine/score/index.ts";
import { normal, seededChance } from "../../../engine/units/index.ts";
import { FUNK, played, rock, SHUFFLE } from "./takes.ts";

const free = { start: "free" } as const;

describe("a free start finds where the player came in and how fast", () => {
  const targets: { what: string; target: Target; repeatBeats: number }[] = [
    { what: "rock", target: rock(24), repeatBeats: 4 },
    { what: "funk", target: grooveTarget(FUNK, { tempoBpm: 96, bars: 24 }), repeatBeats: 8 },
    { what: "shuffle", target: grooveTarget(SHUFFLE, { tempoBpm: 130, bars: 24 }), repeatBeats: 2 },
  ];
  const stretches = [0.93, 0.97, 1, 1.034, 1.07];
  test.each(targets.flatMap((target) => stretches.map((stretch) => ({ ...target, stretch }))))(
    "$what, stretched by $stretch",
    ({ target, stretch, repeatBeats }) => {
      for (let seed = 0; seed < 6; seed += 1) {
        const chance = seededChance(seed);
        const fromBeat = Math.floor(chance() * 16);
        const toBeat = fromBeat + 16 + Math.floor(chance() * 24);
        const hits = played(target, ({ time, beat }) => {
          const slip = 0.012 * normal(chance);
          const left = chance() < 0.04;
          return beat < fromBeat || beat >= toBeat || left ? undefined : 300 + time * stretch + slip;
        });
        const report = gradeTake(hits, target, free);
        const matched = report.hits.filter(({ state }) => state === "matched").length;
        expect(matched).toBeGreaterThanOrEqual(hits.length - 1);
        expect(report.tempoBpm).toBeCloseTo(target.tempoBpm / stretch, 0);
        // Same place of the bar: beats that the groove tells apart are not mistaken for one another.
        const startBeats = ((300 - report.start.time) * target.tempoBpm) / 60 / stretch;
        expect(Math.abs(startBeats / repeatBeats - Math.round(startBeats / repeatBeats))).toBeLessThan(0.03);
      }
    },
  );
});

describe("a tempo that changes all along is followed from the beginning of the take", () => {
  const targets = [
    { what: "rock", target: rock(20) },
    { what: "funk", target: grooveTarget(FUNK, { tempoBpm: 96, bars: 20 }) },
    { what: "shuffle", target: grooveTarget(SHUFFLE, { tempoBpm: 130, bars: 20 }) },
  ];
  const gains = [0.05, 0.03, -0.03, -0.05];
  test.each(targets.flatMap((target) => gains.map((gain) => ({ ...target, gain }))))(
    "$what, gaining $gain",
    ({ target, gain }) => {
      const end = target.notes.at(-1)?.time ?? 1;
      const chance = seededChance(12);
      // Tempo at the end is (1 + gain) times that of the beginning.
      const hits = played(
        target,
        ({ time }) => 40 + time - (gain * time ** 2) / (2 * end) + 0.01 * normal(chance),
      );
      const report = gradeTake(hits, target, free);
      const matched = report.hits.filter(({ state }) => state === "matched").length;
      expect(matched).toBeGreaterThanOrEqual(hits.length - 1);
      expect(report.missed.length).toBeLessThanOrEqual(1);
      expect(report.voiceAccuracy).toBeGreaterThan(0.995);
      expect(Math.abs((report.driftPercent ?? 0) - 100 * gain)).toBeLessThan(0.5);
    },
  );
});

test("of starts that fit equally well the earliest is taken", () => {
  const target = rock(40);
  const hits = played(target, ({ time, beat }) => (beat >= 20 && beat < 36 ? time : undefined));
  const report = gradeTake(hits, target, free);
  const first = report.hits[0];
  expect(first?.state === "matched" ? target.notes[first.targetIndex]?.beat : undefined).toBe(0);
  expect(report.missed).toEqual([]);
  expect(report.perBar).toHaveLength(4);
});

test("what was never reached is not left out, what was skipped on the way is", () => {
  const target = rock(12);
  const hits = played(target, ({ time, beat, voice }) =>
    beat >= 16 || (beat === 5 && voice === "snare") ? undefined : 7 + time,
  );
  const report = gradeTake(hits, target, free);
  expect(report.missed.map(({ targetIndex }) => target.notes[targetIndex]?.beat)).toEqual([5]);
});

test("in a part that does not repeat the take is found where it is", () => {
  // A line of its own: two minutes of snare, kick and tom strokes at random eighths.
  const chance = seededChance(77);
  const strokes = Array.from({ length: 480 }, (_, at) => at / 4).flatMap((time) =>
    (["snare", "kick", "floor-tom"] as const)
      .filter(() => chance() < 0.3)
      .map((voice) => ({ time, voice, dynamic: "plain" as const })),
  );
  const part = strokesTarget("A part", strokes, { tempoBpm: 120, metre: FOUR_FOUR });
  for (const from of [0, 20, 61.5, 100]) {
    const hits = played(part, ({ time }) =>
      time >= from && time < from + 15 ? 40 + (time - from) * 0.95 + 0.01 * normal(chance) : undefined,
    );
    const { start, hits: judged } = gradeTake(hits, part, free);
    expect(judged.every(({ state }) => state === "matched")).toBe(true);
    expect(start.stretch).toBeCloseTo(0.95, 2);
    expect(start.time).toBeCloseTo(40 - from * 0.95, 0);
  }
});

test("a busy passage elsewhere in a part does not draw the take away from its place", () => {
  // Random eighths on three drums, and nine seconds in which all three are struck at each, in flams: there every
  // hit of the take finds two strokes, at its own place only one.
  const chance = seededChance(78);
  const strokes = Array.from({ length: 480 }, (_, at) => at / 4).flatMap((time) => {
    const isBusy = time >= 60 && time < 69;
    return (["snare", "kick", "floor-tom"] as const)
      .filter(() => isBusy || chance() < 0.5)
      .flatMap((voice) => (isBusy ? [time, time + 0.02] : [time]).map((at) => ({ time: at, voice })));
  });
  strokes.sort((a, b) => a.time - b.time);
  const written = strokes.map((stroke) => ({ ...stroke, dynamic: "plain" as const }));
  const part = strokesTarget("A part", written, { tempoBpm: 120, metre: FOUR_FOUR });
  for (const from of [10, 30, 80, 100]) {
    const hits = played(part, ({ time }) =>
      time >= from && time < from + 15 ? 6 + (time - from) * 1.02 + 0.01 * normal(chance) : undefined,
    );
    const { start } = gradeTake(hits, part, free);
    expect(start.time, `from ${from}`).toBeCloseTo(6 - from * 1.02, 0);
    expect(start.stretch).toBeCloseTo(1.02, 2);
  }
});

test("a free start absorbs a constant lean but not the lean of one beat", () => {
  const target = rock(8);
  const hits = played(
    target,
    ({ time, beat, voice }) => time + 0.03 + (voice === "snare" && beat % 4 === 3 ? 0.025 : 0),
  );
  const report = gradeTake(hits, target, free);
  expect(Math.abs(report.leanMs ?? 99)).toBeLessThan(2);
  expect(report.workOn).toMatchObject({ kind: "beat-leans", voice: "snare", beat: 4 });
  const leanMs = report.workOn.kind === "beat-leans" ? report.workOn.leanMs : 0;
  expect(leanMs).toBeGreaterThan(22);
  expect(leanMs).toBeLessThan(26);
});

test("with a free start drift is the change of tempo from beginning to end", () => {
  const target = rock(16);
  const length = target.notes[target.notes.length - 1]?.time ?? 0;
  // The seconds shrink evenly by 2 in 100 over the take: played(t) = t − 0.01·t²/length.
  const hits = played(target, ({ time }) => 3 + time - (0.01 * time ** 2) / length);
  expect(gradeTake(hits, target, free).driftPercent).toBeCloseTo(2, 1);
});
