import { expect, test } from "vitest";
import { gradeTake, grooveTarget } from "../../../engine/grading/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { parseGrid } from "../../../engine/score/index.ts";
import { strike } from "./takes.ts";

const FLAMS = parseGrid(`
groove: flams
name: Flams and drags
metre: 4/4
feel: straight
tempo: 60-120

snare | f... x... d... x... |
kick  | x... .... x... .... |
`);
const target = grooveTarget(FLAMS, { tempoBpm: 60, bars: 1 });

/** Main strokes at their places plus `lateMs`, with soft strokes so many milliseconds before flam and drag. */
function take(flamGapsMs: readonly number[], dragGapsMs: readonly number[], lateMs = 0): Hit[] {
  const mains = target.notes.map(({ time, voice }) => strike(time + lateMs / 1000, voice));
  const soft = (at: number) => (gapMs: number) => strike(at + (lateMs - gapMs) / 1000, "snare", 0.2);
  return [...mains, ...flamGapsMs.map(soft(0)), ...dragGapsMs.map(soft(2))].sort((a, b) => a.time - b.time);
}

function states(hits: readonly Hit[]): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const { state } of gradeTake(hits, target, { start: "shared" }).hits)
    counts[state] = (counts[state] ?? 0) + 1;
  return counts;
}

test.each([
  {
    what: "flam and drag as written",
    flam: [30],
    drag: [40, 80],
    lateMs: 0,
    expected: { matched: 6, grace: 3 },
  },
  { what: "no soft strokes at all", flam: [], drag: [], lateMs: 0, expected: { matched: 6 } },
  {
    what: "a drag with one soft stroke",
    flam: [25],
    drag: [50],
    lateMs: 0,
    expected: { matched: 6, grace: 2 },
  },
  {
    what: "a flam with two: one too many",
    flam: [30, 60],
    drag: [],
    lateMs: 0,
    expected: { matched: 6, grace: 1, extra: 1 },
  },
  {
    what: "the shortest and the longest gap",
    flam: [10],
    drag: [90],
    lateMs: 0,
    expected: { matched: 6, grace: 2 },
  },
  {
    what: "a soft stroke too far ahead",
    flam: [95],
    drag: [],
    lateMs: 0,
    expected: { matched: 6, extra: 1 },
  },
  {
    what: "late, so that the soft stroke is nearer to the place",
    flam: [40],
    drag: [45, 85],
    lateMs: 50,
    expected: { matched: 6, grace: 3 },
  },
])("$what", ({ flam, drag, lateMs, expected }) => {
  expect(states(take(flam, drag, lateMs))).toEqual(expected);
});

test("a late flam is late by its main stroke", () => {
  const report = gradeTake(take([40], [], 50), target, { start: "shared" });
  expect(report.leanMs).toBeCloseTo(50, 6);
});

test("flams are counted, drags are not, and the gap is from soft to main stroke", () => {
  const report = gradeTake(take([28], [40, 80]), target, { start: "shared" });
  expect(report.flams.written).toBe(1);
  expect(report.flams.played).toBe(1);
  expect(report.flams.gapMs).toBeCloseTo(28, 6);
  expect(gradeTake(take([], []), target, { start: "shared" }).flams).toEqual({
    written: 1,
    played: 0,
    gapMs: null,
  });
});

test("where no ornament is written a soft stroke before the main one is added", () => {
  const hits = [...take([], []), strike(1 - 0.03, "snare", 0.2)].sort((a, b) => a.time - b.time);
  expect(states(hits)).toEqual({ matched: 6, extra: 1 });
});
