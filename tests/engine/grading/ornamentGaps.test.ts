import { expect, test } from "vitest";
import { gradeTake, grooveTarget, ornamentWords } from "../../../engine/grading/index.ts";
import { parseGrid } from "../../../engine/score/index.ts";
import { played, withGraces } from "./takes.ts";

const GROOVE = parseGrid(`
groove: graces
name: Flams and drags
metre: 4/4
feel: straight
tempo: 60-120

snare | f... x... d... x... |
`);
const target = grooveTarget(GROOVE, { tempoBpm: 80, bars: 4 });

function ornaments(gapMs: number) {
  return gradeTake(withGraces(target, played(target), gapMs), target, { start: "shared" }).ornaments;
}

test.each([
  // Flams 20 to 40 ms, drag strokes 30 to 60 ms (common practice, no source), each widened by the 6 ms nobody hears.
  { gapMs: 12, flam: "too-tight", drag: "too-tight" },
  { gapMs: 15, flam: "as-written", drag: "too-tight" },
  { gapMs: 30, flam: "as-written", drag: "as-written" },
  { gapMs: 44, flam: "as-written", drag: "as-written" },
  { gapMs: 50, flam: "too-open", drag: "as-written" },
])("graces $gapMs ms apart: flam $flam, drag $drag", ({ gapMs, flam, drag }) => {
  const [flams, drags] = ornaments(gapMs);
  expect(flams?.each.map(({ place }) => place)).toEqual(new Array(4).fill(flam));
  expect(flams?.gapMs).toBeCloseTo(gapMs, 6);
  // Of a drag both gaps count, where both strokes are near enough to belong to it.
  expect(drags?.each.every(({ place }) => place === drag)).toBe(true);
  expect(drags?.each[0]).toMatchObject({ bar: 1, beat: 3, voice: "snare" });
});

test("without graces nothing is measured, and it is said", () => {
  const [flams, drags] = gradeTake(played(target), target, { start: "shared" }).ornaments;
  expect(flams).toMatchObject({ noGrace: 4, gapMs: null });
  expect(drags).toMatchObject({ noGrace: 4, gapMs: null });
});

test("flams in words", () => {
  const figures = {
    ornament: "flam",
    asWritten: 3,
    tooTight: 1,
    tooOpen: 0,
    noGrace: 2,
    gapMs: 24.3,
    each: [],
  } as const;
  expect(ornamentWords(figures)).toBe(
    "Flams: 3 as written, 1 too tight, 2 without a grace stroke; 24 ms on average.",
  );
});
