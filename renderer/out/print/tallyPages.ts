/**
 * Question: how much of a tally goes on each sheet of paper?
 *
 * Method: by the room its lines take, reckoned a little too large: a sheet is filled line by line, and what is left over goes on
 * on the next one under the same heading. Millimetres, as the sheet is set (`tallyPage.module.css`).
 */
import type { TallyPart } from "./sheet.ts";

/** Letter is the lower of the two papers; its margins are left out. */
const SHEET_MM = 250;
/** Name, date, title and the line under it. */
const TOP_MM = 55;
const HEADING_MM = 14;
/** Heading of the columns. */
const COLUMNS_MM = 7;
const LINE_MM = 7.4;
const SMALL_LINE_MM = 4.8;
/** Letters on a line of a column, and of a cell. */
const SMALL_LETTERS = 42;
const CELL_LETTERS = 40;
/** Lines stand in two columns. */
const LINE_COLUMNS = 2;

/** The parts on each sheet, in order. */
export function tallyPages(parts: readonly TallyPart[]): readonly (readonly TallyPart[])[] {
  const pages: TallyPart[][] = [[]];
  let left = SHEET_MM - TOP_MM;
  for (const part of parts) {
    let rest: TallyPart | null = part;
    while (rest) {
      const fitting: number = countThatFits(rest, left);
      if (fitting === 0 && (pages.at(-1)?.length ?? 0) > 0) {
        pages.push([]);
        left = SHEET_MM;
        continue;
      }
      // What fits on no sheet at all is set all the same.
      const [here, more] = split(rest, Math.max(1, fitting));
      pages.at(-1)?.push(here);
      left -= heightOf(here);
      rest = more;
    }
  }
  return pages;
}

function countThatFits(part: TallyPart, roomMm: number): number {
  const all = part.kind === "lines" ? part.lines.length : part.rows.length;
  let count = all;
  while (count > 0 && heightOf(split(part, count)[0]) > roomMm) count -= 1;
  return count;
}

function split(part: TallyPart, count: number): readonly [TallyPart, TallyPart | null] {
  if (part.kind === "lines") {
    const { lines } = part;
    return [
      { ...part, lines: lines.slice(0, count) },
      count < lines.length ? { ...part, lines: lines.slice(count) } : null,
    ];
  }
  const { rows } = part;
  return [
    { ...part, rows: rows.slice(0, count) },
    count < rows.length ? { ...part, rows: rows.slice(count) } : null,
  ];
}

function heightOf(part: TallyPart): number {
  if (part.kind === "table") return HEADING_MM + COLUMNS_MM + sum(part.rows.map(rowMm));
  const lines = part.lines.map(
    ({ name, remark }) =>
      LINE_MM * Math.ceil(name.length / SMALL_LETTERS) +
      SMALL_LINE_MM * Math.ceil(remark.length / SMALL_LETTERS),
  );
  // Lines are not parted: the taller of two columns has no more than half of the tallest line too much.
  return HEADING_MM + (sum(lines) + Math.max(0, ...lines)) / LINE_COLUMNS;
}

function rowMm(cells: readonly string[]): number {
  return (
    LINE_MM + SMALL_LINE_MM * Math.max(0, ...cells.map((cell) => Math.ceil(cell.length / CELL_LETTERS) - 1))
  );
}

function sum(all: readonly number[]): number {
  return all.reduce((total, each) => total + each, 0);
}
