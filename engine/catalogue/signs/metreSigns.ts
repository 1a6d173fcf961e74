import type { Level, Metre } from "../../score/index.ts";
import type { Sign } from "./sign.ts";

/** Names: primers of music theory (Taylor 1989; Read 1979; from memory). Levels: common practice, no source. */
const METRES: readonly (readonly [
  numerator: number,
  denominator: number,
  name: string,
  level: Level,
  others?: readonly string[],
])[] = [
  [4, 4, "four-four", "first-year"],
  [3, 4, "three-four", "first-year", ["waltz time"]],
  [2, 4, "two-four", "first-year"],
  [6, 8, "six-eight", "second-year"],
  [12, 8, "twelve-eight", "steady"],
  [9, 8, "nine-eight", "steady"],
  [5, 4, "five-four", "steady"],
  [7, 8, "seven-eight", "steady"],
  [3, 8, "three-eight", "working"],
  [2, 2, "two-two", "working"],
];

const WITH_FIGURES: readonly Sign[] = METRES.map(([numerator, denominator, name, level, others = []]) => {
  const metre: Metre = { numerator, denominator };
  return {
    id: `metre-${name}`,
    family: "metre",
    level,
    names: { us: `${name} time`, uk: `${name} time` },
    otherNames: [name, `${numerator}/${denominator}`, `${name} metre`, ...others],
    glyph: null,
    drawn: { kind: "metre", metre },
    seen: `the figures ${numerator} over ${denominator} at the head of the staff`,
  };
});

/** Signs of metre at the head of a staff. */
export const METRE_SIGNS: readonly Sign[] = [
  ...WITH_FIGURES,
  {
    id: "common-time",
    family: "metre",
    level: "second-year",
    names: { us: "common time", uk: "common time" },
    otherNames: [],
    glyph: "timeSigCommon",
    drawn: { kind: "at-head", glyph: "timeSigCommon" },
    seen: "a broken circle at the head of the staff",
  },
  {
    id: "cut-time",
    family: "metre",
    level: "steady",
    names: { us: "cut time", uk: "split common time" },
    otherNames: ["cut common time", "alla breve", "split common"],
    glyph: "timeSigCutCommon",
    drawn: { kind: "at-head", glyph: "timeSigCutCommon" },
    seen: "a broken circle with a stroke through it at the head of the staff",
  },
];
