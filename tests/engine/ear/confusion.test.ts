import { expect, test } from "vitest";
import {
  askingWeight,
  confusionTable,
  type HeardAs,
  heardAs,
  type Surface,
} from "../../../engine/ear/index.ts";

function moments(...each: readonly (readonly Surface[])[]) {
  return each.map((moment) => moment.map((surface) => ({ surface })));
}

test.each([
  ["named rightly", [["ride"]], [["ride"]], ["ride=ride"]],
  ["named as another", [["ride"]], [["bell"]], ["ride=bell"]],
  ["in a row, by place", [["kick"], ["snare"]], [["snare"], ["kick"]], ["kick=snare", "snare=kick"]],
  ["a row cut short", [["kick"], ["snare"]], [["kick"]], ["kick=kick", "snare=null"]],
  ["two at once, in either order", [["kick", "ride"]], [["ride", "kick"]], ["kick=kick", "ride=ride"]],
  ["two at once, one of them wrong", [["kick", "ride"]], [["bell", "kick"]], ["kick=kick", "ride=bell"]],
  ["two at once, one named", [["kick", "ride"]], [["ride"]], ["ride=ride", "kick=null"]],
] as const satisfies readonly (readonly [
  string,
  readonly (readonly Surface[])[],
  readonly (readonly Surface[])[],
  readonly string[],
])[])("%s", (_, asked, said, pairs) => {
  expect(
    heardAs(moments(...asked), moments(...said)).map(({ sounded, named }) => `${sounded}=${named}`),
  ).toEqual(pairs);
});

const HEARD: readonly HeardAs[] = [
  { sounded: "ride", named: "bell" },
  { sounded: "ride", named: "bell" },
  { sounded: "ride", named: null },
  { sounded: "ride", named: "ride" },
  { sounded: "kick", named: "kick" },
  { sounded: "kick", named: "kick" },
];

test("a row for what sounded, in the order of the kit, with what was said instead, the most frequent first", () => {
  expect(confusionTable(HEARD)).toEqual([
    { sounded: "kick", times: 2, right: 2, instead: [] },
    {
      sounded: "ride",
      times: 4,
      right: 1,
      instead: [
        { named: "bell", times: 2 },
        { named: null, times: 1 },
      ],
    },
  ]);
});

test("what is confused comes up more often: what was missed, and what was said for it", () => {
  const weightOf = askingWeight(HEARD);
  // Laplace's rule of succession: one more of each kind than was seen.
  expect(weightOf("ride")).toBeCloseTo((3 + 1) / (4 + 2));
  expect(weightOf("bell")).toBeCloseTo((2 + 1) / (2 + 2));
  expect(weightOf("kick")).toBeCloseTo((0 + 1) / (2 + 2));
  expect(weightOf("snare")).toBeCloseTo(1 / 2);
});
