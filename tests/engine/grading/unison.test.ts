import { expect, test } from "vitest";
import { gradeTake, HEARD_APART_MS, unisonWords } from "../../../engine/grading/index.ts";
import { normal, seededChance } from "../../../engine/units/index.ts";
import { played, rock } from "./takes.ts";

const shared = { start: "shared" } as const;
const target = rock(12, 110);

function unisons(gapMs: number, sdMs: number) {
  const chance = seededChance(2);
  const hits = played(
    target,
    ({ time, voice }) => time + ((voice === "kick" ? gapMs : 0) + sdMs * normal(chance)) / 1000,
  );
  return gradeTake(hits, target, shared).unisons;
}

test.each([-35, -9, 0, 28])(
  "a kick %s ms off the hi-hat is found against the hand that keeps the time",
  (gapMs) => {
    const [kick, snare] = unisons(gapMs, 5);
    // Three kicks and two snares a bar, all with a hi-hat.
    expect(kick).toMatchObject({ limb: "kick", against: "hats", count: 36 });
    expect(snare).toMatchObject({ limb: "snare", against: "hats", count: 24 });
    expect(Math.abs((kick?.gapMs ?? 99) - gapMs)).toBeLessThan(3);
    // Two strokes of 5 ms each.
    expect(Math.abs((kick?.spreadMs ?? 99) - 5 * Math.SQRT2)).toBeLessThan(1.5);
    // The gap scatters by 7 ms, so that a few fall on the other side of 20 ms.
    const apart = (kick?.heardApart ?? 0) / 36;
    if (Math.abs(gapMs) > HEARD_APART_MS) expect(apart).toBeGreaterThan(0.8);
    else expect(apart).toBeLessThan(0.2);
  },
);

test("the same strokes, all together, have no gap and none is heard apart", () => {
  for (const { gapMs, heardApart } of unisons(0, 0)) {
    expect(gapMs).toBeCloseTo(0, 9);
    expect(heardApart).toBe(0);
  }
});

test("limbs that are never written together have no row", () => {
  expect(unisons(0, 0).some(({ limb, against }) => limb === "kick" && against === "snare")).toBe(false);
});

test.each([
  { gapMs: -31, heardApart: 9, expected: "Kick and hi-hat: the kick comes 31 ms before." },
  { gapMs: 26.4, heardApart: 7, expected: "Kick and hi-hat: the kick comes 26 ms after." },
  { gapMs: 4, heardApart: 0, expected: "Kick and hi-hat fall together." },
  { gapMs: 4, heardApart: 2, expected: "Kick and hi-hat fall together, but for two of nine." },
])("$expected", ({ expected, ...figures }) => {
  expect(unisonWords({ limb: "kick", against: "hats", count: 9, spreadMs: 6, ...figures })).toBe(expected);
});
