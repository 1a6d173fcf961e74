import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  CLICKS_TO_FALL_IN,
  calibrationSchema,
  measuredByMicrophone,
  measuredByStrikes,
  middleOf,
  offsetsFromClick,
  STRIKES_ASKED,
} from "../../../engine/kit/index.ts";
import { normal, seededChance } from "../../../engine/units/index.ts";

function struck(lateMs: number, spreadMs: number, seed: number, count = STRIKES_ASKED): number[] {
  const chance = seededChance(seed);
  return Array.from({ length: count }, () => lateMs + spreadMs * normal(chance));
}

describe("the middle of offsets", () => {
  test("slips are left out, and counted", () => {
    const middle = middleOf([...struck(18, 6, 3), 250, -300]);
    expect(middle?.slips).toBe(2);
    expect(middle?.middleMs).toBeGreaterThan(14);
    expect(middle?.middleMs).toBeLessThan(22);
  });

  test("moving every strike moves the middle and nothing else", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -200, max: 200 }), { minLength: 1, maxLength: 40 }),
        fc.integer({ min: -300, max: 300 }),
        (offsets, by) => {
          const before = middleOf(offsets);
          const after = middleOf(offsets.map((offset) => offset + by));
          expect(after?.middleMs).toBeCloseTo((before?.middleMs ?? 0) + by, 9);
          expect(after?.giveOrTakeMs).toBeCloseTo(before?.giveOrTakeMs ?? 0, 9);
          expect(after?.kept).toBe(before?.kept);
        },
      ),
    );
  });

  test("a quarter of wild strikes never moves it out of the honest ones", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1e6 }),
        fc.array(fc.double({ min: -900, max: 900, noNaN: true }), { maxLength: 6 }),
        (seed, wild) => {
          const honest = struck(30, 8, seed, 18);
          const { middleMs = Number.NaN } = middleOf([...honest, ...wild]) ?? {};
          expect(middleMs).toBeGreaterThanOrEqual(Math.min(...honest));
          expect(middleMs).toBeLessThanOrEqual(Math.max(...honest));
        },
      ),
    );
  });

  test("the true figure lies within what is said in about 95 of 100 cases", () => {
    const cases = 2000;
    const held = Array.from({ length: cases }, (_, at) => middleOf(struck(12, 15, at + 1))).filter(
      (middle) => middle !== undefined && Math.abs(middle.middleMs - 12) <= middle.giveOrTakeMs,
    ).length;
    expect(held / cases).toBeGreaterThan(0.9);
    expect(held / cases).toBeLessThan(0.98);
  });

  test("of nothing there is none", () => {
    expect(middleOf([])).toBeUndefined();
  });
});

describe("by striking with the click", () => {
  test("a steady player is measured", () => {
    const measured = measuredByStrikes(struck(-22, 12, 5));
    expect(measured.kind).toBe("measured");
    if (measured.kind === "measured") {
      expect(Math.abs(measured.middle.middleMs + 22)).toBeLessThan(8);
      expect(measured.middle.giveOrTakeMs).toBeLessThan(9);
    }
  });

  test("too few, or all over the place, is said and not measured", () => {
    expect(measuredByStrikes(struck(0, 5, 1, 8)).kind).toBe("too-few");
    expect(measuredByStrikes(struck(0, 140, 1)).kind).toBe("too-wide");
  });
});

describe("strikes and their clicks", () => {
  const click = { from: 10, stepSeconds: 0.6 };

  test("each strike belongs to the nearest click; the nearest of several counts; those before the first do not", () => {
    const offsets = offsetsFromClick([9.4, 10.02, 10.58, 10.59, 10.89, 11.8, 12.42], click);
    expect(offsets.map(Math.round)).toEqual([20, -10, 0, 20]);
  });

  test("any late set-up below half a step is found again", () => {
    fc.assert(
      fc.property(fc.double({ min: -290, max: 290, noNaN: true }), (lateMs) => {
        const strikes = Array.from({ length: 20 }, (_, at) => 10 + at * 0.6 + lateMs / 1000);
        for (const offset of offsetsFromClick(strikes, click)) expect(offset).toBeCloseTo(lateMs, 6);
      }),
    );
  });
});

test("by microphone: neither the microphone's delay nor the player is left in it", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 250, noNaN: true }),
      fc.double({ min: 0, max: 60, noNaN: true }),
      fc.double({ min: 0, max: 100, noNaN: true }),
      (wayOut, kit, microphone) => {
        const clicks = struck(wayOut + microphone, 0.5, 7, 12);
        const sticks = struck(microphone - kit, 0.8, 8, 12);
        const middle = measuredByMicrophone(clicks, sticks)?.middleMs ?? Number.NaN;
        expect(Math.abs(middle - (wayOut + kit))).toBeLessThan(1);
      },
    ),
  );
  expect(measuredByMicrophone(struck(20, 1, 1, 12), struck(20, 1, 1, 3))).toBeUndefined();
});

test("the figures are those that are asked for", () => {
  expect([STRIKES_ASKED, CLICKS_TO_FALL_IN]).toEqual([24, 4]);
  expect(calibrationSchema.safeParse({ lateMs: 1e9, giveOrTakeMs: 1, how: "strikes" }).success).toBe(false);
});
