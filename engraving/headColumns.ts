/**
 * Where the heads of a chord stand beside its stem. Heads that would touch stand on both sides of it, and where more than
 * two are that near, further out. VexFlow knows two columns and takes all heads for alike in width; ours are not.
 */
import { type NoteHead, type StaveNote, Stem } from "vexflow/core";

/** Heads nearer than this, in spaces of the staff, touch. */
const NEAR = 1;
/** Heads on both sides of a stem share its width. */
const OVER_STEM = Stem.WIDTH / 2;

/**
 * How far the left of each head is from where the note begins, head by head as the note has them. Those of the first column
 * end at the stem (begin there where stems go down), those of the second are on its other side.
 */
export function headLefts(note: StaveNote): readonly number[] {
  const heads = note.noteHeads;
  const up = note.getStemDirection() > 0;
  const columns: NoteHead[][] = [];
  const outwards = [...heads].sort((a, b) => (a.getLine() - b.getLine()) * (up ? 1 : -1));
  for (const head of outwards) {
    const free = columns.find((column) =>
      column.every((other) => Math.abs(other.getLine() - head.getLine()) >= NEAR),
    );
    if (free) free.push(head);
    else columns.push([head]);
  }
  const lefts = new Map<NoteHead, number>();
  /** The far edge of the columns so far, outwards from the stem. */
  let edge = up ? note.getGlyphWidth() : 0;
  columns.forEach((column, at) => {
    const width = Math.max(...column.map((head) => head.getWidth()));
    // The first column is before the stem where stems go up, all others are beyond it.
    const rightwards = up === at > 0;
    const near = at === 0 ? edge : edge - (up ? OVER_STEM : -OVER_STEM);
    for (const head of column) lefts.set(head, rightwards ? near : near - head.getWidth());
    if (at > 0) edge = up ? near + width : near - width;
  });
  return heads.map((head) => lefts.get(head) ?? 0);
}
