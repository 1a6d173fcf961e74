import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Grader, gradeTake, grooveTarget, type Report, type Target } from "../../../engine/grading/index.ts";
import { type Hit, VOICES } from "../../../engine/kit/index.ts";
import { normal, seededChance } from "../../../engine/units/index.ts";
import { FUNK, played, rock, SHUFFLE, strike } from "./takes.ts";

const shared = { start: "shared" } as const;
const free = { start: "free" } as const;

function count(report: Report, state: Report["hits"][number]["state"]): number {
  return report.hits.filter((judged) => judged.state === state).length;
}

function offsets(report: Report): number[] {
  return report.hits.flatMap((judged) => (judged.state === "matched" ? [judged.offsetMs] : []));
}

function pairs(report: Report): (number | undefined)[] {
  return report.hits.map((judged) => ("targetIndex" in judged ? judged.targetIndex : undefined));
}

describe("laws of every take, however wild", () => {
  const target = grooveTarget(FUNK, { tempoBpm: 96, bars: 2 });
  const anyHit = fc.record({
    time: fc.double({ min: -1, max: 7, noNaN: true }),
    voice: fc.constantFrom(...VOICES),
    velocity: fc.double({ min: 0.01, max: 1, noNaN: true }),
  });
  const anyTake = fc
    .tuple(fc.array(anyHit, { maxLength: 40 }), fc.array(fc.boolean(), { minLength: 60, maxLength: 60 }))
    .map(([wild, kept]) => {
      const tame = played(target).filter((_, at) => kept[at % kept.length]);
      return [...tame, ...wild.map(({ time, voice, velocity }) => strike(time, voice, velocity))].sort(
        (a, b) => a.time - b.time,
      );
    });
  const anyStart = fc.constantFrom(shared, free);

  test("each hit has one fate and each note is answered at most once", () => {
    fc.assert(
      fc.property(anyTake, anyStart, (hits, start) => {
        const report = gradeTake(hits, target, start);
        expect(report.hits.map(({ hit }) => hit)).toEqual(hits);
        expect(
          count(report, "matched") +
            count(report, "grace") +
            count(report, "extra") +
            count(report, "retrigger"),
        ).toBe(hits.length);
        const answered = report.hits.flatMap((judged) =>
          judged.state === "matched" ? [judged.targetIndex] : [],
        );
        const missed = report.missed.map(({ targetIndex }) => targetIndex);
        expect(new Set([...answered, ...missed]).size).toBe(answered.length + missed.length);
        if (start === shared) expect(answered.length + missed.length).toBe(target.notes.length);
      }),
      { numRuns: 150 },
    );
  });

  test("every voice: written = as written + other sound + left out", () => {
    fc.assert(
      fc.property(anyTake, anyStart, (hits, start) => {
        const report = gradeTake(hits, target, start);
        for (const { written, asWritten, otherSound, leftOut } of report.voices) {
          const others = otherSound.reduce((sum, other) => sum + other.count, 0);
          expect(asWritten + others + leftOut).toBe(written);
        }
        const added = report.voices.reduce((sum, voice) => sum + voice.added, 0);
        const surplus = report.hits.filter((judged) => judged.state === "extra" && judged.surplus).length;
        expect(added + surplus).toBe(count(report, "extra"));
      }),
      { numRuns: 150 },
    );
  });

  test("a take heard hit by hit, with reports asked for on the way, ends in the same report", () => {
    fc.assert(
      fc.property(anyTake, anyStart, (hits, start) => {
        const grader = new Grader(target, start);
        for (const [at, hit] of hits.entries()) {
          grader.hear(hit);
          if (at % 7 === 0) grader.report(hit.time);
        }
        expect(grader.report()).toEqual(gradeTake(hits, target, start));
      }),
      { numRuns: 50 },
    );
  });
});

test("shifting a take by d ms shifts every offset by d and changes no pair", () => {
  const target = grooveTarget(FUNK, { tempoBpm: 96, bars: 4 });
  fc.assert(
    fc.property(fc.integer({ min: -45, max: 45 }), fc.integer(), (shiftMs, seed) => {
      const chance = seededChance(seed);
      const hits = played(target, ({ time }) => time + 0.008 * normal(chance));
      const before = gradeTake(hits, target, shared);
      const after = gradeTake(
        hits.map((hit) => ({ ...hit, time: hit.time + shiftMs / 1000 })),
        target,
        shared,
      );
      expect(pairs(after)).toEqual(pairs(before));
      offsets(after).forEach((offset, at) => {
        expect(offset).toBeCloseTo((offsets(before)[at] ?? 0) + shiftMs, 6);
      });
    }),
    { numRuns: 60 },
  );
});

test.each([
  { what: "rock", target: rock(4) },
  { what: "funk", target: grooveTarget(FUNK, { tempoBpm: 100, bars: 4 }) },
  { what: "shuffle", target: grooveTarget(SHUFFLE, { tempoBpm: 120, bars: 4 }) },
])("a perfect take of $what matches all, leans by nothing and leaves nothing to work on", ({ target }) => {
  for (const start of [shared, free]) {
    const report = gradeTake(played(target), target, start);
    expect(count(report, "matched")).toBe(target.notes.length);
    expect(report.missed).toEqual([]);
    expect(report.leanMs).toBeCloseTo(0, 6);
    expect(report.spreadMs).toBeCloseTo(0, 6);
    expect(report.tempoBpm).toBeCloseTo(target.tempoBpm, 6);
    expect(report.driftPercent).toBeCloseTo(0, 6);
    expect(report.voiceAccuracy).toBe(1);
    expect(report.workOn).toEqual({ kind: "nothing" });
  }
});

