/**
 * Takes as pupils play them: strokes left out and added, a lean, a tempo that is off and moves. Known for every hit is
 * the note it was meant for.
 */
import { expect, test } from "vitest";
import { gradeTake, grooveTarget, type Target } from "../../../engine/grading/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { type Chance, normal, seededChance } from "../../../engine/units/index.ts";
import { FUNK, rock, SHUFFLE, strike } from "./takes.ts";

const SPREAD_SECONDS = 0.015;

interface HardTake {
  readonly hits: readonly Hit[];
  readonly meantFor: ReadonlyMap<Hit, number>;
}

/** One stroke in seventeen left out, one in twenty added; `moved` is where a moment of the target is meant to sound. */
function hardTake(
  target: Target,
  chance: Chance,
  moved: (time: number) => number,
  beats: readonly [number, number],
): HardTake {
  const meantFor = new Map<Hit, number>();
  const [from, to] = beats;
  for (const { index, time, voice, beat } of target.notes) {
    if (beat < from || beat >= to || chance() < 0.06) continue;
    meantFor.set(strike(moved(time) + SPREAD_SECONDS * normal(chance), voice), index);
  }
  const added = [...meantFor.keys()]
    .filter(() => chance() < 0.05)
    .map(({ time, voice }) => strike(time + chance() * 0.5, voice));
  return { hits: [...meantFor.keys(), ...added].sort((a, b) => a.time - b.time), meantFor };
}

const grooves = [
  { what: "funk sixteenths at 100", target: grooveTarget(FUNK, { tempoBpm: 100, bars: 16 }), repeatBeats: 8 },
  { what: "rock eighths at 70", target: rock(16, 70), repeatBeats: 4 },
  { what: "rock eighths at 150", target: rock(16, 150), repeatBeats: 4 },
  { what: "shuffle at 160", target: grooveTarget(SHUFFLE, { tempoBpm: 160, bars: 16 }), repeatBeats: 2 },
];

test.each(grooves)(
  "$what, shared clock: 98 hits in 100 answer the note they were meant for",
  ({ target }) => {
    let right = 0;
    let all = 0;
    for (let seed = 0; seed < 20; seed += 1) {
      const chance = seededChance(seed);
      const rate = 1 + 0.03 * (chance() - 0.5);
      const lean = 0.12 * (chance() - 0.5);
      const { hits, meantFor } = hardTake(target, chance, (time) => time * rate + lean, [
        0,
        Number.POSITIVE_INFINITY,
      ]);
      const report = gradeTake(hits, target, { start: "shared" });
      expect(report.form.slips.filter(({ kind }) => kind !== "one-off-place")).toEqual([]);
      for (const judged of report.hits) {
        const meant = meantFor.get(judged.hit);
        if (meant === undefined) continue;
        all += 1;
        if (judged.state === "matched" && judged.targetIndex === meant) right += 1;
      }
    }
    expect(right / all).toBeGreaterThan(0.98);
  },
);

test.each(grooves)(
  "$what, free start: the take lies at its place of the groove throughout",
  ({ target, repeatBeats }) => {
    let right = 0;
    let all = 0;
    for (let seed = 0; seed < 20; seed += 1) {
      const chance = seededChance(seed);
      const length = target.notes[target.notes.length - 1]?.time ?? 1;
      const rate = 1 + 0.14 * (chance() - 0.5);
      const bend = 0.02 * (chance() - 0.5);
      const from = Math.floor(chance() * 16);
      const moved = (time: number) => 17 + time * rate + (bend * time ** 2) / length;
      const { hits, meantFor } = hardTake(target, chance, moved, [
        from,
        from + 16 + Math.floor(chance() * 32),
      ]);
      for (const judged of gradeTake(hits, target, { start: "free" }).hits) {
        const meant = meantFor.get(judged.hit);
        if (meant === undefined) continue;
        all += 1;
        if (judged.state !== "matched") continue;
        const apart =
          ((target.notes[judged.targetIndex]?.beat ?? 0) - (target.notes[meant]?.beat ?? 0)) / repeatBeats;
        if (Math.abs(apart - Math.round(apart)) < 1e-6) right += 1;
      }
    }
    expect(right / all).toBeGreaterThan(0.98);
  },
);
