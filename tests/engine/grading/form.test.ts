/** Slips of the form: bars skipped or added, the groove turned round, late entries, stops, and the one after a fill. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type FormSlip,
  gradeTake,
  grooveTarget,
  type Report,
  type Target,
} from "../../../engine/grading/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { parseGrid } from "../../../engine/score/index.ts";
import { beatSeconds, normal, seededChance } from "../../../engine/units/index.ts";
import { FUNK, played, rock } from "./takes.ts";

const shared = { start: "shared" } as const;

/** Eight bars of rock, the fourth and the eighth with a fill on the toms. */
const WITH_FILLS = parseGrid(`
groove: fills
name: Rock with fills
metre: 4/4
feel: straight
tempo: 80-140

hi-hat-closed | x.x. x.x. x.x. x.x. | x.x. x.x. x.x. x.x. | x.x. x.x. x.x. x.x. | x.x. x.x. .... .... |
snare         | .... x... .... x... | .... x... .... x... | .... x... .... x... | .... x... xxxx .... |
kick          | x... .... x.x. .... | x... .... x.x. .... | x... .... x.x. .... | x... .... x... x... |
high-tom      | .... .... .... .... | .... .... .... .... | .... .... .... .... | .... .... .... xx.. |
floor-tom     | .... .... .... .... | .... .... .... .... | .... .... .... .... | .... .... .... ..xx |
`);

/**
 * The page played in order of `path`: stretches of written beats, one after the other in the take's own beats, with
 * `spreadMs` of chance. A stretch may be silence.
 */
function along(
  target: Target,
  path: readonly { readonly from: number; readonly to: number; readonly silent?: true }[],
  spreadMs = 10,
  seed = 1,
): readonly Hit[] {
  const chance = seededChance(seed);
  const beat = beatSeconds(target.tempoBpm);
  let now = 0;
  return path
    .flatMap(({ from, to, silent }) => {
      const shift = (now - from) * beat;
      now += to - from;
      return silent
        ? []
        : played(target, (note) =>
            note.beat >= from - 1e-6 && note.beat < to - 1e-6
              ? note.time + shift + (spreadMs / 1000) * normal(chance)
              : undefined,
          );
    })
    .sort((a, b) => a.time - b.time);
}

function slips(report: Report): readonly FormSlip[] {
  return report.form.slips;
}

function leftOut(report: Report): number {
  return report.missed.filter(({ skipped }) => !skipped).length;
}

function added(report: Report): number {
  return report.hits.filter((judged) => judged.state === "extra" && !judged.surplus).length;
}

test("a take that keeps the form has no slips", () => {
  for (const target of [rock(16), grooveTarget(FUNK, { tempoBpm: 100, bars: 16 })]) {
    const report = gradeTake(along(target, [{ from: 0, to: 64 }]), target, shared);
    expect(slips(report)).toEqual([]);
  }
});

describe.each([1, 2, 3])("seed %s", (seed) => {
  const target = grooveTarget(WITH_FILLS, { tempoBpm: 100, bars: 16 });

  test("a bar skipped in the middle: one slip, and the rest is as written", () => {
    const hits = along(
      target,
      [
        { from: 0, to: 24 },
        { from: 28, to: 64 },
      ],
      10,
      seed,
    );
    const report = gradeTake(hits, target, shared);
    expect(slips(report)).toMatchObject([{ kind: "bars-dropped", bars: 1 }]);
    // Bars 5 to 7 are alike: where in them the skip happened cannot be heard.
    expect(slips(report)[0]?.bar).toBeGreaterThanOrEqual(5);
    expect(slips(report)[0]?.bar).toBeLessThanOrEqual(8);
    expect({ leftOut: leftOut(report), added: added(report) }).toEqual({ leftOut: 0, added: 0 });
    expect(report.leanMs).toBeCloseTo(0, -1);
  });

  test("a bar added in the middle", () => {
    const hits = along(
      target,
      [
        { from: 0, to: 24 },
        { from: 20, to: 60 },
      ],
      10,
      seed,
    );
    const report = gradeTake(hits, target, shared);
    expect(slips(report)).toMatchObject([{ kind: "bars-added", bars: 1 }]);
    expect(leftOut(report)).toBeLessThanOrEqual(1);
    expect(added(report)).toBeLessThanOrEqual(1);
  });

  test.each([
    {
      what: "a beat skipped",
      path: [
        { from: 0, to: 32 },
        { from: 33, to: 64 },
      ],
      byBeats: -1,
    },
    {
      what: "a beat added",
      path: [
        { from: 0, to: 32 },
        { from: 31, to: 63 },
      ],
      byBeats: 1,
    },
    {
      what: "half a bar",
      path: [
        { from: 0, to: 32 },
        { from: 34, to: 64 },
      ],
      byBeats: -2,
    },
    {
      what: "half a beat skipped",
      path: [
        { from: 0, to: 32 },
        { from: 32.5, to: 64 },
      ],
      byBeats: -0.5,
    },
  ])("the groove turned round: $what from bar 9 on", ({ path, byBeats }) => {
    const report = gradeTake(along(target, path, 10, seed), target, shared);
    expect(slips(report)).toMatchObject([{ kind: "turned-round", byBeats, untilBar: null }]);
    expect(Math.abs((slips(report)[0]?.bar ?? 0) - 9)).toBeLessThanOrEqual(1);
    expect(leftOut(report)).toBeLessThanOrEqual(2);
    expect(added(report)).toBeLessThanOrEqual(2);
    expect(Math.abs(report.leanMs ?? 99)).toBeLessThan(3);
    expect(report.spreadMs).toBeLessThan(13);
  });
});

