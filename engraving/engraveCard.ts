/** Draws one sign, rhythm or sticking, large, as it stands on a card. */
import { BarlineType, Stave } from "vexflow/core";
import type { SignDrawing } from "../engine/catalogue/index.ts";
import {
  type Groove,
  metreName,
  type Note,
  type NoteValue,
  type StaffChord,
  type StaffScore,
  staffPartOf,
  staffPlace,
  valueLength,
  writeStaff,
} from "../engine/score/index.ts";
import { fraction, multiply, ZERO } from "../engine/units/index.ts";
import { drawBar, layOut, staveOf } from "./drawBar.ts";
import { boxOf, circle, Drawing, type Path, pathsOf } from "./drawing.ts";
import { engrave } from "./engrave.ts";
import { type GlyphName, glyphNamed } from "./glyphCodes.ts";
import { extentOf, glyphOf } from "./glyphs.ts";
import { drawMarks } from "./marks.ts";
import { measureWithOutlines, OutlineContext } from "./outlineContext.ts";
import { setBar, UNITS_PER_SPACE } from "./systems.ts";

/** A sign, or a bar that is played. */
export type CardDrawing = SignDrawing | { readonly kind: "groove"; readonly groove: Groove };

/** A picture in pixels. */
export interface CardPicture {
  readonly width: number;
  readonly height: number;
  readonly paths: readonly Path[];
}

/** The em of the music font: four staff spaces. */
const EM = 40;
const TOP_LINE = 40;
const MIDDLE_LINE = TOP_LINE + 2 * UNITS_PER_SPACE;
const BOTTOM_LINE = TOP_LINE + 4 * UNITS_PER_SPACE;
const THIN = 1.6;
const THICK = 5;
/** A stem is three and a half spaces long. */
const STEM = 35;
const MARGIN = 4;
/** Room for one bar of few notes, and for what is longer, so that it stands on one line; in VexFlow's units. By eye. */
const BAR_WIDTH = 300;
const LONG_WIDTH = 560;
const FEW_NOTES = 12;

/**
 * Draws a card.
 *
 * @param space pixels between two lines of a staff.
 * @throws RangeError for a glyph that no card has.
 */
export function engraveCard(drawn: CardDrawing, space: number): CardPicture {
  if (drawn.kind === "groove") {
    const { groove } = drawn;
    const score = writeStaff(groove);
    const isLong = groove.bars > 1 || groove.notes.length > FEW_NOTES;
    const { width, height, paths } = engrave([{ score }], {
      width: ((isLong ? LONG_WIDTH : BAR_WIDTH) * space) / UNITS_PER_SPACE,
      space,
      heading: false,
    });
    return { width, height, paths };
  }
  measureWithOutlines();
  const drawing = new Drawing();
  drawSign(drawing, drawn);
  return pictureOf(drawing, space / UNITS_PER_SPACE);
}

function pictureOf(drawing: Drawing, scale: number): CardPicture {
  const { left, top, right, bottom } = boxOf(drawing.shapes);
  const moved = drawing.shapes.map((shape) => ({
    ...shape,
    steps: shape.steps.map(({ op, at }) => ({
      op,
      at: at.map((value, index) => (index % 2 === 0 ? value - left + MARGIN : value)),
    })),
  }));
  return {
    width: Math.ceil((right - left + 2 * MARGIN) * scale),
    height: Math.ceil((bottom - top + 2 * MARGIN) * scale),
    paths: pathsOf(moved, scale, MARGIN - top),
  };
}

function drawSign(drawing: Drawing, drawn: SignDrawing): void {
  switch (drawn.kind) {
    case "note":
      drawNote(drawing, drawn.value);
      return;
    case "rest":
      drawRest(drawing, drawn.value);
      return;
    case "tuplet":
      drawOnStaff(drawing, tupletScore(drawn), { clef: false, width: 60 + 38 * drawn.actual });
      return;
    case "metre":
      drawHead(drawing, metreName(drawn.metre));
      return;
    case "at-head":
      drawHead(drawing, drawn.glyph === "timeSigCommon" ? "C" : "C|");
      return;
    case "bar-line":
      drawBarLine(drawing, drawn.line);
      return;
    case "ending":
      drawEnding(drawing, drawn.number);
      return;
    case "in-bar":
      drawInBar(drawing, drawn.glyph);
      return;
    case "alone":
      drawing.letter(glyphNamed(drawn.glyph), 0, 0, EM);
      return;
    case "hairpin":
      drawHairpin(drawing, drawn.opens);
      return;
    case "on-stem": {
      const { stem } = drawQuarter(drawing);
      drawing.letter(glyphNamed(drawn.glyph), stem, -0.6 * STEM, EM);
      return;
    }
    case "over-note": {
      const { middle } = drawQuarter(drawing);
      const sign = glyphNamed(drawn.glyph);
      const glyph = glyphOf(sign);
      const width = (glyph?.right ?? 0) + (glyph?.left ?? 0);
      drawing.letter(sign, middle - (width / 2) * EM, -STEM - 7 + (glyph?.bottom ?? 0) * EM, EM);
      return;
    }
    case "stroke":
      drawOnStaff(drawing, strokeScore(drawn.how), { clef: false, width: 110 });
      return;
    case "place":
      drawOnStaff(drawing, noteScore({ position: ZERO, voice: drawn.voice, dynamic: "plain" }), {
        clef: true,
        width: 140,
      });
      return;
  }
}

