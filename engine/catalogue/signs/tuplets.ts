import type { Level, NoteBase } from "../../score/index.ts";
import type { Sign } from "./sign.ts";

interface TupletName {
  readonly id: string;
  readonly actual: number;
  readonly normal: number;
  readonly unit: NoteBase;
  readonly level: Level;
  readonly us: string;
  readonly uk: string;
  readonly otherNames: readonly string[];
}

const NUMBERS: Readonly<Record<number, string>> = {
  2: "two",
  3: "three",
  4: "four",
  5: "five",
  6: "six",
  7: "seven",
};
const BEAMS: Readonly<Partial<Record<NoteBase, string>>> = {
  4: "with stems",
  8: "under one beam",
  16: "under two beams",
};

/** Names and ratios: primers of music theory (Taylor 1989; Read 1979; from memory). Levels: common practice, no source. */
const TUPLETS: readonly TupletName[] = [
  {
    id: "eighth-triplet",
    actual: 3,
    normal: 2,
    unit: 8,
    level: "first-year",
    us: "eighth-note triplet",
    uk: "quaver triplet",
    otherNames: ["8th note triplet", "eighth triplet", "triplet eighth", "triplet quaver", "triplet"],
  },
  {
    id: "quarter-triplet",
    actual: 3,
    normal: 2,
    unit: 4,
    level: "steady",
    us: "quarter-note triplet",
    uk: "crotchet triplet",
    otherNames: ["quarter triplet", "triplet quarter", "triplet crotchet"],
  },
  {
    id: "sixteenth-triplet",
    actual: 3,
    normal: 2,
    unit: 16,
    level: "steady",
    us: "sixteenth-note triplet",
    uk: "semiquaver triplet",
    otherNames: ["16th note triplet", "sixteenth triplet", "triplet sixteenth", "triplet semiquaver"],
  },
  {
    id: "sextuplet",
    actual: 6,
    normal: 4,
    unit: 16,
    level: "second-year",
    us: "sextuplet",
    uk: "sextuplet",
    otherNames: ["sixteenth-note sextuplet", "semiquaver sextuplet", "sextolet", "sixtuplet"],
  },
  {
    id: "duplet",
    actual: 2,
    normal: 3,
    unit: 8,
    level: "working",
    us: "duplet",
    uk: "duplet",
    otherNames: ["eighth-note duplet", "quaver duplet"],
  },
  {
    id: "quadruplet",
    actual: 4,
    normal: 3,
    unit: 8,
    level: "working",
    us: "quadruplet",
    uk: "quadruplet",
    otherNames: ["eighth-note quadruplet", "quaver quadruplet"],
  },
  {
    id: "quintuplet",
    actual: 5,
    normal: 4,
    unit: 16,
    level: "working",
    us: "quintuplet",
    uk: "quintuplet",
    otherNames: ["sixteenth-note quintuplet", "semiquaver quintuplet", "quintolet"],
  },
  {
    id: "septuplet",
    actual: 7,
    normal: 4,
    unit: 16,
    level: "working",
    us: "septuplet",
    uk: "septuplet",
    otherNames: ["sixteenth-note septuplet", "semiquaver septuplet", "septolet"],
  },
];

export const TUPLET_SIGNS: readonly Sign[] = TUPLETS.map(
  ({ id, actual, normal, unit, level, us, uk, otherNames }): Sign => ({
    id,
    family: "tuplet",
    level,
    names: { us, uk },
    otherNames,
    glyph: null,
    drawn: { kind: "tuplet", actual, normal, unit },
    seen: `${NUMBERS[actual]} notes ${BEAMS[unit]}, the figure ${actual} over them`,
  }),
);
