/**
 * Engraves drum-set staves: systems of bars for a given width, one staff or several over each other, as outlines.
 * VexFlow sets notes, stems, beams, flags and spacing; the signs over and under the notes are placed here, so that
 * none touches another.
 */
import { drawBar, layOut, staveOf } from "./drawBar.ts";
import { type Box, boxOf, Drawing, type Path, pathsOf } from "./drawing.ts";
import { extentOf } from "./glyphs.ts";
import { drawHeading } from "./heading.ts";
import { drawMarks } from "./marks.ts";
import { measureWithOutlines } from "./outlineContext.ts";
import { onPage, type PlacedSymbol } from "./placedSymbol.ts";
import type { StaffToEngrave } from "./staffToEngrave.ts";
import { narrowestLine, type SystemLine, setBar, systemsOf, UNITS_PER_SPACE } from "./systems.ts";

export interface EngravingOptions {
  /** Pixels. */
  readonly width: number;
  /** Pixels between two lines of a staff: 7 for small print, 10 on a screen, 20 and more on the wall. 10 when not said. */
  readonly space?: number;
  /** Whether a bar like the one before it is written as a simile sign. No when not said. */
  readonly simile?: boolean;
  /** Whether tempo and swing are written over the first bar. Yes when not said. */
  readonly heading?: boolean;
  /** Bars of the same music that stand before these: numbers go on from there. None when not said. */
  readonly barsBefore?: number;
}

/** Where a bar is on the picture, over all its staves, in pixels. */
export interface EngravedBar {
  readonly index: number;
  readonly left: number;
  /** Where its notes begin, after clef, metre and repeat sign. */
  readonly notesLeft: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** One line of bars with all its staves, and with what stands over it, in pixels. */
export interface EngravedSystem {
  readonly top: number;
  readonly height: number;
  readonly paths: readonly Path[];
}

/** A picture in pixels. */
export interface Engraving {
  /** As asked, or more where one bar needs more: the picture is then to be shown smaller. */
  readonly width: number;
  readonly height: number;
  readonly paths: readonly Path[];
  /** The same, line by line from the top, for pages that end between two lines. */
  readonly systems: readonly EngravedSystem[];
  readonly bars: readonly EngravedBar[];
  /** Where each chord and rest stands, in pixels; for clicks and for tests. */
  readonly symbols: readonly PlacedSymbol[];
}

/** Thrown when staves cannot be engraved together. */
export class EngravingError extends Error {
  override readonly name = "EngravingError";
}

const SYSTEM_GAP = 26;
const STAFF_GAP = 20;
const HEADING_GAP = 10;
const LABEL_SIZE = 15;
const NUMBER_SIZE = 12;
/** Where the top line of a staff is in its own drawing: VexFlow leaves four spaces over it. */
const TOP_LINE = 40;

/**
 * Engraves staves that have the same bars.
 *
 * @throws EngravingError when there is no staff, or they have not the same number of bars.
 * @example
 * engrave([{ score: writeStaff(groove) }], { width: 600 }).bars.length // => 2
 */
export function engrave(staves: readonly StaffToEngrave[], options: EngravingOptions): Engraving {
  const [first] = staves;
  if (!first) throw new EngravingError("There is no staff to engrave; give at least one score.");
  const count = first.score.bars.length;
  if (staves.some(({ score }) => score.bars.length !== count)) {
    throw new EngravingError("Staves over each other need the same number of bars; these have not.");
  }
  measureWithOutlines();
  const scale = (options.space ?? UNITS_PER_SPACE) / UNITS_PER_SPACE;
  const indent = Math.max(0, ...staves.map(({ label }) => labelWidth(label)));
  const bars = first.score.bars.map((_, index) => setBar(staves, index, options.simile ?? false));
  const page = new Page();
  if (options.heading ?? true) {
    const heading = new Drawing();
    drawHeading(heading, first.score, indent);
    page.add(heading, 0);
  }
  systemsOf(bars, options.width / scale - indent).forEach((line, row) => {
    drawSystem(page, staves, line, { indent, row, barsBefore: options.barsBefore ?? 0 });
  });
  return page.engraving(options.width, scale);
}

/**
 * The distance of the lines, in pixels, at which all bars go on one line of `width` pixels, within what is asked.
 *
 * @param limits the smallest and the largest distance that will do.
 */
export function fittingSpace(
  staves: readonly StaffToEngrave[],
  width: number,
  limits: { readonly least: number; readonly most: number },
): number {
  measureWithOutlines();
  const indent = Math.max(0, ...staves.map(({ label }) => labelWidth(label)));
  const bars = staves[0]?.score.bars.map((_, index) => setBar(staves, index, false)) ?? [];
  const spaces = (indent + narrowestLine(bars)) / UNITS_PER_SPACE;
  return Math.max(limits.least, Math.min(limits.most, Math.floor((width / spaces) * 4) / 4));
}

function labelWidth(label: string | undefined): number {
  return label === undefined ? 0 : extentOf(label).width * LABEL_SIZE + 14;
}

function drawSystem(
  page: Page,
  staves: readonly StaffToEngrave[],
  line: SystemLine,
  { indent, row, barsBefore }: { readonly indent: number; readonly row: number; readonly barsBefore: number },
): void {
  let left = indent;
  const bars = line.bars.map(({ bar, width }) => {
    const place = { bar, left, width };
    left += width;
    return place;
  });
  const laid = staves.map(({ score }) =>
    bars.map(({ bar, left, width }, at) =>
      staveOf(score, { left, width, clef: at === 0, metre: at === 0 && row === 0, index: bar.index }),
    ),
  );
  bars.forEach(({ bar }, at) => {
    layOut(
      bar,
      laid.flatMap((setStaves) => setStaves[at] ?? []),
    );
  });
  staves.forEach(({ label, differences = new Map() }, staff) => {
    const drawing = new Drawing();
    const symbols = bars.flatMap(({ bar }, at) => {
      const stave = laid[staff]?.[at];
      return stave ? drawBar(drawing, stave, bar, staff) : [];
    });
    drawMarks(drawing, symbols, differences);
    if (label !== undefined) drawing.letter(label, 0, TOP_LINE + 25, LABEL_SIZE);
    const number = barsBefore + (bars[0]?.bar.index ?? 0) + 1;
    if (staff === 0 && number > 1) {
      drawing.letter(String(number), indent, TOP_LINE - 8, NUMBER_SIZE);
    }
    const gap = staff > 0 ? STAFF_GAP : row > 0 ? SYSTEM_GAP : HEADING_GAP;
    page.add(drawing, gap, symbols);
  });
  page.closeSystem(
    bars.map(({ bar, left, width }, at) => ({
      index: bar.index,
      left,
      width,
      notesLeft: laid[0]?.[at]?.getNoteStartX() ?? left,
    })),
    staves.length,
  );
}

/** Drawings one under the other, in VexFlow's units until the end. */
class Page {
  readonly #parts: {
    readonly drawing: Drawing;
    readonly box: Box;
    readonly dy: number;
    readonly system: number;
  }[] = [];
  readonly #symbols: PlacedSymbol[] = [];
  readonly #bars: EngravedBar[] = [];
  #bottom = 0;
  /** How many systems are closed. */
  #systems = 0;

