/**
 * The staff of a page, line by line, and how its lines are shared out over pages: none is cut. Lengths are CSS pixels on
 * a sheet of A4.
 */
import {
  type Groove,
  type Part,
  partOnStaff,
  type StaffSection,
  writeStaff,
} from "../../../engine/score/index.ts";
import type { Bpm } from "../../../engine/units/index.ts";
import { engrave, type Path } from "../../../engraving/index.ts";
import { sectionWords } from "../../notation/sectionWords.ts";

/** One line of the staff, in the engraving's own pixels. */
export interface StaffLine {
  /** The section that begins here. */
  readonly section?: string;
  readonly paths: readonly Path[];
  readonly width: number;
  readonly top: number;
  readonly height: number;
  /** Where the sign of what is to be worked on points: its tip. */
  readonly sign?: { readonly x: number; readonly y: number };
}

/** Across an A4 page between its margins: 176 mm. */
const WIDTH = 665;
/** Between two lines of the staff: 2.1 mm, as in books for beginners. */
const SPACE = 8;
/** The same of a drum part: 1.65 mm, as parts are printed, so that two bars of sixteenths stand on a line. */
const SPACE_OF_PART = 6.25;
/** White between two lines: 4 mm; and the name of a section with the white round it. */
const BETWEEN = 15;
const SECTION_NAME = 40;
/** The sign under a note: from the bar to its tip, and its height with the word. */
export const SIGN = { gap: 5, half: 5, height: 8, text: 11 } as const;

/** The lines of a drum part, section by section; bars are numbered through, and one like the one before it is a sign. */
export function linesOfPart(part: Part): readonly StaffLine[] {
  let barsBefore = 0;
  return partOnStaff(part).flatMap((section) => {
    const lines = engravedLines(section.score, { space: SPACE_OF_PART, simile: true, barsBefore });
    barsBefore += section.score.bars.length;
    const name = sectionWords(section);
    return lines.map((line, at) => (at === 0 && name !== undefined ? { ...line, section: name } : line));
  });
}

/**
 * The lines of one groove or fill.
 *
 * @param how `repeated`: between repeat signs. `marked`: the place in the list of notes of the one to work on.
 */
export function linesOfGroove(
  groove: Groove,
  how: {
    readonly repeated: boolean;
    readonly tempoBpm?: Bpm | undefined;
    readonly marked?: number | undefined;
  },
): readonly StaffLine[] {
  const { repeated, tempoBpm, marked } = how;
  return engravedLines(writeStaff(groove, { repeated, ...(tempoBpm === undefined ? {} : { tempoBpm }) }), {
    marked,
  });
}

function engravedLines(
  score: StaffSection["score"],
  how: {
    readonly space?: number;
    readonly simile?: boolean;
    readonly barsBefore?: number;
    readonly marked?: number | undefined;
  },
): readonly StaffLine[] {
  const { space = SPACE, simile = false, barsBefore = 0, marked } = how;
  const { width, systems, bars, symbols } = engrave([{ score }], {
    width: WIDTH,
    space,
    simile,
    barsBefore,
  });
  const at = symbols.flatMap(({ bar, heads }) =>
    heads.filter(({ index }) => index === marked).map(({ left, right }) => ({ bar, x: (left + right) / 2 })),
  )[0];
  const under = bars.find(({ index }) => index === at?.bar);
  return systems.map(({ paths, top, height }) => {
    const line = { paths, width, top, height: height + 1 };
    if (!at || !under || under.top < top || under.top >= top + height) return line;
    const y = under.top + under.height + SIGN.gap;
    return {
      ...line,
      sign: { x: at.x, y },
      height: Math.max(line.height, y + SIGN.height + SIGN.text + 4 - top),
    };
  });
}

/** What a line takes on the page. One that is wider than the page is drawn smaller. */
export function heightOf({ height, width, section }: StaffLine): number {
  return (height * WIDTH) / width + BETWEEN + (section === undefined ? 0 : SECTION_NAME);
}

/**
 * The lines that stand on each page; a page has one at least.
 *
 * @param room what the first page, and each later one, has for the staff.
 * @example
 * pagesOf(lines, { first: 700, later: 850 }).length // => 2
 */
export function pagesOf(
  lines: readonly StaffLine[],
  room: { readonly first: number; readonly later: number },
): readonly (readonly StaffLine[])[] {
  const pages: StaffLine[][] = [[]];
  let left = room.first;
  for (const line of lines) {
    const height = heightOf(line);
    if (height > left && (pages.at(-1)?.length ?? 0) > 0) {
      pages.push([]);
      left = room.later;
    }
    pages.at(-1)?.push(line);
    left -= height;
  }
  return pages;
}