test("silence leaves everything out with a shared start and says nothing with a free one", () => {
  const target = rock(2);
  const silent = gradeTake([], target, shared);
  expect(silent.missed).toHaveLength(target.notes.length);
  expect(silent).toMatchObject({
    leanMs: null,
    spreadMs: null,
    tempoBpm: null,
    driftPercent: null,
    swingRatio: null,
  });
  expect(silent.workOn).toEqual({ kind: "no-match" });
  expect(gradeTake([], target, free)).toMatchObject({ missed: [], voiceAccuracy: null });
});

test("of a few strokes neither tempo nor drift is told", () => {
  const target = rock(2);
  const report = gradeTake(played(target).slice(0, 5), target, shared);
  expect(count(report, "matched")).toBe(5);
  expect(report).toMatchObject({ tempoBpm: null, driftPercent: null });
});

test("a take still running has not left out what is yet to come", () => {
  const target = rock(4, 120);
  const grader = new Grader(target, shared);
  for (const hit of played(target).filter(({ time }) => time < 2)) grader.hear(hit);
  expect(grader.report(2 - 1e-6).missed).toEqual([]);
  expect(grader.report().missed).toHaveLength(target.notes.filter(({ time }) => time >= 2).length);
});

test("a double trigger is neither added nor aligned", () => {
  const target = rock(1);
  const hits = played(target).flatMap((hit) =>
    hit.voice === "snare" ? [hit, { ...hit, time: hit.time + 0.006, velocity: hit.velocity * 0.2 }] : [hit],
  );
  const report = gradeTake(
    hits.sort((a, b) => a.time - b.time),
    target,
    shared,
  );
  expect(count(report, "retrigger")).toBe(2);
  expect(count(report, "extra")).toBe(0);
  expect(report.missed).toEqual([]);
});

test.each([
  { heard: "mid-tom", what: "a tom where the snare is written" },
  { heard: "cross-stick", what: "a cross-stick where the snare is written" },
] as const)("$what is another sound, not a left-out and an added one", ({ heard }) => {
  const target = rock(2);
  const hits = played(target).map((hit) => (hit.voice === "snare" ? strike(hit.time + 0.03, heard) : hit));
  const report = gradeTake(hits, target, shared);
  expect(report.voices.find(({ voice }) => voice === "snare")).toMatchObject({
    written: 4,
    asWritten: 0,
    otherSound: [{ voice: heard, count: 4 }],
    leftOut: 0,
  });
  expect(count(report, "extra")).toBe(0);
  expect(report.workOn).toEqual({ kind: "other-sound", voice: "snare", heard, count: 4 });
});

describe("with a shared clock the player is followed", () => {
  const grooves = [
    { what: "funk sixteenths at 110", target: grooveTarget(FUNK, { tempoBpm: 110, bars: 16 }) },
    { what: "rock eighths at 70", target: rock(10, 70) },
    { what: "shuffle at 140", target: grooveTarget(SHUFFLE, { tempoBpm: 140, bars: 20 }) },
  ];
  const ways = [0.02, -0.02, 0.01, 0].flatMap((drift) => [0.06, -0.06, 0].map((lean) => ({ drift, lean })));
  test.each(grooves.flatMap((groove) => ways.map((way) => ({ ...groove, ...way }))))(
    "$what, drifting by $drift from $lean s",
    ({ target, drift, lean }) => {
      for (let seed = 0; seed < 8; seed += 1) {
        const chance = seededChance(seed);
        const hits = played(target, ({ time }) => time * (1 + drift) + lean + 0.012 * normal(chance));
        const report = gradeTake(hits, target, shared);
        expect(count(report, "matched")).toBe(target.notes.length);
        expect(wrongPairs(hits, report, target, ({ time }) => time * (1 + drift) + lean)).toBe(0);
        expect(report.driftPercent).toBeCloseTo(-100 * drift, 0);
      }
    },
  );
});

test("a steady drift of 3 in 100 is followed without falling behind, slips and all", () => {
  const target = grooveTarget(FUNK, { tempoBpm: 100, bars: 16 });
  for (const sign of [-1, 1]) {
    for (let seed = 0; seed < 10; seed += 1) {
      const chance = seededChance(seed);
      const hits = played(target, ({ time }) =>
        chance() < 0.05 ? undefined : time * (1 + sign * 0.03) + sign * 0.05 + 0.02 * normal(chance),
      );
      const report = gradeTake(hits, target, shared);
      expect(count(report, "matched")).toBe(hits.length);
      expect(report.driftPercent).toBeCloseTo(-sign * 3, 0);
    }
  }
});

/** Pairs more than 80 ms from where that note was meant to be played. */
function wrongPairs(
  hits: readonly Hit[],
  report: Report,
  target: Target,
  meant: (note: Target["notes"][number]) => number,
): number {
  return report.hits.filter((judged, at) => {
    if (judged.state !== "matched") return false;
    const note = target.notes[judged.targetIndex];
    return note && Math.abs((hits[at]?.time ?? 0) - meant(note)) > 0.08;
  }).length;
}
