import { describe, expect, test } from "vitest";
import { rudimentById } from "../../../../engine/catalogue/index.ts";
import {
  checkSticking,
  type JudgedStroke,
  type PlayedStroke,
  type StickingReport,
} from "../../../../engine/recall/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";
import { playedHeld, playedWords, slipsOf } from "../../../../renderer/screens/wall-chart/playedWords.ts";
import { perform, type TwoSurfaces } from "../../../engine/recall/twoSurfaces.ts";

const EXACT: Omit<TwoSurfaces, "chance"> = { tempoAt: () => 72, cycles: 8, spreadMs: 0, otherHand: 0 };

function strokesOf(id: string, how: Partial<TwoSurfaces> = {}): readonly PlayedStroke[] {
  return perform(rudiment(id), { ...EXACT, chance: seededChance(1), ...how }).strokes;
}

function rudiment(id: string) {
  const found = rudimentById(id);
  if (!found) throw new Error(`There is no rudiment ${id}.`);
  return found;
}

function report(id: string, strokes: readonly PlayedStroke[] = strokesOf(id)): StickingReport {
  return checkSticking(rudiment(id), strokes);
}

const other = { R: "L", L: "R" } as const;

describe("the hands, first of all", () => {
  test("all by the hand written", () => {
    expect(playedWords(report("single-paradiddle"))[0]).toBe("All 64 strokes were by the hand written.");
  });

  test("one by the other hand, one left out, one added", () => {
    const strokes = strokesOf("double-stroke-open-roll");
    const slipped = strokes.map((each, at) => (at === 9 ? { ...each, hand: other[each.hand] } : each));
    expect(playedWords(report("double-stroke-open-roll", slipped))[0]).toBe(
      `Of ${strokes.length} strokes 1 by the other hand.`,
    );
    expect(
      playedWords(
        report(
          "double-stroke-open-roll",
          strokes.filter((_, at) => at !== 14),
        ),
      )[0],
    ).toBe(`Of ${strokes.length} strokes 1 left out.`);
    const twelfth = strokes[11];
    if (!twelfth) throw new Error("There are more than twelve.");
    const added = { ...twelfth, time: twelfth.time + 0.09, hand: "R" as const };
    expect(
      playedWords(
        report("double-stroke-open-roll", [...strokes.slice(0, 12), added, ...strokes.slice(12)]),
      )[0],
    ).toBe(`Of ${strokes.length} strokes 1 added.`);
  });

  test("begun with the other hand is told, and is no slip", () => {
    const mirrored = report("single-paradiddle", strokesOf("single-paradiddle", { mirrored: true }));
    expect(playedWords(mirrored)[0]).toBe(
      "All 64 strokes were by the hand written. It was begun with the other hand.",
    );
    expect(playedHeld(mirrored)).toBe(true);
  });
});

describe("it held when no more than one stroke in twenty slipped", () => {
  const stroke = (state: JudgedStroke["state"]): JudgedStroke => ({
    time: 0,
    hand: "R",
    expectedHand: "R",
    state,
    role: "main",
    cycle: 1,
  });
  const of = (slips: number, all: number, state: JudgedStroke["state"] = "other hand") => ({
    strokes: Array.from({ length: all }, (_, at) => stroke(at < slips ? state : "as written")),
  });
  test.each([
    ["none of twenty", of(0, 20), true],
    ["one of twenty", of(1, 20), true],
    ["two of twenty", of(2, 20), false],
    ["one of nineteen", of(1, 19), false],
    ["one left out of nineteen", of(1, 19, "left out"), false],
    ["one added to eighteen", of(1, 19, "added"), false],
    ["bounces of a buzz, which are no slips", of(10, 20, "bounce"), true],
  ])("%s", (_, strokes, held) => {
    expect(playedHeld(strokes)).toBe(held);
  });

  test("only what was not as written is a slip", () => {
    const states = ["as written", "bounce", "other hand", "left out", "added"] as const;
    expect(slipsOf({ strokes: states.map(stroke) }).map(({ state }) => state)).toEqual([
      "other hand",
      "left out",
      "added",
    ]);
  });
});

