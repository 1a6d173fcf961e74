/**
 * Six clave and bell timelines, and Euclidean rhythms with them, through the grid text.
 * Sources: Toussaint, "A Mathematical Analysis of African, Brazilian, and Cuban Clave Rhythms", BRIDGES 2002; the same,
 * "The Euclidean Algorithm Generates Traditional Musical Rhythms", BRIDGES 2005. The places on the ring are in
 * tests/renderer/charts/ringGeometry.test.ts.
 */
import { describe, expect, test } from "vitest";
import type { Hit } from "../../engine/kit/index.ts";
import { hear, shelfStock } from "../../engine/listening/index.ts";
import { beatsPerBar, type Groove, parseGrid, performed, printGrid } from "../../engine/score/index.ts";
import { type Fraction, fraction, normal, seededChance, subtract } from "../../engine/units/index.ts";

function timeline(metre: string, bars: readonly string[]): Groove {
  return parseGrid(
    `groove: line\nname: Line\nmetre: ${metre}\nfeel: straight\ntempo: 80-120\n\nclave | ${bars.join(" | ")} |`,
  );
}

/** Onsets in steps, each an exact fraction of a beat on the way. */
function positions(groove: Groove): readonly Fraction[] {
  return groove.notes.map(({ position }) => position);
}

const SIX = [
  { name: "shiko", steps: "x...x.x...x.x...", onsets: [0, 4, 6, 10, 12], intervals: [4, 2, 4, 2, 4] },
  { name: "son", steps: "x..x..x...x.x...", onsets: [0, 3, 6, 10, 12], intervals: [3, 3, 4, 2, 4] },
  { name: "rumba", steps: "x..x...x..x.x...", onsets: [0, 3, 7, 10, 12], intervals: [3, 4, 3, 2, 4] },
  { name: "soukous", steps: "x..x..x...xx....", onsets: [0, 3, 6, 10, 11], intervals: [3, 3, 4, 1, 5] },
  { name: "gahu", steps: "x..x..x...x...x.", onsets: [0, 3, 6, 10, 14], intervals: [3, 3, 4, 4, 2] },
  { name: "bossa nova", steps: "x..x..x...x..x..", onsets: [0, 3, 6, 10, 13], intervals: [3, 3, 4, 3, 3] },
];

describe.each(SIX)("$name", ({ steps, onsets, intervals }) => {
  test("in one bar of sixteenths the onsets are exact quarters of a beat", () => {
    expect(positions(timeline("4/4", [steps]))).toEqual(onsets.map((onset) => fraction(onset, 4)));
  });

  test("over two bars of eighths they are exact halves", () => {
    const groove = timeline("4/4", [steps.slice(0, 8), steps.slice(8)]);
    expect(groove.bars).toBe(2);
    expect(positions(groove)).toEqual(onsets.map((onset) => fraction(onset, 2)));
  });

  test("the intervals, round to the beginning again", () => {
    const found = positions(timeline("4/4", [steps]));
    const round = [...found.slice(1), fraction(4)].map((next, index) =>
      subtract(next, found[index] ?? fraction(99)),
    );
    expect(round).toEqual(intervals.map((interval) => fraction(interval, 4)));
  });

  test("performed at 60 a minute, each step lasts 250 ms", () => {
    const strokes = performed(timeline("4/4", [steps]), { tempoBpm: 60, bars: 2 });
    expect(strokes.map(({ time }) => time)).toEqual(
      [...onsets, ...onsets.map((onset) => onset + 16)].map((onset) => onset / 4),
    );
  });

  test("printed, it is the same line, on the coarsest grid that holds it", () => {
    const text = printGrid(timeline("4/4", [steps]))
      .split("\n")
      .find((line) => line.startsWith("clave"));
    const printed = (text ?? "").replaceAll(/[^x.]/g, "");
    const coarser = steps.length / printed.length;
    expect(coarser).toBe(onsets.every((onset) => onset % 2 === 0) ? 2 : 1);
    expect([...printed].map((mark) => mark.padEnd(coarser, ".")).join("")).toBe(steps);
  });
});

describe("the 2-3 forms are the halves exchanged", () => {
  test.each([
    { name: "son", threeTwo: "x..x..x...x.x...", twoThree: "..x.x...x..x..x." },
    { name: "rumba", threeTwo: "x..x...x..x.x...", twoThree: "..x.x...x..x...x" },
  ])("$name", ({ threeTwo, twoThree }) => {
    const turned = positions(timeline("4/4", [threeTwo]))
      .map(({ num, den }) => fraction((num + 2 * den) % (4 * den), den))
      .sort((a, b) => a.num * b.den - b.num * a.den);
    expect(positions(timeline("4/4", [twoThree]))).toEqual(turned);
  });
});

