import { describe, expect, test } from "vitest";
import { gradeTake, grooveTarget, type Report } from "../../../../../engine/grading/index.ts";
import type { Hit } from "../../../../../engine/kit/index.ts";
import { type Groove, parseGrid, performed } from "../../../../../engine/score/index.ts";
import {
  MOST_PLACES,
  type MoreSection,
  moreSections,
} from "../../../../../renderer/screens/call-a-style/report/moreSections.ts";

const groove: Groove = parseGrid(
  "groove: plain\nname: Plain\nmetre: 4/4\nfeel: straight\ntempo: 80-120\n\nride | x.x. x.x. x.x. x.x. |\nkick | x... .... x... .... |",
);

function plainReport(): Report {
  const hits = performed(groove, { tempoBpm: 100, bars: 2 }).map(
    ({ time, note }): Hit => ({ time, voice: note.voice, zone: "whole", velocity: 0.6, pad: 38 }),
  );
  return gradeTake(hits, grooveTarget(groove, { tempoBpm: 100, bars: 2 }), { start: "shared" });
}

/** A section of a report that is as the figures say. */
function section(heading: string, figures: Partial<Report>): MoreSection {
  const found = moreSections({ ...plainReport(), ...figures }).find((each) => each.heading === heading);
  if (!found) throw new Error(`There is no section "${heading}".`);
  return found;
}

test("every section has a heading of its own and a sentence, whatever was played", () => {
  const sections = moreSections(plainReport());
  expect(new Set(sections.map(({ heading }) => heading)).size).toBe(sections.length);
  for (const { sentences, table } of sections) {
    expect(sentences.length).toBeGreaterThan(0);
    for (const sentence of sentences) expect(sentence).toMatch(/^[A-Z].*\.$/s);
    for (const row of table?.rows ?? []) expect(row).toHaveLength(table?.columns.length ?? 0);
  }
});

describe("where nothing is asked or too little was played, a sentence says so and there is no table", () => {
  test.each<[string, Partial<Report>, string]>([
    ["Form", { form: { slips: [] } }, "The form held from beginning to end."],
    [
      "Clock and limbs",
      { wander: { kind: "too-few", intervals: 7 } },
      "Too few even strokes in a row to tell the inner clock from the limbs: seven so far.",
    ],
    ["Together", { unisons: [] }, "No two limbs are written together often enough to tell."],
    ["Swing by limb", { swingByLimb: [] }, "Nothing is written on both halves of a beat."],
    ["Flams and drags", { ornaments: [] }, "None are written here."],
    ["Hi-hat", { hiHat: null }, "No hi-hat is written here."],
    ["Where the touch differs", { dynamics: [] }, "Too few plain strokes to hold others against."],
  ])("%s", (heading, figures, sentence) => {
    expect(section(heading, figures)).toEqual({ heading, sentences: [sentence], table: null });
  });
});

test("slips of the form: a sentence and a row each", () => {
  const { sentences, table } = section("Form", {
    form: {
      slips: [
        { kind: "bars-dropped", bar: 5, beat: 1, bars: 1, strokes: 12 },
        { kind: "turned-round", bar: 7, beat: 3, byBeats: 1, untilBar: null, strokes: 30 },
      ],
    },
  });
  expect(sentences).toHaveLength(2);
  expect(table?.rows).toEqual([
    ["bar 5", "skipped", "12"],
    ["bar 7, beat 3", "turned round", "30"],
  ]);
});

test("clock and limbs, and what is corrected against a click", () => {
  const row = {
    limb: "hats" as const,
    intervals: 96,
    intervalMs: 300,
    intervalSpreadMs: 17,
    lag1: -0.31,
    lag1Error: 0.1,
    correction: 0.4,
  };
  const told = section("Clock and limbs", {
    wander: { kind: "clock-and-limbs", clockMs: 10.4, limbMs: 9.5, ...row },
  });
  expect(told.sentences.at(-1)).toBe(
    "Of each difference from the click, the next stroke makes good 40 in 100.",
  );
  expect(told.table?.rows).toContainEqual(["inner clock", "10.4 ms"]);
  expect(told.table?.rows).toContainEqual(["correlation of neighbours", "−0.31, give or take 0.10"]);
  const untold = section("Clock and limbs", {
    wander: { kind: "model-does-not-hold", ...row, correction: null },
  });
  expect(untold.table?.rows.map(([name]) => name)).not.toContain("inner clock");
});

test("limbs together: the side of the gap is said, and how many are heard as two", () => {
  const { table } = section("Together", {
    unisons: [{ limb: "kick", against: "hats", count: 20, gapMs: -9.25, spreadMs: 6, heardApart: 2 }],
  });
  expect(table?.rows).toEqual([["kick against hi-hat", "9.3 ms before", "6.0 ms", "20", "2"]]);
  const level = section("Together", {
    unisons: [{ limb: "kick", against: "hats", count: 20, gapMs: -0.02, spreadMs: 6, heardApart: 0 }],
  });
  expect(level.table?.rows[0]?.slice(1)).toEqual(["0.0 ms", "6.0 ms", "20", "none"]);
});

test("swing limb by limb; too few pairs are said to be too few", () => {
  const swing = section("Swing by limb", {
    swingByLimb: [
      { limb: "cymbals", ratio: 1.93, pairs: 40, ownBeats: true },
      { limb: "snare", ratio: null, pairs: 2, ownBeats: false },
    ],
  });
  expect(swing.sentences).toHaveLength(1);
  expect(swing.table?.rows).toEqual([
    ["cymbals", "1.93 : 1", "40", "its own beats"],
    ["snare", "too few pairs", "2", "the beats of the others"],
  ]);
});

test("flams by their gaps, and the hi-hat by what the pedal says", () => {
  const flams = section("Flams and drags", {
    ornaments: [
      { ornament: "flam", asWritten: 5, tooTight: 1, tooOpen: 2, noGrace: 0, gapMs: 27.5, each: [] },
    ],
  });
  expect(flams.table?.rows).toEqual([["flam", "5", "1", "2", "none", "27.5 ms"]]);
  const hiHat = section("Hi-hat", {
    hiHat: {
      open: 8,
      closed: 24,
      openAsClosed: 3,
      closedAsOpen: 0,
      pedal: 4,
      pedalMissing: 1,
      opennessOpen: 0.62,
      opennessClosed: null,
      where: [],
    },
  });
  expect(hiHat.sentences.at(-1)).toBe("The foot is missing 1 of 4 times.");
  expect(hiHat.table?.rows).toEqual([
    ["open", "8", "3", "62 in 100"],
    ["closed", "24", "none", "the kit does not say"],
    ["foot", "4", "1", "not asked"],
  ]);
});

test("of many strokes of another strength the first are listed, in the order of the take", () => {
  const where = Array.from({ length: MOST_PLACES + 5 }, (_, at) => ({
    targetIndex: 100 - at,
    bar: 20 - at,
    beat: 1,
    written: "plain" as const,
    heard: "accent" as const,
  }));
  const { sentences, table } = section("Where the touch differs", {
    dynamics: [{ voice: "ride", range: null, plain: 0.6, accents: null, ghosts: null, where }],
  });
  expect(sentences).toEqual(["17 strokes of another strength than written; the first twelve are listed."]);
  expect(table?.rows).toHaveLength(MOST_PLACES);
  expect(table?.rows[0]).toEqual(["bar 4, beat 1", "ride", "plain", "accent"]);
});
