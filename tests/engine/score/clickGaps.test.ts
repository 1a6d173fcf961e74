import fc from "fast-check";
import { expect, test } from "vitest";
import { type ClickGaps, soundingBars } from "../../../engine/score/index.ts";

function bars(count: number, gaps: ClickGaps): string {
  const sounding = soundingBars(gaps);
  return Array.from({ length: count }, () => (sounding.next().value ? "x" : ".")).join("");
}

test.each([
  [{ kind: "none" } as const, "xxxxxxxx"],
  [{ kind: "regular", sounding: 1, silent: 1 } as const, "x.x.x.x."],
  [{ kind: "regular", sounding: 3, silent: 1 } as const, "xxx.xxx."],
  [{ kind: "regular", sounding: 2, silent: 4 } as const, "xx....xx...."],
  [{ kind: "chance", share: 0, longest: 4, seed: 1 } as const, "xxxxxxxx"],
  [{ kind: "chance", share: 1, longest: 1, seed: 1 } as const, "x.x.x.x."],
])("%o: %s", (gaps, row) => {
  expect(bars(row.length, gaps)).toBe(row);
});

const byChance = fc.record({
  kind: fc.constant("chance" as const),
  share: fc.double({ min: 0, max: 1, noNaN: true }),
  longest: fc.integer({ min: 1, max: 8 }),
  seed: fc.integer({ min: 0, max: 0xffff_ffff }),
});

test("by chance: the first bar sounds, no gap is longer than allowed, the same seed gives the same gaps", () => {
  fc.assert(
    fc.property(byChance, (gaps) => {
      const row = bars(200, gaps);
      expect(row).toMatch(/^x/);
      expect(row).toBe(bars(200, gaps));
      for (const silent of row.match(/\.+/g) ?? []) expect(silent.length).toBeLessThanOrEqual(gaps.longest);
    }),
  );
});

test("by chance: about the asked share of bars is followed by a gap, of each length alike", () => {
  const row = bars(30_000, { kind: "chance", share: 0.3, longest: 3, seed: 20 });
  const sounding = row.match(/x/g)?.length ?? 0;
  const gaps = row.match(/\.+/g) ?? [];
  expect(gaps.length / sounding).toBeCloseTo(0.3, 1);
  for (const length of [1, 2, 3]) {
    expect(gaps.filter((gap) => gap.length === length).length / gaps.length).toBeCloseTo(1 / 3, 1);
  }
});