const NOTE_GLYPHS: Readonly<Partial<Record<NoteValue["base"], GlyphName>>> = {
  1: "noteWhole",
  2: "noteHalfUp",
  4: "noteQuarterUp",
  8: "note8thUp",
  16: "note16thUp",
  32: "note32ndUp",
  64: "note64thUp",
};

const REST_GLYPHS: Readonly<Partial<Record<NoteValue["base"], GlyphName>>> = {
  1: "restWhole",
  2: "restHalf",
  4: "restQuarter",
  8: "rest8th",
  16: "rest16th",
  32: "rest32nd",
  64: "rest64th",
};

function drawNote(drawing: Drawing, { base, dots }: NoteValue): void {
  const end = drawing.letter(glyphNamed(NOTE_GLYPHS[base] ?? ""), 0, 0, EM);
  // Beyond the flag, so that the dot is not hidden by it.
  if (dots === 1) drawing.letter(glyphNamed("augmentationDot"), end + 5, 0, EM);
}

/** On the staff: a whole and a half rest are told apart by their line only. */
function drawRest(drawing: Drawing, { base, dots }: NoteValue): void {
  const rest = glyphNamed(REST_GLYPHS[base] ?? "");
  const width = extentOf(rest).width * EM;
  const room = 36;
  drawStaffLines(drawing, 2 * room + width + (dots === 1 ? 10 : 0));
  const end = drawing.letter(rest, room, base === 1 ? TOP_LINE + UNITS_PER_SPACE : MIDDLE_LINE, EM);
  if (dots === 1)
    drawing.letter(glyphNamed("augmentationDot"), end + 5, MIDDLE_LINE - UNITS_PER_SPACE / 2, EM);
}

/** Where its stem stands, and the middle of its head. */
function drawQuarter(drawing: Drawing): { readonly stem: number; readonly middle: number } {
  const sign = glyphNamed("noteQuarterUp");
  drawing.letter(sign, 0, 0, EM);
  const right = (glyphOf(sign)?.right ?? 0) * EM;
  return { stem: right - 0.6, middle: right / 2 };
}

function drawStaffLines(drawing: Drawing, width: number): void {
  for (let y = TOP_LINE; y <= BOTTOM_LINE; y += UNITS_PER_SPACE) drawing.line(0, y, width, y, 1, "line");
}

function drawUpright(drawing: Drawing, left: number, width: number): void {
  drawing.rectangle(left, TOP_LINE - 0.5, width, BOTTOM_LINE - TOP_LINE + 1);
}

function drawDots(drawing: Drawing, x: number): void {
  for (const y of [MIDDLE_LINE - UNITS_PER_SPACE / 2, MIDDLE_LINE + UNITS_PER_SPACE / 2])
    drawing.fill(circle(x, y, 2.2));
}

function drawBarLine(drawing: Drawing, line: Extract<SignDrawing, { kind: "bar-line" }>["line"]): void {
  const width = 110;
  drawStaffLines(drawing, line === "double" || line === "repeat-start" ? width : width / 2 + 10 + THICK);
  const at = width / 2;
  switch (line) {
    case "double":
      drawUpright(drawing, at - 3 - THIN, THIN);
      drawUpright(drawing, at + 3, THIN);
      return;
    case "final":
      drawUpright(drawing, at + 2, THIN);
      drawUpright(drawing, at + 10, THICK);
      return;
    case "repeat-start":
      drawUpright(drawing, at - 20, THICK);
      drawUpright(drawing, at - 20 + THICK + 4, THIN);
      drawDots(drawing, at);
      return;
    case "repeat-end":
      drawDots(drawing, at - 6);
      drawUpright(drawing, at + 2, THIN);
      drawUpright(drawing, at + 10, THICK);
      return;
  }
}