describe("on twelve steps", () => {
  test.each([
    { name: "son", steps: "x.x.x..x.x..", onsets: [0, 2, 4, 7, 9] },
    { name: "rumba", steps: "x.x..x.x.x..", onsets: [0, 2, 5, 7, 9] },
    { name: "bell, E(7,12)", steps: "x.xx.x.xx.x.", onsets: [0, 2, 3, 5, 7, 8, 10] },
    { name: "fandango, E(4,12)", steps: "x..x..x..x..", onsets: [0, 3, 6, 9] },
    { name: "Venda, E(5,12)", steps: "x..x.x..x.x.", onsets: [0, 3, 5, 8, 10] },
  ])("$name: thirds of a beat in 12/8, and in 4/4 as triplets", ({ steps, onsets }) => {
    for (const metre of ["12/8", "4/4"]) {
      expect(positions(timeline(metre, [steps]))).toEqual(onsets.map((onset) => fraction(onset, 3)));
    }
  });
});

describe("Euclidean rhythms: as many onsets and steps as named, as even as they can be", () => {
  test.each([
    { onsets: 3, steps: 4, text: "x.xx" },
    { onsets: 3, steps: 8, text: "x..x..x." },
    { onsets: 5, steps: 8, text: "x.xx.xx." },
    { onsets: 5, steps: 16, text: "x..x..x..x..x..." },
    { onsets: 7, steps: 12, text: "x.xx.x.xx.x." },
    { onsets: 7, steps: 16, text: "x..x.x.x..x.x.x." },
    { onsets: 9, steps: 16, text: "x.xx.x.x.xx.x.x." },
    { onsets: 11, steps: 24, text: "x..x.x.x.x.x..x.x.x.x.x." },
    { onsets: 13, steps: 24, text: "x.xx.x.x.x.x.xx.x.x.x.x." },
  ])("E($onsets,$steps)", ({ onsets, steps, text }) => {
    expect(text.length).toBe(steps);
    const groove = timeline("4/4", [text]);
    const beats = beatsPerBar(groove.metre);
    const found = positions(groove);
    expect(found.length).toBe(onsets);
    const places = found.map(({ num, den }) => (num * steps) / (den * beats));
    expect(places.every(Number.isInteger)).toBe(true);
    const gaps = places.map((place, index) => (places[index + 1] ?? steps) - place);
    expect(new Set(gaps).size).toBeLessThanOrEqual(2);
    expect(gaps.every((gap) => gap === Math.floor(steps / onsets) || gap === Math.ceil(steps / onsets))).toBe(
      true,
    );
  });
});

describe("heard: each of the six is known whatever stroke it begins on", () => {
  /** Eight bars or more of one line, begun at its n-th onset; time 0 is the first stroke. */
  function heardFrom(
    steps: string,
    onset: number,
    how: { readonly tempoBpm: number; readonly spreadMs: number },
  ) {
    const strokes = performed(timeline("4/4", [steps]), { tempoBpm: how.tempoBpm, bars: 9 }).slice(onset);
    const from = strokes[0]?.time ?? 0;
    const chance = seededChance(onset);
    return strokes.map(
      ({ time, note }): Hit => ({
        time: Math.max(0, time - from + (how.spreadMs * normal(chance)) / 1000),
        voice: note.voice,
        velocity: 0.7,
        zone: "whole",
        pad: 0,
      }),
    );
  }
  const shelf = shelfStock(
    SIX.map(({ name, steps }) => ({
      id: name,
      name,
      takes: [heardFrom(steps, 0, { tempoBpm: 100, spreadMs: 0 })],
    })),
  );
  const turns = SIX.flatMap(({ name, steps, onsets }) =>
    onsets.map((_, onset) => ({ name, steps, onset, first: onset + 1 })),
  );

  test("they are six different rhythms, even turned", () => {
    const necklace = (steps: string): string =>
      [...steps].map((_, at) => steps.slice(at) + steps.slice(0, at)).sort()[0] ?? "";
    expect(new Set(SIX.map(({ steps }) => necklace(steps))).size).toBe(6);
    expect(shelf.grooves.length).toBe(6);
  });

  test.each(turns)("$name from its onset $first", ({ name, steps, onset }) => {
    for (const how of [
      { tempoBpm: 100, spreadMs: 0 },
      { tempoBpm: 88, spreadMs: 10 },
      { tempoBpm: 116, spreadMs: 10 },
    ]) {
      const hearing = hear(heardFrom(steps, onset, how), shelf);
      if (hearing.kind !== "heard") throw new Error("Nothing was heard.");
      expect(hearing.candidates[0]?.id).toBe(name);
    }
  });
});
