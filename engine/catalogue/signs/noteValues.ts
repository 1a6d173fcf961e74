import type { Level, NoteBase } from "../../score/index.ts";
import type { Sign } from "./sign.ts";

/** A value in both usages, as the first word or words of its name. */
interface ValueName {
  readonly base: Exclude<NoteBase, 128>;
  readonly us: string;
  readonly uk: string;
  /** In figures, as it is often written. */
  readonly figures?: string;
  /** SMuFL's names of the note with its stem up, and of the rest. */
  readonly glyphs: readonly [note: string, rest: string];
  readonly levels: readonly [plain: Level, dotted: Level];
}

/**
 * Source of the names: primers of music theory (Taylor 1989; Read 1979; from memory). Levels: common practice, no source.
 */
const VALUES: readonly ValueName[] = [
  {
    base: 1,
    us: "whole",
    uk: "semibreve",
    glyphs: ["noteWhole", "restWhole"],
    levels: ["first-year", "steady"],
  },
  {
    base: 2,
    us: "half",
    uk: "minim",
    glyphs: ["noteHalfUp", "restHalf"],
    levels: ["first-year", "first-year"],
  },
  {
    base: 4,
    us: "quarter",
    uk: "crotchet",
    glyphs: ["noteQuarterUp", "restQuarter"],
    levels: ["first-year", "second-year"],
  },
  {
    base: 8,
    us: "eighth",
    uk: "quaver",
    figures: "8th",
    glyphs: ["note8thUp", "rest8th"],
    levels: ["first-year", "second-year"],
  },
  {
    base: 16,
    us: "sixteenth",
    uk: "semiquaver",
    figures: "16th",
    glyphs: ["note16thUp", "rest16th"],
    levels: ["second-year", "steady"],
  },
  {
    base: 32,
    us: "thirty-second",
    uk: "demisemiquaver",
    figures: "32nd",
    glyphs: ["note32ndUp", "rest32nd"],
    levels: ["steady", "working"],
  },
  {
    base: 64,
    us: "sixty-fourth",
    uk: "hemidemisemiquaver",
    figures: "64th",
    glyphs: ["note64thUp", "rest64th"],
    levels: ["working", "working"],
  },
];

const NOTE_SEEN: Readonly<Record<ValueName["base"], string>> = {
  1: "open oval head, no stem",
  2: "open head, stem",
  4: "filled head, stem",
  8: "filled head, stem, one flag",
  16: "filled head, stem, two flags",
  32: "filled head, stem, three flags",
  64: "filled head, stem, four flags",
};

const REST_SEEN: Readonly<Record<ValueName["base"], string>> = {
  1: "block that hangs under the fourth line",
  2: "block that sits on the middle line",
  4: "zigzag stroke",
  8: "slanted stem, one hook",
  16: "slanted stem, two hooks",
  32: "slanted stem, three hooks",
  64: "slanted stem, four hooks",
};

/** Notes, plain and dotted, from the longest. */
export const NOTE_VALUE_SIGNS: readonly Sign[] = VALUES.flatMap((value) => [note(value, 0), note(value, 1)]);
/** Rests, plain and dotted, from the longest. */
export const REST_SIGNS: readonly Sign[] = VALUES.flatMap((value) => [rest(value, 0), rest(value, 1)]);

function note({ base, us, uk, figures, glyphs, levels }: ValueName, dots: 0 | 1): Sign {
  const before = dots === 1 ? "dotted " : "";
  return {
    id: `${before}${us} note`.replaceAll(" ", "-"),
    family: "note",
    level: levels[dots],
    names: { us: `${before}${us} note`, uk: `${before}${uk}` },
    // A note may be called by its value alone; a rest may not.
    otherNames: [
      `${before}${us}`,
      `${before}${uk} note`,
      ...(figures ? [`${before}${figures} note`, `${before}${figures}`] : []),
      ...(base === 64 ? [`${before}semidemisemiquaver`] : []),
    ],
    glyph: dots === 0 ? glyphs[0] : null,
    drawn: { kind: "note", value: { base, dots } },
    seen: `${NOTE_SEEN[base]}${dots === 1 ? ", a dot beside the head" : ""}`,
  };
}

function rest({ base, us, uk, figures, glyphs, levels }: ValueName, dots: 0 | 1): Sign {
  const before = dots === 1 ? "dotted " : "";
  return {
    id: `${before}${us} rest`.replaceAll(" ", "-"),
    family: "rest",
    level: levels[dots],
    names: { us: `${before}${us} rest`, uk: `${before}${uk} rest` },
    otherNames: [
      ...(figures ? [`${before}${figures} rest`] : []),
      ...(base === 64 ? [`${before}semidemisemiquaver rest`] : []),
    ],
    glyph: dots === 0 ? glyphs[1] : null,
    drawn: { kind: "rest", value: { base, dots } },
    seen: `${REST_SEEN[base]}${dots === 1 ? ", a dot beside it" : ""}`,
  };
}
