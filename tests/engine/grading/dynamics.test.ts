import { expect, test } from "vitest";
import { dynamicsWords, gradeTake, grooveTarget } from "../../../engine/grading/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { parseGrid } from "../../../engine/score/index.ts";
import { normal, seededChance } from "../../../engine/units/index.ts";
import { played, strike } from "./takes.ts";

const target = grooveTarget(
  parseGrid(
    "groove: t\nname: Touch\nmetre: 4/4\nfeel: straight\ntempo: 60-120\n\nsnare | Xgxg xgXg xgxg Xgxg |",
  ),
  { tempoBpm: 70, bars: 4 },
);

/** @param strength of a stroke written `dynamic`, before some chance. */
function snare(strength: Readonly<Record<"ghost" | "plain" | "accent", number>>, added: readonly Hit[] = []) {
  const chance = seededChance(4);
  const hits = played(target).map((hit, at) => ({
    ...hit,
    velocity: strength[target.notes[at]?.dynamic ?? "plain"] * (1 + 0.05 * normal(chance)),
  }));
  const take = [...hits, ...added].sort((a, b) => a.time - b.time);
  return gradeTake(take, target, { start: "shared" });
}

test("accents and ghosts in their place, however loud the player", () => {
  for (const louder of [0.35, 0.7, 1]) {
    const [row] = snare({ ghost: 0.3 * louder, plain: 0.6 * louder, accent: 0.85 * louder }).dynamics;
    expect(row).toMatchObject({
      voice: "snare",
      accents: { written: 12, standOut: 12, unwritten: 0 },
      ghosts: { written: 32, asGhosts: 32, tooLoud: 0, leftOut: 0, added: 0 },
      where: [],
    });
    expect(row?.range?.soft).toBeLessThan(0.33 * louder);
    expect(row?.range?.loud).toBeGreaterThan(0.75 * louder);
  }
});

test("accents no louder than the rest do not stand out, and are the thing to work on", () => {
  const report = snare({ ghost: 0.3, plain: 0.6, accent: 0.6 });
  const [row] = report.dynamics;
  expect(row?.accents).toMatchObject({ written: 12, standOut: 0, unwritten: 0 });
  expect(report.workOn).toEqual({ kind: "accents", voice: "snare", count: 12 });
  expect(row && dynamicsWords(row)).toBe("Snare: 0 of 12 accents stand out, 32 of 32 ghost notes stay low.");
});

test("ghosts too loud, and ghosts that are not written", () => {
  const loud = snare({ ghost: 0.55, plain: 0.6, accent: 0.9 }).dynamics[0];
  expect(loud?.ghosts).toMatchObject({ written: 32, asGhosts: 0, tooLoud: 32 });
  // Half-way between sixteenths 214 ms apart: nothing is written there.
  const between = [1.6, 3.4, 5.2].map((beat) =>
    strike(((Math.round(beat * 4) + 0.5) / 4) * (60 / 70), "snare", 0.2),
  );
  const added = snare({ ghost: 0.3, plain: 0.6, accent: 0.9 }, between).dynamics[0];
  expect(added?.ghosts).toMatchObject({ asGhosts: 32, added: 3 });
});

test("a kit that sends one strength for all says nothing of touch", () => {
  const hits = played(target).map((hit) => ({ ...hit, velocity: 0.8 }));
  const [row] = gradeTake(hits, target, { start: "shared" }).dynamics;
  expect(row).toMatchObject({ plain: null, accents: null, ghosts: null, where: [] });
});
