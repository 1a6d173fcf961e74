import { describe, expect, test } from "vitest";
import {
  type ChartLook,
  FIRST_SETTINGS,
  NEW_WALL_CHART,
  type WallChart,
  type WallChartEvent,
  wallChartAfter,
} from "../../../../engine/rounds/index.ts";
import {
  allLooks,
  gainWords,
  looksTold,
  lookWords,
  partWords,
  slipWords,
} from "../../../../renderer/screens/wall-chart/chartWords.ts";

function look(named: readonly string[], about: Partial<ChartLook["settings"]> = {}): ChartLook {
  return {
    by: "ottilie",
    settings: { ...FIRST_SETTINGS, ...about },
    forSeconds: 120,
    seconds: 120,
    named,
    stray: [],
    ofTeacher: false,
  };
}

test.each([
  [0, "0:00"],
  [9, "0:09"],
  [59.4, "0:59"],
  [60, "1:00"],
  [61.2, "1:01"],
  [119.7, "2:00"],
  [600, "10:00"],
])("%d seconds are told as %s", (seconds, words) => {
  expect(lookWords(seconds)).toBe(words);
});

describe("what a look gained", () => {
  test.each([
    ["nothing was looked at", [], []],
    ["the first look", [look(["flam"])], ["1 of 40 named."]],
    [
      "a second one with more",
      [look(["flam"]), look(["flam", "flam-tap", "pataflafla"])],
      ["3 of 40 named.", "2 more than before: Flam Tap, Pataflafla."],
    ],
    [
      "one with less",
      [look(["flam", "flam-tap"]), look(["flam"])],
      ["1 of 40 named.", "None that was not named before.", "Not named again: Flam Tap."],
    ],
    ["of ten", [look(["single-stroke-roll"], { from: 1, to: 10 })], ["1 of 10 named."]],
  ] as const)("%s", (_, looks, words) => {
    expect(gainWords(looks)).toEqual(words);
  });
});

describe("the places that slipped", () => {
  const inOrder = (named: readonly string[]) => slipWords(look(named, { task: "order", from: 1, to: 4 }));
  const [one, two, three, four] = [
    "single-stroke-roll",
    "single-stroke-four",
    "single-stroke-seven",
    "multiple-bounce-roll",
  ];

  test.each([
    ["none", [one, two, three, four], []],
    [
      "one too soon, one left out",
      [one, three, two],
      [
        "Single Stroke Seven, named at place 2: it comes after Single Stroke Four.",
        "Left out: Multiple Bounce Roll.",
      ],
    ],
    [
      "the first came last",
      [two, three, four, one],
      ["Single Stroke Roll, named at place 4: it is the first."],
    ],
    ["nothing was named: not each is told to be left out", [], []],
  ] as const)("%s", (_, named, words) => {
    expect(inOrder(named)).toEqual(words);
  });

  test("where the order was not asked, there is none", () => {
    expect(slipWords(look([two, one]))).toEqual([]);
  });
});

describe("which looks are told", () => {
  const after = (...events: readonly WallChartEvent[]): WallChart =>
    events.reduce(wallChartAfter, NEW_WALL_CHART);
  const began = (...of: readonly string[]): WallChartEvent => ({ kind: "look-began", of });
  const hidden: WallChartEvent = { kind: "hidden" };
  const done: WallChartEvent = { kind: "named-all" };

  test("those of the player who named last, at this part of the chart", () => {
    const ten: WallChartEvent = { kind: "set", settings: { ...FIRST_SETTINGS, from: 1, to: 10 } };
    const own = after(began("ottilie"), hidden, done, ten, began("ottilie"), hidden, done);
    expect(looksTold(own).map((looks) => looks.map(({ settings }) => settings.to))).toEqual([[10]]);
    expect(allLooks(own).map((looks) => looks.map(({ settings }) => settings.to))).toEqual([[40], [10]]);
  });

  test("of a group, those of everybody who looked at once", () => {
    const own = after(
      began("ottilie", "bram"),
      hidden,
      done,
      done,
      began("ottilie", "bram"),
      hidden,
      done,
      done,
    );
    expect(looksTold(own).map((looks) => looks.map(({ by }) => by))).toEqual([
      ["ottilie", "ottilie"],
      ["bram", "bram"],
    ]);
    expect(allLooks(own)).toEqual(looksTold(own));
  });

  test("none while it is looked or named", () => {
    expect(looksTold(after(began("ottilie"), hidden))).toEqual([]);
    expect(allLooks(after(began("ottilie"), hidden))).toEqual([]);
  });
});

test.each([
  [{}, "The whole chart"],
  [{ from: 11, to: 20 }, "11 to 20"],
  [{ task: "order", from: 1, to: 10 }, "1 to 10, in order"],
  [{ task: "families" }, "The whole chart, the families"],
] as const)("%o is called %s", (about, words) => {
  expect(partWords({ ...FIRST_SETTINGS, ...about })).toBe(words);
});
