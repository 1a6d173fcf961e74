import { describe, expect, test } from "vitest";
import { RUDIMENTS, type Rudiment, rudimentById } from "../../../engine/catalogue/index.ts";
import { checkSticking, type PlayedStroke, StickingError } from "../../../engine/recall/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { perform, type TwoSurfaces } from "./twoSurfaces.ts";

function rudiment(id: string): Rudiment {
  const found = rudimentById(id);
  if (!found) throw new Error(`There is no rudiment ${id}.`);
  return found;
}

const EXACT: TwoSurfaces = {
  tempoAt: () => 72,
  cycles: 6,
  spreadMs: 0,
  otherHand: 0,
  chance: seededChance(1),
};

function played(id: string, how: Partial<TwoSurfaces> = {}): readonly PlayedStroke[] {
  return perform(rudiment(id), { ...EXACT, chance: seededChance(1), ...how }).strokes;
}

/** Every stroke of a list but those at some places. */
function without<T>(all: readonly T[], ...places: readonly number[]): readonly T[] {
  return all.filter((_, at) => !places.includes(at));
}

describe.each(RUDIMENTS.map(({ id }) => id))("%s played exactly", (id) => {
  test.each([
    ["with the hands written", false],
    ["begun with the other hand", true],
  ])("%s, has no slip", (_, mirrored) => {
    const { strokes, evenness } = checkSticking(rudiment(id), played(id, { mirrored }));
    expect(strokes.filter(({ state }) => state !== "as written")).toEqual([]);
    expect(evenness.spreadMs).toBeLessThan(0.01);
  });
});

test("one slip shifts nothing after it: a hand, a stroke left out, one added", () => {
  const strokes = played("double-stroke-open-roll", { cycles: 10 });
  const states = (performance: readonly PlayedStroke[]) =>
    checkSticking(rudiment("double-stroke-open-roll"), performance)
      .strokes.map(({ state }, at) => ({ state, at }))
      .filter(({ state }) => state !== "as written");
  const slipped = strokes.map((stroke, at) => (at === 9 ? { ...stroke, hand: "L" as const } : stroke));
  expect(states(slipped)).toEqual([{ state: "other hand", at: 9 }]);
  expect(states(without(strokes, 14))).toEqual([{ state: "left out", at: 14 }]);
  expect(states(without(strokes, 14, 15))).toEqual([
    { state: "left out", at: 14 },
    { state: "left out", at: 15 },
  ]);
  const twelfth = strokes[11];
  if (!twelfth) throw new Error("There are forty strokes.");
  const added = { ...twelfth, time: twelfth.time + 0.09, hand: "R" as const };
  expect(states([...strokes.slice(0, 12), added, ...strokes.slice(12)])).toEqual([
    { state: "added", at: 12 },
  ]);
});

test("a buzz may bounce: other bounces of a stroke are no slips", () => {
  const bounces = played("multiple-bounce-roll").flatMap(({ time, hand, velocity }) =>
    [0, 0.04, 0.08].map((later) => ({ time: time + later, hand, velocity: velocity * (1 - 5 * later) })),
  );
  const { strokes } = checkSticking(rudiment("multiple-bounce-roll"), bounces);
  expect(new Set(strokes.map(({ state }) => state))).toEqual(new Set(["as written", "bounce"]));
  expect(strokes.filter(({ state }) => state === "as written")).toHaveLength(24);
});

test("evenness: a left hand that drags is told by how much", () => {
  const strokes = played("single-stroke-roll").map((stroke) =>
    stroke.hand === "L" ? { ...stroke, time: stroke.time + 0.012 } : stroke,
  );
  expect(checkSticking(rudiment("single-stroke-roll"), strokes).evenness.leftLaterMs).toBeCloseTo(12, 0);
});

test("accents: those that are missing, and those elsewhere", () => {
  const strokes = played("single-paradiddle");
  // The accents of the first two cycles are on the stroke after.
  const moved = strokes.map((stroke, at) => {
    const place = at % 4;
    if (at >= 16 || place > 1) return { ...stroke, velocity: at % 4 === 0 ? 0.85 : 0.55 };
    return { ...stroke, velocity: place === 1 ? 0.86 : 0.55 };
  });
  const { accents } = checkSticking(rudiment("single-paradiddle"), moved);
  expect(accents).toMatchObject({ written: 12, heard: 8, elsewhere: 4 });
});

test.each([
  [30, { asWritten: 12, tooTight: 0, tooOpen: 0 }],
  [8, { asWritten: 0, tooTight: 12, tooOpen: 0 }],
  [60, { asWritten: 0, tooTight: 0, tooOpen: 12 }],
])("flams with a gap of %i ms", (flamGapMs, counts) => {
  const { graces } = checkSticking(rudiment("flam-accent"), played("flam-accent", { flamGapMs }));
  expect(graces).toMatchObject({ ornament: "flam", count: 12, missing: 0, ...counts });
  expect(graces?.gapMs).toBeCloseTo(flamGapMs, 3);
  expect(graces?.byHandMs.L).toBeCloseTo(flamGapMs, 3);
});

test("doubles: a second stroke that is weak and late is told by hand", () => {
  const strokes = played("double-stroke-open-roll", { cycles: 12 }).map(({ time, hand }, at) => {
    const second = at % 2 === 1;
    return { time: second && hand === "L" ? time + 0.02 : time, hand, velocity: second ? 0.4 : 0.6 };
  });
  const { secondStrokes } = checkSticking(rudiment("double-stroke-open-roll"), strokes);
  expect(secondStrokes?.strength.R).toBeCloseTo(2 / 3, 2);
  expect(secondStrokes?.laterMs.L).toBeGreaterThan(15);
  expect(Math.abs(secondStrokes?.laterMs.R ?? Number.NaN)).toBeLessThan(6);
});

test.each([
  ["held", () => 80],
  ["open-closed", (share: number) => 50 + 70 * share],
  ["closed-open", (share: number) => 120 - 70 * share],
  ["open-closed-open", (share: number) => 50 + 70 * (1 - Math.abs(2 * share - 1))],
] as const)("tempo: %s", (shape, tempoAt) => {
  const { tempo } = checkSticking(
    rudiment("single-paradiddle"),
    played("single-paradiddle", { tempoAt, cycles: 24 }),
  );
  expect(tempo?.shape).toBe(shape);
  expect(Math.abs((tempo?.startBpm ?? 0) - tempoAt(0.05))).toBeLessThan(0.08 * tempoAt(0.05));
  expect(Math.abs((tempo?.endBpm ?? 0) - tempoAt(0.95))).toBeLessThan(0.08 * tempoAt(0.95));
});

test.each([
  ["too few strikes", played("flam").slice(0, 3), /3 strikes, too few/],
  [
    "one surface",
    played("flam").map((stroke) => ({ ...stroke, hand: "R" as const })),
    /cannot be told apart/,
  ],
])("%s: nothing can be said", (_, strokes, message) => {
  expect(() => checkSticking(rudiment("flam"), strokes)).toThrow(StickingError);
  expect(() => checkSticking(rudiment("flam"), strokes)).toThrow(message);
});
