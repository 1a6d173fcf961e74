/** Bars set with their natural widths, and broken into systems. */
import { Formatter, type Voice } from "vexflow/core";
import type { Metre } from "../engine/score/index.ts";
import { BEFORE_GRACES, leastRoom } from "./keepApart.ts";
import { type SetPart, setPart } from "./staffNotes.ts";
import type { StaffToEngrave } from "./staffToEngrave.ts";

/** VexFlow's unit: ten to the staff space. */
export const UNITS_PER_SPACE = 10;

/** A bar of all staves, set but not yet laid out. */
export interface SetBar {
  readonly index: number;
  /** By staff; `undefined` where a simile sign stands for the bar. */
  readonly parts: readonly (readonly SetPart[] | undefined)[];
  /** Not there when the bar has rests only. */
  readonly formatter: Formatter | undefined;
  /** The width at which it reads well, without clef and metre. */
  readonly width: number;
  /** The least width at which nothing touches. */
  readonly narrow: number;
}

/** One system: its bars, each with the width it gets. */
export interface SystemLine {
  readonly bars: readonly { readonly bar: SetBar; readonly width: number }[];
}

const CLEF_AND_METRE = 85;
const CLEF = 45;
const EMPTY_BAR = 110;
/** Air for each moment of the bar beyond what VexFlow needs, and at the ends of the bar. By eye. */
const AIR = 11;
const AIR_AT_ENDS = 26;
/** A quarter of the bar has at least this room, so that a bar of few notes is not pinched beside one of many. */
const QUARTER = 62;
/** Bars may be set this much tighter to fit one more on a line. */
const MOST_SQUEEZE = 0.85;
/** What VexFlow takes at the ends of a bar, and for a repeat sign. */
const ENDS = 42;
const REPEAT_SIGN = 15;
/** A line that is far from full is not pulled wider than this. */
const MOST_STRETCH = 1.5;

/** Sets the bar at `index` of all staves. */
export function setBar(
  staves: readonly Pick<StaffToEngrave, "score" | "differences">[],
  index: number,
  simile: boolean,
): SetBar {
  const parts = staves.map(({ score, differences }) => {
    const bar = score.bars[index];
    if (!bar || (simile && bar.sameAsBefore)) return undefined;
    const hidden = (note: number) => differences?.get(note)?.kind === "left-out";
    return bar.parts.map((part) => setPart(part, bar.parts, score.metre, hidden));
  });
  const voices = voicesOf(parts);
  if (voices.length === 0) {
    return { index, parts, formatter: undefined, width: EMPTY_BAR, narrow: EMPTY_BAR };
  }
  const formatter = new Formatter();
  for (const voice of voices) formatter.joinVoices([voice]);
  // VexFlow's own least first: it measures the notes.
  const usual = formatter.preCalculateMinTotalWidth([...voices]) + BEFORE_GRACES * ornamentsIn(parts);
  const least = Math.max(usual, leastRoom(formatter));
  const last = (staves[0]?.score.bars.length ?? 0) - 1;
  const moments = formatter.getTickContexts()?.list.length ?? 1;
  const signs = staves.some(({ score }) => score.repeated)
    ? (index === 0 ? REPEAT_SIGN : 0) + (index === last ? REPEAT_SIGN : 0)
    : 0;
  const width =
    signs +
    Math.max(EMPTY_BAR, QUARTER * quartersOf(staves[0]?.score.metre), least + AIR * moments + AIR_AT_ENDS);
  const narrow = Math.max(width * MOST_SQUEEZE, signs + least + ENDS);
  return { index, parts, formatter, width, narrow };
}

function ornamentsIn(parts: SetBar["parts"]): number {
  const symbols = parts.flatMap((staff) => (staff ?? []).flatMap(({ symbols }) => symbols));
  return symbols.filter(
    ({ symbol }) => symbol.kind === "chord" && symbol.heads.some(({ note }) => note.ornament),
  ).length;
}

function quartersOf(metre: Metre | undefined): number {
  return metre ? (4 * metre.numerator) / metre.denominator : 0;
}

export function voicesOf(parts: SetBar["parts"]): readonly Voice[] {
  return parts.flatMap((staff) => (staff ?? []).flatMap(({ voice }) => voice ?? []));
}

/** Breaks the bars into systems of like length, and gives them the room there is. */
export function systemsOf(bars: readonly SetBar[], width: number): readonly SystemLine[] {
  const lines = evenly(bars, width) ?? greedily(bars, width);
  return lines.map((line, row) => {
    const head = headWidth(row);
    const widths = widthsIn(line, width - head);
    return {
      bars: line.map((bar, at) => ({
        bar,
        width: (widths[at] ?? bar.width) + (at === 0 ? head : 0),
      })),
    };
  });
}

/** The room for notes shared out: all alike wider than they need, or each nearer to its least. */
function widthsIn(line: readonly SetBar[], room: number): readonly number[] {
  const natural = line.reduce((sum, bar) => sum + bar.width, 0);
  if (room >= natural) return line.map(({ width }) => width * Math.min(room / natural, MOST_STRETCH));
  const least = line.reduce((sum, bar) => sum + bar.narrow, 0);
  // A bar too wide for the line keeps its notes apart and goes beyond it.
  const share = natural > least ? Math.max(0, (room - least) / (natural - least)) : 0;
  return line.map(({ width, narrow }) => narrow + (width - narrow) * share);
}

function headWidth(row: number): number {
  return row === 0 ? CLEF_AND_METRE : CLEF;
}

/** The least width of a first line that holds all these bars. */
export function narrowestLine(bars: readonly SetBar[]): number {
  return bars.reduce((sum, bar) => sum + bar.narrow, headWidth(0));
}

function fits(line: readonly SetBar[], row: number, width: number): boolean {
  return line.reduce((sum, bar) => sum + bar.narrow, headWidth(row)) <= width;
}

function greedily(bars: readonly SetBar[], width: number): readonly (readonly SetBar[])[] {
  const lines: SetBar[][] = [];
  for (const bar of bars) {
    const line = lines.at(-1);
    if (line && fits([...line, bar], lines.length - 1, width)) line.push(bar);
    else lines.push([bar]);
  }
  return lines;
}

/**
 * Like many bars on each line: as few lines as will do, and eight, four or two bars on each where that comes out even.
 * `undefined` where the bars differ too much for it.
 */
function evenly(bars: readonly SetBar[], width: number): readonly (readonly SetBar[])[] | undefined {
  const most = Math.min(greedily(bars, width)[0]?.length ?? 1, bars.length);
  const even = [8, 4, 2].filter((count) => count <= most && bars.length % count === 0);
  const fewest = Math.ceil(bars.length / Math.ceil(bars.length / most));
  return [bars.length === most ? most : undefined, ...even, fewest]
    .flatMap((count) => (count === undefined ? [] : [linesOf(bars, count)]))
    .find((lines) => lines.every((line, row) => fits(line, row, width)));
}

function linesOf(bars: readonly SetBar[], count: number): readonly (readonly SetBar[])[] {
  return Array.from({ length: Math.ceil(bars.length / count) }, (_, row) =>
    bars.slice(row * count, (row + 1) * count),
  );
}
