import fc from "fast-check";
import { expect, test } from "vitest";
import {
  ACROSS_FAMILIES,
  Aligner,
  align,
  type Sounded,
  slotCost,
  WITHIN_FAMILY,
} from "../../../engine/grading/index.ts";
import type { Voice } from "../../../engine/kit/index.ts";

function at(time: number, voice: Voice): Sounded {
  return { time, voice };
}

const anyLine = fc
  .array(
    fc.record({
      time: fc.double({ min: 0, max: 3, noNaN: true }),
      voice: fc.constantFrom<Voice>("high-tom", "mid-tom", "floor-tom"),
    }),
    { maxLength: 40 },
  )
  .map((line) => line.sort((a, b) => a.time - b.time));

test("each hit and each note stands in exactly one slot, and no pair is dearer than two gaps", () => {
  fc.assert(
    fc.property(anyLine, anyLine, fc.constantFrom(WITHIN_FAMILY, ACROSS_FAMILIES), (notes, hits, cost) => {
      const slots = align(notes, hits, cost);
      expect(new Set(slots.flatMap(({ hit }) => hit ?? []))).toEqual(new Set(hits));
      expect(slots.filter(({ hit }) => hit)).toHaveLength(hits.length);
      expect(slots.filter(({ note }) => note)).toHaveLength(notes.length);
      for (const slot of slots) expect(slotCost(slot, cost)).toBeLessThanOrEqual(2 + 1e-9);
    }),
  );
});

test.each([
  { what: "two toms together", voices: ["high-tom", "floor-tom"] },
  { what: "a crash with a ride", voices: ["crash-left", "ride"] },
] as const)("$what, struck in either order, are each as written", ({ voices: [one, other] }) => {
  const notes = [at(1, one), at(1, other)];
  for (const hits of [
    [at(0.995, one), at(1.005, other)],
    [at(0.995, other), at(1.005, one)],
  ]) {
    const slots = align(notes, hits, WITHIN_FAMILY);
    expect(slots.every(({ hit, note }) => hit?.voice === note?.voice)).toBe(true);
    expect(slots).toHaveLength(2);
  }
});

test("three toms together in the worst order are each as written", () => {
  const notes = [at(1, "high-tom"), at(1, "mid-tom"), at(1, "floor-tom")];
  const hits = [at(0.99, "mid-tom"), at(1, "floor-tom"), at(1.01, "high-tom")];
  for (const { hit, note } of align(notes, hits, WITHIN_FAMILY)) expect(hit?.voice).toBe(note?.voice);
});

test.each([
  { what: "on its own voice", voice: "mid-tom", reachMs: 120 },
  { what: "on another of the family", voice: "high-tom", reachMs: 90 },
] as const)("a stroke $what is found up to $reachMs ms away", ({ voice, reachMs }) => {
  const found = (ms: number) =>
    align([at(1, "mid-tom")], [at(1 + ms / 1000, voice)], WITHIN_FAMILY).some(({ hit, note }) => hit && note);
  for (const sign of [-1, 1]) {
    expect(found(sign * (reachMs - 1))).toBe(true);
    expect(found(sign * (reachMs + 1))).toBe(false);
  }
});

test("a hit is answered at once, as far as can be told", () => {
  const notes = [at(0, "mid-tom"), at(1, "mid-tom")];
  const aligner = new Aligner<Sounded, Sounded>(notes, WITHIN_FAMILY);
  expect(aligner.hear(at(0.02, "mid-tom"))).toBe(notes[0]);
  expect(aligner.hear(at(0.5, "mid-tom"))).toBeUndefined();
  expect(aligner.hear(at(1.08, "mid-tom"))).toBe(notes[1]);
  expect(aligner.finish()).toHaveLength(3);
});
