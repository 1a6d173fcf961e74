/**
 * The alignment against the best assignment there is (Kuhn, Naval Research Logistics Quarterly 2 (1955); Munkres,
 * J. SIAM 5 (1957)), as found by the package munkres-js.
 */
import munkres from "munkres-js";
import { describe, expect, test } from "vitest";
import {
  Aligner,
  align,
  GAP,
  type PairCost,
  type Slot,
  type Sounded,
  slotCost,
  WITHIN_FAMILY,
} from "../../engine/grading/index.ts";
import type { Voice } from "../../engine/kit/index.ts";
import { type Chance, normal, seededChance } from "../../engine/units/index.ts";

function total(slots: readonly Slot<Sounded, Sounded>[], cost: PairCost): number {
  return slots.reduce((sum, slot) => sum + slotCost(slot, cost), 0);
}

function assignedTotal(costs: readonly (readonly number[])[]): number {
  return munkres(costs).reduce((sum, [row, column]) => sum + (costs[row]?.[column] ?? Number.NaN), 0);
}

/** Hits by notes, with a dummy column for every hit left over and a dummy row for every note left out. */
function bestTotal(notes: readonly Sounded[], hits: readonly Sounded[], cost: PairCost): number {
  const rows = [
    ...hits.map((hit) => [...notes.map((note) => slotCost({ hit, note }, cost)), ...hits.map(() => GAP)]),
    ...notes.map(() => [...notes.map(() => GAP), ...hits.map(() => 0)]),
  ];
  return rows.length === 0 ? 0 : assignedTotal(rows);
}

/** Munkres's worked matrices: SciPy reference; `munkres` for Python; an encyclopedia article. Only totals are tested. */
test.each([
  {
    costs: [
      [4, 1, 3],
      [2, 0, 5],
      [3, 2, 2],
    ],
    least: 5,
  },
  {
    costs: [
      [5, 9, 1],
      [10, 3, 2],
      [8, 7, 4],
    ],
    least: 12,
  },
  {
    costs: [
      [8, 4, 7],
      [5, 2, 3],
      [9, 4, 8],
    ],
    least: 15,
  },
])("the yardstick itself finds a total of $least", ({ costs, least }) => {
  expect(assignedTotal(costs)).toBe(least);
});

test("the greedy trap: nearest first costs 205 ms, the best pairing 115 ms", () => {
  // Computed: notes at 0 and 100 ms, hits at −60 and 45 ms; 60 + 55 against 45 + 160.
  const wide: PairCost = { scaleSeconds: 0.1, otherVoice: 0 };
  const notes: Sounded[] = [0, 0.1].map((time) => ({ time, voice: "snare" }));
  const hits: Sounded[] = [-0.06, 0.045].map((time) => ({ time, voice: "snare" }));
  const slots = align(notes, hits, wide);
  expect(total(slots, wide) * wide.scaleSeconds * 1000).toBeCloseTo(115, 9);
  expect(slots.map(({ hit, note }) => [hit?.time, note?.time])).toEqual([
    [-0.06, 0],
    [0.045, 0.1],
  ]);
});

const TOMS: readonly Voice[] = ["high-tom", "mid-tom", "floor-tom"];
const CYMBALS: readonly Voice[] = ["ride", "crash-left", "crash-right"];
const HATS: readonly Voice[] = ["hi-hat-closed", "hi-hat-open"];

interface Case {
  readonly notes: readonly Sounded[];
  readonly hits: readonly Sounded[];
}

/** A written line with single, double and triple strokes, played with slips. */
function slippedCase(chance: Chance, voices: readonly Voice[], intervalSeconds: number): Case {
  const pick = () => voices[Math.floor(chance() * voices.length)] ?? "unknown";
  const notes: Sounded[] = [];
  for (let place = 0; place < 10; place += 1) {
    if (chance() < 0.25) continue;
    const many = chance() < 0.3 ? 2 + Math.floor(chance() * (voices.length - 1)) : 1;
    const chord = voices.length > 2 ? many : Math.min(many, 2);
    const these = new Set(Array.from({ length: chord }, pick));
    for (const voice of these) notes.push({ time: place * intervalSeconds, voice });
  }
  const hits: Sounded[] = [];
  for (const { time, voice } of notes) {
    if (chance() < 0.1) continue;
    hits.push({ time: time + 0.02 * normal(chance), voice: chance() < 0.1 ? pick() : voice });
    if (chance() < 0.08) hits.push({ time: time + (chance() - 0.5) * 2 * intervalSeconds, voice: pick() });
  }
  return { notes, hits: hits.sort((a, b) => a.time - b.time) };
}

describe("within a family the alignment costs what the best assignment costs", () => {
  test.each([
    { what: "toms in sixteenths at 100", voices: TOMS, intervalSeconds: 0.15 },
    { what: "toms in sixteenths at 160", voices: TOMS, intervalSeconds: 0.09375 },
    { what: "cymbals in eighths at 120", voices: CYMBALS, intervalSeconds: 0.25 },
    { what: "hi-hats in sixteenths at 125", voices: HATS, intervalSeconds: 0.12 },
  ])("$what", ({ what, voices, intervalSeconds }) => {
    const chance = seededChance(1955);
    let ours = 0;
    let best = 0;
    let exact = 0;
    const cases = 200;
    for (let round = 0; round < cases; round += 1) {
      const { notes, hits } = slippedCase(chance, voices, intervalSeconds);
      const cost = total(align(notes, hits, WITHIN_FAMILY), WITHIN_FAMILY);
      const least = bestTotal(notes, hits, WITHIN_FAMILY);
      expect(cost).toBeGreaterThanOrEqual(least - 1e-9);
      ours += cost;
      best += least;
      if (cost <= least + 1e-9) exact += 1;
    }
    console.info(`${what}: ${exact} of ${cases} exactly the best, total ${(ours / best).toFixed(6)} of it`);
    expect(best / ours).toBeGreaterThanOrEqual(0.999);
    expect(exact / cases).toBeGreaterThanOrEqual(0.99);
  });
});

test("settling early loses nothing: a long line costs what the whole table of the sequences costs", () => {
  // Needleman & Wunsch 1970, the table in full, one voice so that no order has to be repaired.
  const chance = seededChance(1970);
  for (let round = 0; round < 40; round += 1) {
    const { notes, hits } = slippedCase(chance, ["snare"], 0.06 + 0.2 * chance());
    const aligner = new Aligner<Sounded, Sounded>(notes, WITHIN_FAMILY);
    for (const hit of hits) {
      aligner.hear(hit);
      aligner.finish();
    }
    expect(total(aligner.finish(), WITHIN_FAMILY)).toBeCloseTo(tableTotal(notes, hits), 9);
  }
});

function tableTotal(notes: readonly Sounded[], hits: readonly Sounded[]): number {
  let row = Array.from({ length: notes.length + 1 }, (_, at) => at * GAP);
  for (const hit of hits) {
    const next = [(row[0] ?? 0) + GAP];
    notes.forEach((note, at) => {
      const paired = (row[at] ?? 0) + slotCost({ hit, note }, WITHIN_FAMILY);
      next.push(Math.min(paired, (row[at + 1] ?? 0) + GAP, (next[at] ?? 0) + GAP));
    });
    row = next;
  }
  return row[row.length - 1] ?? 0;
}