describe("how it was played", () => {
  test("a left hand that comes later is told by how much, one that can hardly be heard is not", () => {
    const late = (ms: number) =>
      strokesOf("single-stroke-roll").map((each) =>
        each.hand === "L" ? { ...each, time: each.time + ms / 1000 } : each,
      );
    // A millisecond less: the tempo around a stroke is taken from both hands.
    expect(playedWords(report("single-stroke-roll", late(12))).join(" ")).toMatch(
      /The left hand comes 1[12] ms later than the right\./,
    );
    expect(playedWords(report("single-stroke-roll", late(-12))).join(" ")).toMatch(
      /The left hand comes 1[12] ms sooner than the right\./,
    );
    expect(playedWords(report("single-stroke-roll", late(4))).join(" ")).not.toContain("left hand");
  });

  test("intervals that spread", () => {
    const words = playedWords(
      report("single-stroke-roll", strokesOf("single-stroke-roll", { spreadMs: 10, cycles: 20 })),
    );
    const spread = words.flatMap((each) => /intervals spread by (\d+) ms/.exec(each)?.[1] ?? []).map(Number);
    // Two strokes make an interval: its spread is the root of two times theirs.
    expect(spread[0]).toBeGreaterThan(8);
    expect(spread[0]).toBeLessThan(20);
  });

  test("accents that were heard, and one where none is written", () => {
    const flat = strokesOf("single-paradiddle").map((each) => ({ ...each, velocity: 0.5 }));
    expect(playedWords(report("single-paradiddle", flat))).toContain("0 of 16 accents were heard.");
    expect(playedWords(report("single-paradiddle")).join(" ")).toContain("16 of 16 accents were heard.");
    const elsewhere = strokesOf("single-paradiddle").map((each, at) =>
      at === 2 ? { ...each, velocity: 0.9 } : each,
    );
    expect(playedWords(report("single-paradiddle", elsewhere)).join(" ")).toContain(
      ", and 1 where none is written.",
    );
  });

  test("grace strokes: how far ahead, and which of them too tight, too open or missing", () => {
    const of = (gap: number) =>
      playedWords(report("flam", strokesOf("flam", { flamGapMs: gap, cycles: 6 }))).filter((each) =>
        each.startsWith("Grace"),
      );
    expect(of(30)).toEqual(["Grace strokes stand 30 ms ahead."]);
    expect(of(90)[0]).toMatch(/^Grace strokes stand 90 ms ahead: \d+ too open of \d+\.$/);
    expect(of(8)[0]).toMatch(/^Grace strokes stand 8 ms ahead: \d+ too tight of \d+\.$/);
    const without = strokesOf("flam", { cycles: 6 }).filter((_, at) => at !== 2);
    expect(playedWords(report("flam", without)).join(" ")).toMatch(/1 without grace strokes of \d+\./);
  });

  test("a double's second stroke that is weaker, and whose hand's", () => {
    const strokes = strokesOf("double-stroke-open-roll");
    const weak = strokes.map((each, at) =>
      each.hand === "L" && strokes[at - 1]?.hand === "L" ? { ...each, velocity: each.velocity * 0.5 } : each,
    );
    const words = playedWords(report("double-stroke-open-roll", weak)).filter((each) =>
      each.startsWith("The second"),
    );
    expect(words).toEqual(["The second stroke of the left hand’s doubles is weaker than the first."]);
  });

  test.each([
    ["The tempo was held", () => 80],
    ["It went from open to closed", (share: number) => 60 + 60 * share],
    ["It went from closed to open", (share: number) => 120 - 60 * share],
    ["It went open, closed, open", (share: number) => 60 + 60 * (1 - Math.abs(2 * share - 1))],
  ])("%s", (words, tempoAt) => {
    const told = playedWords(
      report("double-stroke-open-roll", strokesOf("double-stroke-open-roll", { tempoAt, cycles: 24 })),
    ).at(-1);
    expect(told?.startsWith(`${words}: `)).toBe(true);
    expect(told).toMatch(/: \d+ at first, \d+ at its fastest, \d+ at the end\.$/);
  });
});
