/** Plain names for the files that leave the program: what it is of, what it is, the day, the tempo. */
import type { Bpm } from "../../engine/units/index.ts";

export interface FileNameParts {
  /** What it is of: the name of a style, a groove, a fill. */
  readonly of: string;
  /** What it is: "take", "lean by beat". Nothing where the name alone says it. */
  readonly what?: string;
  /** The day it was played or made, as the computer's calendar has it. */
  readonly day: Date;
  /** `null` where no tempo could be told. */
  readonly tempoBpm: Bpm | null;
  /** "mid", "svg": without the full stop. */
  readonly ending: string;
}

/** Not allowed in a file's name on one of the three desktop systems, or read there as something else. */
const NOT_IN_A_NAME = /[<>:"/\\|?*\p{Cc}\p{Cf}]+/gu;
/** Names the oldest of those systems keeps for its ports. */
const PORT_NAME = /^(con|prn|aux|nul|com\d|lpt\d)(?=$|[ ,.])/i;
/** Letters of each part that are kept: three of them stay well below the 255 bytes a file's name may have. */
const MOST_LETTERS = 60;

/**
 * A name that every desktop system takes.
 *
 * @example
 * fileName({ of: "Shuffle", what: "take", day, tempoBpm: 104.2, ending: "mid" }) // => "Shuffle, take, 2026-11-26, 104 a minute.mid"
 */
export function fileName({ of, what, day, tempoBpm, ending }: FileNameParts): string {
  const parts = [
    plain(of) || "groove",
    ...(what === undefined ? [] : [plain(what)]),
    dayName(day),
    ...(tempoBpm === null ? [] : [`${Math.round(tempoBpm)} a minute`]),
  ];
  return `${parts.join(", ").replace(PORT_NAME, "$1_")}.${ending}`;
}

/** The day as ISO 8601 writes it, by the clock of the wall: "2026-11-26". */
export function dayName(day: Date): string {
  const two = (count: number): string => String(count).padStart(2, "0");
  return `${String(day.getFullYear()).padStart(4, "0")}-${two(day.getMonth() + 1)}-${two(day.getDate())}`;
}

function plain(text: string): string {
  const allowed = text.replace(NOT_IN_A_NAME, " ").replace(/\s+/g, " ");
  return [...allowed]
    .slice(0, MOST_LETTERS)
    .join("")
    .replace(/^[. ]+|[. ]+$/g, "");
}
