import { expect, test } from "vitest";
import { gradeTake, grooveTarget } from "../../../engine/grading/index.ts";
import type { Voice } from "../../../engine/kit/index.ts";
import { parseGrid } from "../../../engine/score/index.ts";
import { played, rock, strike } from "./takes.ts";

const TOUCHES = parseGrid(`
groove: touches
name: Touches
metre: 4/4
feel: straight
tempo: 60-120

snare | xgxg XgxX |
`);
const ACCENTS = parseGrid(`
groove: accents
name: Accents and ghosts
metre: 4/4
feel: straight
tempo: 60-120

snare | gXgX gXgX |
`);

function touchOf(groove: typeof TOUCHES, louder: number, change: Readonly<Record<number, number>> = {}) {
  const target = grooveTarget(groove, { tempoBpm: 80, bars: 1 });
  const hits = played(target).map((hit, at) => ({ ...hit, velocity: (change[at] ?? hit.velocity) * louder }));
  return gradeTake(hits, target, { start: "shared" }).voices[0]?.touch;
}

test.each([
  { what: "as written", change: {}, touch: { asWritten: 8, ghosted: 0, heavy: 0 } },
  { what: "a plain stroke like a ghost", change: { 2: 0.25 }, touch: { asWritten: 7, ghosted: 1, heavy: 0 } },
  { what: "an accent like a ghost", change: { 4: 0.25 }, touch: { asWritten: 7, ghosted: 1, heavy: 0 } },
  { what: "a ghost like a plain stroke", change: { 1: 0.63 }, touch: { asWritten: 7, ghosted: 0, heavy: 1 } },
  {
    what: "a plain stroke like an accent",
    change: { 0: 0.9 },
    touch: { asWritten: 7, ghosted: 0, heavy: 1 },
  },
  {
    what: "an accent like a plain stroke is nobody's fault here",
    change: { 4: 0.63 },
    touch: { asWritten: 8, ghosted: 0, heavy: 0 },
  },
])("touch: $what, however loud the player", ({ change, touch }) => {
  for (const louder of [0.4, 0.7, 1]) expect(touchOf(TOUCHES, louder, change)).toEqual(touch);
});

test("where no plain stroke is written the accents are the measure", () => {
  expect(touchOf(ACCENTS, 0.8)).toEqual({ asWritten: 8, ghosted: 0, heavy: 0 });
  expect(touchOf(ACCENTS, 0.8, { 0: 0.7 })).toEqual({ asWritten: 7, ghosted: 0, heavy: 1 });
});

test("voice table: written, as written, other sound, left out and added", () => {
  const target = rock(2, 100);
  // One backbeat on the mid tom, one kick left out, a crash added.
  let snares = 0;
  const hits = played(target, ({ time, voice, beat }) =>
    voice === "kick" && beat === 6 ? undefined : time,
  ).map((hit) => {
    if (hit.voice !== "snare") return hit;
    snares += 1;
    return snares === 3 ? strike(hit.time, "mid-tom") : hit;
  });
  const take = [...hits, strike(0.45, "crash-left")].sort((a, b) => a.time - b.time);
  const report = gradeTake(take, target, { start: "shared" });
  const row = (voice: Voice) => report.voices.find((figures) => figures.voice === voice);
  expect(row("snare")).toMatchObject({
    written: 4,
    asWritten: 3,
    otherSound: [{ voice: "mid-tom", count: 1 }],
    leftOut: 0,
    added: 0,
  });
  expect(row("kick")).toMatchObject({ written: 6, asWritten: 5, otherSound: [], leftOut: 1, added: 0 });
  expect(row("crash-left")).toMatchObject({ written: 0, asWritten: 0, leftOut: 0, added: 1 });
  expect(row("mid-tom")).toBeUndefined();
  expect(report.voiceAccuracy).toBeCloseTo(24 / 25, 9);
});
