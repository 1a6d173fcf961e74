/** Every groove of the studio's stock, played cleanly and then as people play. */
import { expect, test } from "vitest";
import { STYLES } from "../../../engine/catalogue/index.ts";
import { gradeTake, grooveTarget } from "../../../engine/grading/index.ts";
import { normal, seededChance } from "../../../engine/units/index.ts";
import { played, withGraces } from "./takes.ts";

const cases = STYLES.flatMap(({ variants }) => variants).flatMap((groove) =>
  [groove.tempoBpm.low, groove.tempoBpm.high].map((tempoBpm) => ({ id: groove.id, groove, tempoBpm })),
);

test.each(cases)("$id at $tempoBpm", ({ groove, tempoBpm }) => {
  const target = grooveTarget(groove, { tempoBpm, bars: 16 });
  const chance = seededChance(7);
  const clean = withGraces(target, played(target));
  const late = played(target, ({ time }) => time * 1.01 + 0.012 * normal(chance));
  const within = played(target, ({ time, beat }) =>
    beat < 5 || beat > 40 ? undefined : time * 1.045 + 0.012 * normal(chance),
  );
  for (const start of ["shared", "free"] as const) {
    const report = gradeTake(clean, target, { start });
    expect(report.hits.every(({ state }) => state === "matched" || state === "grace")).toBe(true);
    expect(report.form.slips).toEqual([]);
    expect(report.missed).toEqual([]);
    expect(report.workOn).toEqual({ kind: "nothing" });
    expect(report.tempoBpm).toBeCloseTo(tempoBpm, 4);
    if (groove.feel.kind === "swung")
      expect(report.swingRatio ?? groove.feel.ratio).toBeCloseTo(groove.feel.ratio, 4);
  }
  for (const report of [
    gradeTake(late, target, { start: "shared" }),
    gradeTake(within, target, { start: "free" }),
  ]) {
    expect(report.hits.filter(({ state }) => state !== "matched").length).toBeLessThanOrEqual(1);
    expect(report.missed.length).toBeLessThanOrEqual(1);
    expect(report.voiceAccuracy ?? 0).toBeGreaterThan(0.98);
  }
});
