import { describe, expect, test } from "vitest";
import {
  type GradeOptions,
  gradeTake,
  grooveTarget,
  type TargetNote,
  type WorkOn,
} from "../../../engine/grading/index.ts";
import { normal, seededChance } from "../../../engine/units/index.ts";
import { FUNK, played, rock, strike } from "./takes.ts";

const target = rock(8, 110);

function workOn(
  timed: (note: TargetNote) => number | undefined,
  options: Partial<GradeOptions> = {},
): WorkOn {
  return gradeTake(played(target, timed), target, { start: "shared", ...options }).workOn;
}

describe("the one thing to work on", () => {
  test("a kick left out", () => {
    expect(
      workOn(({ time, voice, beat }) => (voice === "kick" && beat % 4 === 2.5 ? undefined : time)),
    ).toEqual({
      kind: "left-out",
      voice: "kick",
      count: 8,
      written: 24,
    });
  });

  test("a voice that is not written", () => {
    const hits = [...played(target), ...[1, 3, 5].map((at) => strike(at * 1.0909 + 0.13, "cowbell"))];
    const report = gradeTake(
      hits.sort((a, b) => a.time - b.time),
      target,
      { start: "shared" },
    );
    expect(report.workOn).toEqual({ kind: "added", voice: "cowbell", count: 3 });
  });

  test("the snare on four wanders", () => {
    const chance = seededChance(4);
    const found = workOn(
      ({ time, voice, beat }) =>
        time + (voice === "snare" && beat % 4 === 3 ? 0.045 : 0.004) * normal(chance),
    );
    expect(found).toMatchObject({ kind: "beat-wanders", voice: "snare", beat: 4 });
  });

  test("the kick on one comes late", () => {
    const chance = seededChance(4);
    const found = workOn(
      ({ time, voice, beat }) =>
        time + (voice === "kick" && beat % 4 === 0 ? 0.05 : 0) + 0.004 * normal(chance),
    );
    expect(found).toMatchObject({ kind: "beat-leans", voice: "kick", beat: 1 });
    expect(found.kind === "beat-leans" ? found.leanMs : 0).toBeGreaterThan(40);
  });

  test("an off-beat is named as such", () => {
    const found = workOn(
      ({ time, voice, beat }) => time + (voice === "kick" && beat % 4 === 2.5 ? -0.05 : 0),
    );
    expect(found).toMatchObject({ kind: "beat-leans", voice: "kick", beat: 3.5 });
  });

  test("rushing", () => {
    const found = workOn(({ time }) => time * 0.985);
    expect(found.kind).toBe("drift");
    expect(found.kind === "drift" ? found.percent : 0).toBeCloseTo(1.5, 2);
  });

  test("something else than what is written", () => {
    const hits = Array.from({ length: 30 }, (_, at) => strike(at * 0.37 + 0.19, "cowbell"));
    expect(gradeTake(hits, target, { start: "shared" }).workOn).toEqual({ kind: "no-match" });
  });

  test("ghost notes too loud", () => {
    const funk = grooveTarget(FUNK, { tempoBpm: 96, bars: 4 });
    const hits = played(funk).map((hit) => (hit.velocity < 0.3 ? { ...hit, velocity: 0.6 } : hit));
    const ghosts = funk.notes.filter(({ dynamic }) => dynamic === "ghost").length;
    expect(gradeTake(hits, funk, { start: "shared" }).workOn).toEqual({
      kind: "touch",
      voice: "snare",
      touch: "heavy",
      count: ghosts,
    });
  });
});

test("a constant lean is style: nothing to work on", () => {
  for (const leanMs of [-35, 20, 50])
    expect(workOn(({ time }) => time + leanMs / 1000)).toEqual({ kind: "nothing" });
});

test("what nobody can hear is never named", () => {
  // Friberg & Sundberg 1995: below 6 ms nothing is heard at any tempo.
  for (let seed = 0; seed < 20; seed += 1) {
    const chance = seededChance(seed);
    const found = workOn(({ time, beat }) => time + 0.003 * normal(chance) + (beat % 4 === 3 ? 0.003 : 0));
    expect(found).toEqual({ kind: "nothing" });
  }
});

test("the greater fault goes first: two snares left out outweigh one hat", () => {
  const hits = ({ time, voice, beat }: TargetNote) =>
    (voice === "snare" && (beat === 1 || beat === 5)) || (voice === "hi-hat-closed" && beat === 0.5)
      ? undefined
      : time;
  expect(workOn(hits)).toMatchObject({ kind: "left-out", voice: "snare", count: 2 });
});

test("within the band of a first-year student the same take has other worries than a working player's", () => {
  const chance = seededChance(8);
  const hits = played(target, ({ time, voice, beat }) =>
    voice === "hi-hat-closed" && beat === 0.5
      ? undefined
      : time + (voice === "snare" && beat % 4 === 3 ? 0.03 : 0.003) * normal(chance),
  );
  const at = (level: "first-year" | "working") =>
    gradeTake(hits, target, { start: "shared", level }).workOn.kind;
  expect(at("first-year")).toBe("left-out");
  expect(at("working")).toBe("beat-wanders");
});

test("in a single bar one stroke outside the band is named, one just heard is not", () => {
  const bar = rock(1, 110);
  const lateBy = (seconds: number) =>
    gradeTake(
      played(bar, ({ time, voice, beat }) => time + (voice === "snare" && beat === 3 ? seconds : 0)),
      bar,
      { start: "shared" },
    ).workOn;
  expect(lateBy(0.06)).toMatchObject({ kind: "beat-leans", voice: "snare", beat: 4 });
  expect(lateBy(0.02)).toEqual({ kind: "nothing" });
});

describe("figures beside single strokes, each when it is what would better the take most", () => {
  const graded = (hits: Parameters<typeof gradeTake>[0]) => gradeTake(hits, target, { start: "shared" });

  test("the groove turned round outweighs a few strokes left out, and shows where it happened", () => {
    const beat = 60 / 110;
    const hits = played(target, ({ time, beat: on }) =>
      on < 12 ? (on === 2 ? undefined : time) : on >= 31 ? undefined : time + beat,
    );
    const report = graded(hits);
    expect(report.workOn).toMatchObject({ kind: "form", slip: { kind: "turned-round", byBeats: 1 } });
    expect(report.workOnPlace).toMatchObject({ bar: 4 });
  });

  test("a kick that is late everywhere against the hi-hat is one thing, not three", () => {
    const hits = played(target, ({ time, voice }) => time + (voice === "kick" ? 0.045 : 0));
    expect(graded(hits).workOn).toMatchObject({ kind: "unison", limb: "kick", against: "hats" });
  });

  test("the place of a stroke left out is the bar where most are", () => {
    const hits = played(target, ({ time, voice, beat }) =>
      voice === "snare" && (beat === 5 || beat === 25 || beat === 27) ? undefined : time,
    );
    const report = graded(hits);
    expect(report.workOn).toMatchObject({ kind: "left-out", voice: "snare", count: 3 });
    expect(report.workOnPlace).toEqual({ bar: 7, beat: 2 });
  });

  test("what shows nowhere in particular has no place", () => {
    expect(graded(played(target)).workOnPlace).toBeNull();
    expect(graded(played(target, ({ time }) => time * 0.985)).workOnPlace).toBeNull();
  });
});
