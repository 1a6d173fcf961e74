/** Tempo and swing over the first bar. */
import type { NoteValue, StaffScore } from "../engine/score/index.ts";
import type { Drawing } from "./drawing.ts";
import { extentOf } from "./glyphs.ts";

const MUSIC_SIZE = 26;
const TEXT_SIZE = 16;
const METRONOME_NOTES: Readonly<Record<number, string>> = {
  1: "\ueca2",
  2: "\ueca3",
  4: "\ueca5",
  8: "\ueca7",
  16: "\ueca9",
};
const METRONOME_DOT = "\uecb7";

/** Draws what there is to say, from `left`; nothing when there is neither tempo nor swing. */
export function drawHeading(drawing: Drawing, score: StaffScore, left: number): void {
  let x = left;
  if (score.tempo) {
    const { beat, low, high } = score.tempo;
    x = drawValue(drawing, beat, x);
    x = drawing.letter(` = ${low === high ? low : `${low}–${high}`}`, x, 0, TEXT_SIZE) + 28;
  }
  if (score.swing) {
    x = drawing.letter("Swing  ", x, 0, TEXT_SIZE);
    x = drawPair(drawing, score.swing.unit, x);
    x = drawing.letter("  =  ", x, 0, TEXT_SIZE);
    x = drawLongShort(drawing, score.swing.unit, x);
    if (score.swing.ratio !== 2) {
      drawing.letter(`  (${score.swing.ratio} : 1)`, x, 0, TEXT_SIZE);
    }
  }
}

function drawValue(drawing: Drawing, { base, dots }: NoteValue, x: number): number {
  const note = METRONOME_NOTES[base] ?? METRONOME_NOTES[4] ?? "";
  const end = drawing.letter(note, x, 0, MUSIC_SIZE);
  return dots === 1 ? drawing.letter(METRONOME_DOT, end + 2, 0, MUSIC_SIZE) : end;
}

type Unit = "eighths" | "sixteenths";

/** Two even notes under a beam. */
function drawPair(drawing: Drawing, unit: Unit, x: number): number {
  const second = x + 15;
  const [one, two] = [headAt(drawing, x), headAt(drawing, second)];
  for (const beam of unit === "eighths" ? [0] : [0, 4]) {
    drawing.rectangle(one.stem - 0.6, STEM_TOP + beam, two.stem - one.stem + 1.2, 2.6);
  }
  return two.end;
}

/** What they are played as: a long and a short one of a triplet. */
function drawLongShort(drawing: Drawing, unit: Unit, x: number): number {
  const [long, short] = unit === "eighths" ? [4, 8] : [8, 16];
  const end = drawing.letter(METRONOME_NOTES[long] ?? "", x, 0, MUSIC_SIZE);
  const last = drawing.letter(METRONOME_NOTES[short] ?? "", end + 7, 0, MUSIC_SIZE);
  const three = "\ue883";
  const size = 20;
  const middle = (x + last) / 2;
  const half = (extentOf(three).width * size) / 2;
  const y = STEM_TOP - 6;
  drawing.letter(three, middle - half, y + 3.5, size);
  for (const [from, to, edge] of [
    [x, middle - half - 2, x],
    [middle + half + 2, last, last],
  ] as const) {
    drawing.line(from, y, to, y, 0.9);
    drawing.line(edge, y - 0.45, edge, y + 4, 0.9);
  }
  return last;
}

const STEM_TOP = -22;

function headAt(drawing: Drawing, x: number): { readonly stem: number; readonly end: number } {
  const head = "\ue0a4";
  const size = 22;
  const end = drawing.letter(head, x, -2.6, size);
  drawing.line(end - 0.5, -3.2, end - 0.5, STEM_TOP, 1);
  return { stem: end - 0.5, end };
}
