/** Draws one bar of one staff with VexFlow. */
import { BarlineType, Stave } from "vexflow/core";
import { metreName, type StaffScore } from "../engine/score/index.ts";
import type { Drawing } from "./drawing.ts";
import { extentOf } from "./glyphs.ts";
import { headLefts } from "./headColumns.ts";
import { keepApart } from "./keepApart.ts";
import { OutlineContext } from "./outlineContext.ts";
import type { PlacedSymbol } from "./placedSymbol.ts";
import type { SetPart, SetSymbol } from "./staffNotes.ts";
import { type SetBar, voicesOf } from "./systems.ts";

const MUSIC_SIZE = 40;
const WHOLE_REST = "\ue4e3";
const SIMILE = "\ue500";
/** Room that VexFlow leaves before the first note, and what we leave after the last. */
const BEFORE_NOTES = 12;
const AFTER_NOTES = 14;
const AFTER_CLEF = 12;

/** The empty staff of a bar. */
export function staveOf(
  score: StaffScore,
  place: {
    readonly left: number;
    readonly width: number;
    readonly clef: boolean;
    readonly metre: boolean;
    readonly index: number;
  },
): Stave {
  const stave = new Stave(place.left, 0, place.width, { leftBar: false });
  if (place.clef) stave.addClef("percussion");
  if (place.metre) stave.addTimeSignature(metreName(score.metre));
  const last = place.index === score.bars.length - 1;
  if (score.repeated && place.index === 0) stave.setBegBarType(BarlineType.REPEAT_BEGIN);
  if (last) stave.setEndBarType(endOf(score));
  // VexFlow leaves no air between a clef and the first note.
  if (place.clef && !place.metre) stave.setNoteStartX(stave.getNoteStartX() + AFTER_CLEF);
  return stave;
}

function endOf({ repeated, goesOn }: StaffScore): BarlineType {
  if (repeated) return BarlineType.REPEAT_END;
  return goesOn ? BarlineType.DOUBLE : BarlineType.END;
}

/** Spaces the notes of all staves of the bar together, so that what sounds together stands together. */
export function layOut(bar: SetBar, staves: readonly Stave[]): void {
  const [first] = staves;
  const { formatter, parts } = bar;
  if (!first || !formatter) return;
  const start = Math.max(...staves.map((stave) => stave.getNoteStartX()));
  for (const stave of staves) stave.setNoteStartX(start);
  parts.forEach((staffParts, staff) => {
    const stave = staves[staff];
    if (!stave) return;
    for (const { symbols } of staffParts ?? []) for (const { note } of symbols) note.setStave(stave);
  });
  const room = first.getNoteEndX() - start - BEFORE_NOTES - AFTER_NOTES;
  formatter.format([...voicesOf(parts)], room);
  keepApart(formatter, room);
  formatter.postFormat();
}

/** Draws the bar of one staff, and says where its symbols came to stand. */
export function drawBar(drawing: Drawing, stave: Stave, bar: SetBar, staff: number): readonly PlacedSymbol[] {
  const context = new OutlineContext(drawing);
  stave.setContext(context);
  context.lining = true;
  stave.draw();
  context.lining = false;
  const parts = bar.parts[staff];
  if (!parts) {
    centred(drawing, stave, SIMILE, 2);
    return [];
  }
  return parts.flatMap((part) => {
    if (!part.voice) {
      if (!part.shared) centred(drawing, stave, WHOLE_REST, wholeRestLine(part, parts));
      return [];
    }
    for (const { note, shared } of part.symbols) if (!shared) note.setContext(context).draw();
    for (const beam of part.beams) beam.setContext(context).draw();
    return part.symbols.flatMap((set, place) =>
      set.shared ? [] : [placedSymbol(set, place, part, bar.index, staff)],
    );
  });
}

/** The line, from 0 at the top, from which the rest of a whole bar hangs. */
function wholeRestLine({ written }: SetPart, parts: readonly SetPart[]): number {
  if (parts.every(({ voice }) => !voice)) return 1;
  return written.part === "hands" ? 0 : 4;
}

function centred(drawing: Drawing, stave: Stave, sign: string, line: number): void {
  const middle = (stave.getNoteStartX() + stave.getNoteEndX()) / 2;
  const width = extentOf(sign).width * MUSIC_SIZE;
  drawing.letter(sign, middle - width / 2, stave.getYForLine(line), MUSIC_SIZE);
}

function placedSymbol(
  { symbol, note }: SetSymbol,
  place: number,
  { written }: SetPart,
  bar: number,
  staff: number,
): PlacedSymbol {
  const base = { staff, bar, part: written.part, written, place, symbol };
  const heads = note.noteHeads;
  const lefts = headLefts(note).map((left) => note.getNoteHeadBeginX() + left);
  const rights = lefts.map((left, at) => left + (heads[at]?.getWidth() ?? 0));
  const ys = note.getYs();
  const extent = { left: Math.min(...lefts), right: Math.max(...rights) };
  if (symbol.kind === "rest") {
    const { top, bottom } = extentOf(heads[0]?.getText() ?? "");
    const y = ys[0] ?? 0;
    return { ...base, ...extent, top: y - top * MUSIC_SIZE, bottom: y - bottom * MUSIC_SIZE, heads: [] };
  }
  const tip = note.hasStem() ? note.getStemExtents().topY : (ys[0] ?? 0);
  return {
    ...base,
    ...extent,
    top: Math.min(tip, ...ys.map((y) => y - HALF_HEAD)),
    bottom: Math.max(tip, ...ys.map((y) => y + HALF_HEAD)),
    heads: symbol.heads.map(({ index }, at) => ({
      index,
      left: lefts[at] ?? 0,
      right: rights[at] ?? 0,
      y: ys[at] ?? 0,
    })),
  };
}

const HALF_HEAD = 5;
