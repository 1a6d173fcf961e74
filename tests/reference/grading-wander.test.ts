/**
 * Wander against the two-level model (Wing & Kristofferson, Perception & Psychophysics 14 (1973) 5–12) and linear phase
 * correction (Vorberg & Wing 1996), worked values and takes made by the models themselves.
 */
import { describe, expect, test } from "vitest";
import { clockAndLimbs, gradeTake, grooveTarget, type Wander } from "../../engine/grading/index.ts";
import { parseGrid } from "../../engine/score/index.ts";
import { normal, seededChance } from "../../engine/units/index.ts";
import { played } from "../engine/grading/takes.ts";

test.each([
  // Var(I) = σ²_C + 2σ²_M and γ(1) = −σ²_M; rows computed from it.
  { clockMs: 20, limbMs: 10, variance: 600, neighbours: -100, lag1: -0.16667 },
  { clockMs: 0, limbMs: 10, variance: 200, neighbours: -100, lag1: -0.5 },
  { clockMs: 20, limbMs: 0, variance: 400, neighbours: 0, lag1: 0 },
])("clock $clockMs ms and limbs $limbMs ms: correlation $lag1, and back again", (row) => {
  expect(row.neighbours / row.variance).toBeCloseTo(row.lag1, 5);
  const parts = clockAndLimbs(row.variance, row.neighbours);
  expect(parts?.clockMs).toBeCloseTo(row.clockMs, 9);
  expect(parts?.limbMs).toBeCloseTo(row.limbMs, 9);
});

test.each([
  { variance: 600, neighbours: 50, why: "a correlation above 0" },
  { variance: 600, neighbours: -310, why: "a correlation below −0.5" },
])("$why is outside the model, and nothing is forced", ({ variance, neighbours }) => {
  expect(clockAndLimbs(variance, neighbours)).toBeNull();
});

const EIGHTHS = grooveTarget(
  parseGrid(
    "groove: e\nname: Eighths\nmetre: 4/4\nfeel: straight\ntempo: 60-120\n\nhi-hat-closed | xxxxxxxx |",
  ),
  { tempoBpm: 100, bars: 128 },
);

/** Strokes made by the model: ticks of a clock with chance, each stroke late by chance of the limb. */
function twoLevels(clockMs: number, limbMs: number, correction: number | null, seed: number) {
  const chance = seededChance(seed);
  let clock = 0;
  let limb = 0;
  return played(EIGHTHS, ({ time }) => {
    const before = clock + limb;
    clock += clockMs * normal(chance) - (correction ?? 0) * before;
    limb = limbMs * normal(chance);
    return time + 1 + (clock + limb) / 1000;
  }).map((hit) => ({ ...hit, time: hit.time - 1 }));
}

function wanderOf(hits: ReturnType<typeof twoLevels>, start: "shared" | "free"): Wander {
  return gradeTake(hits, EIGHTHS, { start }).wander;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

describe("takes made by the two-level model give their two parts back", () => {
  test.each([
    { clockMs: 12, limbMs: 6 },
    { clockMs: 6, limbMs: 10 },
  ])("clock $clockMs ms, limbs $limbMs ms", ({ clockMs, limbMs }) => {
    const found = Array.from({ length: 12 }, (_, seed) =>
      wanderOf(twoLevels(clockMs, limbMs, null, seed), "free"),
    );
    const told = found.flatMap((wander) => (wander.kind === "clock-and-limbs" ? [wander] : []));
    expect(told.length).toBeGreaterThanOrEqual(11);
    expect(Math.abs(mean(told.map((wander) => wander.clockMs)) / clockMs - 1)).toBeLessThan(0.1);
    expect(Math.abs(mean(told.map((wander) => wander.limbMs)) / limbMs - 1)).toBeLessThan(0.1);
    const lag1 = -(limbMs ** 2) / (clockMs ** 2 + 2 * limbMs ** 2);
    expect(Math.abs(mean(told.map((wander) => wander.lag1)) - lag1)).toBeLessThan(0.03);
  });
});

test("strokes that wander with one another, which no clock and limb explain, are told as outside the model", () => {
  // A slow wave: neighbouring intervals err alike.
  const hits = played(EIGHTHS, ({ time }) => time + 0.06 * Math.sin(time * 1.7));
  expect(wanderOf(hits, "shared")).toMatchObject({ kind: "model-does-not-hold", limb: "hats" });
});

test("a few intervals tell nothing", () => {
  const target = { ...EIGHTHS, notes: EIGHTHS.notes.slice(0, 20) };
  expect(gradeTake(played(target), target, { start: "shared" }).wander).toMatchObject({ kind: "too-few" });
});

test.each([0.25, 0.5])("with a click, a share of correction of %s is found or left untold", (correction) => {
  const found = Array.from({ length: 12 }, (_, seed) =>
    wanderOf(twoLevels(14, 4, correction, seed), "shared"),
  );
  const told = found.flatMap((wander) =>
    wander.kind !== "too-few" && wander.correction !== null ? [wander.correction] : [],
  );
  expect(told.length).toBeGreaterThanOrEqual(6);
  expect(Math.abs(mean(told) - correction)).toBeLessThan(0.08);
});

test("without a click nothing is said of correction", () => {
  expect(wanderOf(twoLevels(12, 6, null, 3), "free")).toMatchObject({ correction: null });
});