function drawEnding(drawing: Drawing, number: 1 | 2): void {
  const width = 150;
  drawStaffLines(drawing, width);
  const left = 20;
  drawUpright(drawing, left, THIN);
  const over = TOP_LINE - 24;
  drawing.line(left, over, width, over, THIN);
  drawing.line(left + THIN / 2, over, left + THIN / 2, over + 18, THIN);
  drawing.letter(`${number}.`, left + 7, over + 17, 16);
}

function drawInBar(drawing: Drawing, glyph: string): void {
  const width = 130;
  drawStaffLines(drawing, width);
  const isOfTwo = glyph === "repeat2Bars";
  drawUpright(drawing, 0, THIN);
  drawUpright(drawing, width - THIN, THIN);
  if (isOfTwo) drawUpright(drawing, (width - THIN) / 2, THIN);
  const sign = glyphNamed(glyph);
  drawing.letter(sign, (width - extentOf(sign).width * EM) / 2, MIDDLE_LINE, EM);
}

function drawHairpin(drawing: Drawing, opens: boolean): void {
  const [width, height] = [110, 11];
  const [point, wide] = opens ? [0, width] : [width, 0];
  drawing.line(point, 0, wide, -height, THIN);
  drawing.line(point, 0, wide, height, THIN);
}

/** A clef and what stands after it. */
function drawHead(drawing: Drawing, metre: string): void {
  const stave = new Stave(0, 0, 110, { leftBar: false, rightBar: false });
  stave.addClef("percussion").addTimeSignature(metre);
  const context = new OutlineContext(drawing);
  stave.setContext(context);
  context.lining = true;
  stave.draw();
  context.lining = false;
}

/** One bar without its metre. */
function drawOnStaff(
  drawing: Drawing,
  score: StaffScore,
  { clef, width }: { readonly clef: boolean; readonly width: number },
): void {
  const bar = setBar([{ score }], 0, false);
  const stave = staveOf(score, { left: 0, width, clef, metre: false, index: 0 });
  stave.setEndBarType(BarlineType.NONE);
  layOut(bar, [stave]);
  drawMarks(drawing, drawBar(drawing, stave, bar, 0), new Map());
}

function strokeScore(how: "ghost" | "flam" | "drag"): StaffScore {
  const note: Note = { position: ZERO, voice: "snare", dynamic: how === "ghost" ? "ghost" : "plain" };
  return noteScore(how === "ghost" ? note : { ...note, ornament: how });
}

/** One quarter. */
function noteScore(note: Note): StaffScore {
  return scoreOf([chordOf(note, ZERO, { base: 4, dots: 0 })], 1, []);
}

function tupletScore({ actual, normal, unit }: Extract<SignDrawing, { kind: "tuplet" }>): StaffScore {
  const value: NoteValue = { base: unit, dots: 0 };
  const length = multiply(valueLength(value), fraction(normal, actual));
  const symbols = Array.from({ length: actual }, (_, at) =>
    chordOf(
      { position: ZERO, voice: "snare", dynamic: "plain" },
      multiply(length, fraction(at)),
      value,
      length,
    ),
  );
  return scoreOf(symbols, 1, [{ actual, normal, unit, first: 0, last: actual - 1 }]);
}

function chordOf(
  note: Note,
  start: StaffChord["start"],
  value: NoteValue,
  length = valueLength(value),
): StaffChord {
  return {
    kind: "chord",
    start,
    length,
    value,
    heads: [{ note, index: 0, place: staffPlace(note.voice) }],
    accent: note.dynamic === "accent",
  };
}

function scoreOf(
  symbols: readonly StaffChord[],
  quarters: number,
  tuplets: StaffScore["bars"][number]["parts"][number]["tuplets"],
): StaffScore {
  const [first] = symbols;
  const [head] = first?.heads ?? [];
  const isBeamed = symbols.length > 1 && (first?.value.base ?? 1) > 4;
  return {
    metre: { numerator: quarters, denominator: 4 },
    groups: [],
    repeated: false,
    goesOn: true,
    bars: [
      {
        sameAsBefore: false,
        parts: [
          {
            part: staffPartOf(head?.note.voice ?? "snare"),
            symbols,
            tuplets,
            beams: isBeamed ? [{ first: 0, last: symbols.length - 1 }] : [],
          },
        ],
      },
    ],
  };
}