test("turned round by a beat and back again, in a groove of one bar", () => {
  const target = rock(16);
  const hits = along(target, [
    { from: 0, to: 16 },
    { from: 17, to: 33 },
    { from: 32, to: 64 },
  ]);
  const report = gradeTake(hits, target, shared);
  expect(slips(report)).toMatchObject([{ kind: "turned-round", bar: 5, untilBar: 9 }]);
  expect(leftOut(report)).toBeLessThanOrEqual(2);
});

test("a late entry is an entry, whether the whole comes late or the first beats are missing", () => {
  const target = rock(8);
  const late = gradeTake(
    along(target, [
      { from: 0, to: 1, silent: true },
      { from: 0, to: 31 },
    ]),
    target,
    shared,
  );
  expect(slips(late)).toMatchObject([{ kind: "entry", byBeats: 1 }]);
  const missing = gradeTake(
    along(target, [
      { from: 0, to: 1, silent: true },
      { from: 1, to: 32 },
    ]),
    target,
    shared,
  );
  expect(slips(missing)).toMatchObject([{ kind: "entry", byBeats: 1, strokes: 3 }]);
});

test("an early entry: the whole comes a beat before its time", () => {
  const target = rock(8);
  const early = along(target, [{ from: 0, to: 32 }]).map((hit) => ({ ...hit, time: hit.time - 0.6 }));
  const report = gradeTake(early, target, shared);
  expect(slips(report)).toMatchObject([{ kind: "entry", byBeats: -1 }]);
  expect(Math.abs(report.leanMs ?? 99)).toBeLessThan(3);
});

test("silence for a bar, then on in place", () => {
  const target = rock(8);
  const hits = along(target, [
    { from: 0, to: 12 },
    { from: 12, to: 16, silent: true },
    { from: 16, to: 32 },
  ]);
  const report = gradeTake(hits, target, shared);
  expect(slips(report)).toMatchObject([{ kind: "bars-silent", bar: 4, bars: 1 }]);
});

test.each(["shared", "free"] as const)(
  "a stop of two beats and a third, %s start: the rest is graded from there",
  (start) => {
    const target = grooveTarget(WITH_FILLS, { tempoBpm: 100, bars: 8 });
    const hits = along(target, [
      { from: 0, to: 14 },
      { from: 14, to: 16.37, silent: true },
      { from: 12, to: 28 },
    ]);
    const report = gradeTake(hits, target, { start });
    expect(slips(report)).toMatchObject([{ kind: "stopped", bar: 4, onBar: 4, onBeat: 1 }]);
    expect(report.spreadMs).toBeLessThan(13);
    const matched = report.hits.filter(({ state }) => state === "matched").length;
    expect(matched).toBeGreaterThan(0.9 * hits.length);
  },
);

test("the one after the fill comes late, and only that", () => {
  const target = grooveTarget(WITH_FILLS, { tempoBpm: 100, bars: 8 });
  const chance = seededChance(3);
  const hits = played(target, ({ time, beat }) => time + 0.006 * normal(chance) + (beat === 16 ? 0.05 : 0));
  const report = gradeTake(hits, target, shared);
  expect(slips(report)).toMatchObject([{ kind: "one-off-place", bar: 5, beat: 1, afterFill: true }]);
  const [slip] = slips(report);
  expect(slip?.kind === "one-off-place" ? Math.abs(slip.byMs - 50) : 99).toBeLessThan(8);
});

test("an improvised bar is not a change of place", () => {
  const target = rock(8);
  const fill = Array.from({ length: 16 }, (_, at) => at / 4);
  const hits = [
    ...played(target, ({ time, beat }) => (beat >= 12 && beat < 16 ? undefined : time)),
    ...fill.map((beat) => ({ ...played(target)[0], time: (12 + beat) * 0.6, voice: "snare" }) as Hit),
  ].sort((a, b) => a.time - b.time);
  expect(slips(gradeTake(hits, target, shared)).filter(({ kind }) => kind !== "bars-silent")).toEqual([]);
});

test("law: however the form slips, each hit has one fate and each written stroke is answered once or missed", () => {
  const target = grooveTarget(WITH_FILLS, { tempoBpm: 110, bars: 8 });
  const cut = fc.record({ from: fc.integer({ min: 0, max: 24 }), length: fc.integer({ min: 2, max: 16 }) });
  fc.assert(
    fc.property(
      fc.array(cut, { minLength: 1, maxLength: 4 }),
      fc.integer({ max: 999, min: 0 }),
      (cuts, seed) => {
        const path = cuts.map(({ from, length }) => ({ from, to: from + length }));
        const hits = along(target, path, 14, seed);
        for (const start of ["shared", "free"] as const) {
          const report = gradeTake(hits, target, { start });
          expect(report.hits.map(({ hit }) => hit)).toEqual(hits);
          const answered = report.hits.flatMap((judged) =>
            judged.state === "matched" ? [judged.targetIndex] : [],
          );
          const missed = report.missed.map(({ targetIndex }) => targetIndex);
          expect(new Set([...answered, ...missed]).size).toBe(answered.length + missed.length);
          if (start === "shared") expect(answered.length + missed.length).toBe(target.notes.length);
          for (const judged of report.hits) {
            if (judged.state !== "matched") continue;
            const shown = (judged.hit.time - report.start.time) * 1000 - (judged.slippedMs ?? 0);
            expect(judged.offsetMs).toBeCloseTo(shown - judged.targetTime * report.start.stretch * 1000, 6);
          }
        }
      },
    ),
    { numRuns: 80 },
  );
});
