import * as fc from "fast-check";
import { expect, test } from "vitest";
import { gradeTake, grooveTarget } from "../../../../../engine/grading/index.ts";
import type { Hit } from "../../../../../engine/kit/index.ts";
import { type Groove, parseGrid, performed } from "../../../../../engine/score/index.ts";
import { writtenMarks } from "../../../../../renderer/charts/ringGeometry.ts";
import { placeMeans } from "../../../../../renderer/screens/call-a-style/report/placeMeans.ts";

const TEMPO_BPM = 100;
const BAR_MS = 2400;
const BARS = 8;
const BAND_MS = 30;
const groove: Groove = parseGrid(
  "groove: plain\nname: Plain\nmetre: 4/4\nfeel: straight\ntempo: 80-120\n\nride | x.x. x.x. x.x. x.x. |\nkick | x... .... x... .... |",
);

/** Each stroke as late as `lateMs` says, for its place among the notes of the bar and its bar. */
function meansOf(lateMs: (note: number, bar: number) => number) {
  const notes = groove.notes.length;
  const hits = performed(groove, { tempoBpm: TEMPO_BPM, bars: BARS })
    .map(({ time, note }, index): Hit => {
      const late = lateMs(index % notes, Math.floor(index / notes));
      return { time: time + late / 1000, voice: note.voice, zone: "whole", velocity: 0.6, pad: 38 };
    })
    .sort((a, b) => a.time - b.time);
  const target = grooveTarget(groove, { tempoBpm: TEMPO_BPM, bars: BARS });
  return placeMeans(gradeTake(hits, target, { start: "shared" }), groove, BAND_MS);
}

test("exactly as written, every mean stands on its circle, without an arc, and none differs", () => {
  const means = meansOf(() => 0);
  expect(means.map(({ voice }) => voice)).toEqual(writtenMarks(groove).map(({ voice }) => voice));
  for (const [at, mark] of writtenMarks(groove).entries()) {
    expect(means[at]?.place).toBeCloseTo(mark.place, 6);
    expect(means[at]?.spread).toBeCloseTo(0, 6);
  }
  expect(means.some(({ differs }) => differs)).toBe(false);
});

test("one stroke that always comes late moves its own mean alone, by its share of the bar", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 9 }),
      fc.double({ min: 2, max: 28, noNaN: true }),
      (late, lateMs) => {
        const means = meansOf((note) => (note === late ? lateMs : 0));
        for (const [at, mark] of writtenMarks(groove).entries()) {
          const expected = mark.place + (at === late ? lateMs / BAR_MS : 0);
          expect(means[at]?.place).toBeCloseTo(expected, 4);
        }
      },
    ),
    { numRuns: 25 },
  );
});

test("the arc is one standard deviation of the place", () => {
  // ±10 ms in turn: a standard deviation of 10 · √(8/7).
  const means = meansOf((note, bar) => (note === 3 ? (bar % 2 === 0 ? 10 : -10) : 0));
  expect(means[3]?.spread).toBeCloseTo((10 * Math.sqrt(8 / 7)) / BAR_MS, 4);
});

test("a mean outside the band about the take’s own lean differs", () => {
  expect(meansOf((note) => (note === 5 ? 45 : 0)).map(({ differs }) => differs)).toEqual(
    groove.notes.map((_, note) => note === 5),
  );
  expect(meansOf(() => 45).some(({ differs }) => differs)).toBe(false);
});

test("a drift does not smear the places: it has a chart of its own", () => {
  // 12 ms later with every bar: half of one in a hundred lost, against the click.
  const means = meansOf((note, bar) => 12 * (bar + note / groove.notes.length));
  for (const { spread } of means) expect((spread ?? 1) * BAR_MS).toBeLessThan(3);
});
