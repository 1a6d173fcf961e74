/** What an entry of the Shelf holds, written: read from its grid text and printed back to it. */
import {
  type Fill,
  GridError,
  type Groove,
  inWholeBars,
  type Part,
  type Passage,
  type Phrase,
  parseFill,
  parseGrid,
  parsePart,
  parsePhrase,
  partOnStaff,
  printFill,
  printGrid,
  printPart,
  printPhrase,
  type StaffSection,
  type Stretch,
  unfolded,
  usualTempo,
  writeStaff,
} from "../../score/index.ts";
import type { Bpm } from "../../units/index.ts";

/** A groove repeats, a fill leads into a bar, a phrase is a call or an answer, a part is the drum part of a tune. */
export const ENTRY_KINDS = ["groove", "fill", "phrase", "part"] as const;
export type EntryKind = (typeof ENTRY_KINDS)[number];

export type Written =
  | { readonly kind: "groove"; readonly music: Groove }
  | { readonly kind: "fill"; readonly music: Fill }
  | { readonly kind: "phrase"; readonly music: Phrase }
  | { readonly kind: "part"; readonly music: Part };

/** What of the grid text is not the teacher's to write: it is said beside the text. */
export interface Heads {
  readonly id: string;
  readonly name: string;
}

/**
 * Reads a whole grid text.
 *
 * @throws GridError saying line, column, what is wrong there and what is expected.
 */
export function readWritten(kind: EntryKind, grid: string): Written {
  switch (kind) {
    case "groove":
      return { kind, music: parseGrid(grid) };
    case "fill":
      return { kind, music: parseFill(grid) };
    case "phrase":
      return { kind, music: parsePhrase(grid) };
    case "part":
      return { kind, music: parsePart(grid) };
  }
}

/** The canonical grid text: `readWritten` gives the same music back. */
export function printWritten(written: Written): string {
  switch (written.kind) {
    case "groove":
      return printGrid(written.music);
    case "fill":
      return printFill(written.music);
    case "phrase":
      return printPhrase(written.music);
    case "part":
      return printPart(written.music);
  }
}

/** One stretch of it in whole bars, to be drawn as a ring: a fill is silent before it begins; of a part, its first groove. */
export function inBars(written: Written): Groove {
  switch (written.kind) {
    case "groove":
    case "phrase":
      return written.music;
    case "fill":
      return inWholeBars(written.music);
    case "part":
      return { ...firstPassage(written.music).groove, id: written.music.id, name: written.music.name };
  }
}

function firstPassage(part: Part): Passage {
  const passage = part.sections[0]?.passages[0];
  if (!passage) throw new Error(`The part ${part.id} has no bar.`);
  return passage;
}

/** Metre, tempos and length of the whole; of a part, the metre it begins in. */
export function sizeOf(written: Written): Pick<Groove, "metre" | "tempoBpm" | "bars"> {
  const { metre, tempoBpm, bars } = inBars(written);
  if (written.kind !== "part") return { metre, tempoBpm, bars };
  const tempos = written.music.sections.map((section) => section.tempoBpm);
  return {
    metre,
    tempoBpm: { low: Math.min(...tempos), high: Math.max(...tempos) },
    bars: unfolded(written.music).reduce((sum, stretch) => sum + stretch.bars, 0),
  };
}

/**
 * All of it in a row, each stretch played once, as it is sounded and written to a file.
 *
 * @param tempoBpm its usual tempo when not said; of a part, each section's own.
 */
export function inARow(written: Written, tempoBpm?: Bpm): readonly Stretch[] {
  if (written.kind === "part") return unfolded(written.music);
  const bars = inBars(written);
  return [{ ...bars, tempoBpm: tempoBpm ?? Math.round(usualTempo(bars)) }];
}

/** All of it on the staff, to be read. What goes round stands between repeat signs. */
export function onStaff(written: Written, tempoBpm?: Bpm): readonly StaffSection[] {
  if (written.kind === "part") return partOnStaff(written.music);
  const repeated = written.kind === "groove";
  return [
    {
      times: 1,
      score: writeStaff(inBars(written), { repeated, ...(tempoBpm === undefined ? {} : { tempoBpm }) }),
    },
  ];
}

/** The same music under another id and name. */
export function under(written: Written, { id, name }: Heads): Written {
  switch (written.kind) {
    case "groove":
      return { kind: written.kind, music: { ...written.music, id, name } };
    case "fill":
      return { kind: written.kind, music: { ...written.music, id, name } };
    case "phrase":
      return { kind: written.kind, music: { ...written.music, id, name } };
    case "part":
      return { kind: written.kind, music: { ...written.music, id, name } };
  }
}

/** The grid text without the lines that say id and name, as it is edited. */
export function bodyOf(written: Written): string {
  return printWritten(written).split("\n").slice(2).join("\n").trimStart();
}

/**
 * The same of strokes laid out in whole bars; a fill keeps its level, a phrase its role, and a part is changed as text only.
 * It may be one that cannot be read: a silent fill, say.
 */
export function bodyInBars(like: Written, bars: Groove): string {
  const body = bodyOf({ kind: "groove", music: bars });
  switch (like.kind) {
    case "groove":
      return body;
    case "fill":
      return `level: ${like.music.level}\n${body}`;
    case "phrase":
      return `role: ${like.music.role}\n${body}`;
    case "part":
      return bodyOf(like);
  }
}

/** Lines that stand before the body of a part. */
const LINES_OF_HEADS = 2;

/**
 * Reads what was edited. Id and name stand below it, so that the lines keep their numbers; only a part must begin with them.
 *
 * @throws GridError with a line of `body`.
 * @example
 * readBody("groove", "metre: 4/4\ntempo: 60-90\nkick | x... |", { id: "a", name: "A" }).music.id // => "a"
 */
export function readBody(kind: EntryKind, body: string, { id, name }: Heads): Written {
  const text = body.trimEnd();
  const heads = `${kind}: ${id}\nname: ${name}`;
  try {
    return readWritten(kind, kind === "part" ? `${heads}\n${text}` : `${text}\n${heads}`);
  } catch (error) {
    if (!(error instanceof GridError)) throw error;
    throw placedIn(text, error, kind === "part" ? LINES_OF_HEADS : 0);
  }
}

/** Counted by the lines of the body; what is missing is told at the last line there is. */
function placedIn(body: string, error: GridError, linesBefore: number): GridError {
  const line = Math.min(Math.max(1, error.line - linesBefore), body.split("\n").length);
  if (line === error.line) return error;
  return new GridError(line, error.column, error.message.replace(/^Line \d+, column \d+: /, ""));
}