  /** Puts a drawing under what is there. An empty one takes no room. */
  add(drawing: Drawing, gap: number, symbols: readonly PlacedSymbol[] = []): void {
    if (drawing.shapes.length === 0) return;
    const box = boxOf(drawing.shapes);
    const dy = this.#bottom + (this.#parts.length > 0 ? gap : 0) - box.top;
    this.#parts.push({ drawing, box, dy, system: this.#systems });
    this.#symbols.push(...symbols.map((symbol) => onPage(symbol, dy)));
    this.#bottom = dy + box.bottom;
  }

  /** Notes where the bars of the last `staves` drawings are. */
  closeSystem(
    bars: readonly Pick<EngravedBar, "index" | "left" | "notesLeft" | "width">[],
    staves: number,
  ): void {
    const system = this.#parts.slice(-staves);
    const top = Math.min(...system.map(({ box, dy }) => dy + box.top));
    const bottom = Math.max(...system.map(({ box, dy }) => dy + box.bottom));
    for (const bar of bars) this.#bars.push({ ...bar, top, height: bottom - top });
    this.#systems += 1;
  }

  engraving(width: number, scale: number): Engraving {
    const scaled = (value: number) => Math.round(value * scale * 100) / 100;
    const reach = Math.max(0, ...this.#bars.map((bar) => bar.left + bar.width));
    const systems = Array.from({ length: this.#systems }, (_, system): EngravedSystem => {
      const parts = this.#parts.filter((part) => part.system === system);
      const top = scaled(Math.min(...parts.map(({ box, dy }) => dy + box.top)));
      const bottom = scaled(Math.max(...parts.map(({ box, dy }) => dy + box.bottom)));
      return {
        top,
        height: bottom - top,
        paths: parts.flatMap(({ drawing, dy }) => pathsOf(drawing.shapes, scale, dy)),
      };
    });
    return {
      width: Math.max(width, Math.ceil((reach + 1) * scale)),
      height: Math.ceil((this.#bottom + 1) * scale),
      paths: systems.flatMap(({ paths }) => paths),
      systems,
      bars: this.#bars.map(({ index, left, notesLeft, top, width, height }) => ({
        index,
        left: scaled(left),
        notesLeft: scaled(notesLeft),
        top: scaled(top),
        width: scaled(width),
        height: scaled(height),
      })),
      symbols: this.#symbols.map((symbol) => ({
        ...symbol,
        left: scaled(symbol.left),
        right: scaled(symbol.right),
        top: scaled(symbol.top),
        bottom: scaled(symbol.bottom),
        heads: symbol.heads.map((head) => ({
          ...head,
          left: scaled(head.left),
          right: scaled(head.right),
          y: scaled(head.y),
        })),
      })),
    };
  }
}
