import type { Formatter, TickContext, Voice } from "vexflow/core";
import { headLefts } from "./headColumns.ts";
import { DrumNote } from "./staffNotes.ts";

/** Least gap between two moments of a bar, and between two notes of a part: a fifth of a space. */
const GAP = 2;
/** Air before small notes, which belong to what comes after them. What hangs on a note is small notes if it is wider than a parenthesis. */
export const BEFORE_GRACES = 6;
const PARENTHESIS = 18;

/** One moment of a bar, with how far its notes reach. */
interface Moment {
  readonly context: TickContext;
  readonly notes: readonly {
    readonly part: Voice;
    /** How far it reaches before its moment and after it, with what hangs on it. */
    readonly before: number;
    readonly after: number;
  }[];
  /** How far its heads reach before it. */
  readonly heads: number;
}

/** The least room in which nothing of the bar touches, without what belongs to the ends of the bar. */
export function leastRoom(formatter: Formatter): number {
  const moments = momentsOf(formatter);
  const places = pushedRight(
    moments,
    moments.map(() => 0),
  );
  return Math.max(0, ...moments.flatMap((moment, at) => (places[at] ?? 0) + reachOf(moment)));
}

/**
 * Moves moments of a bar apart where VexFlow's spacing has let notes of a part touch: it weighs all parts together, and
 * among grids that have little in common one part may come too short. Later ones move to the right, and back from the end
 * of the room where they come beyond it.
 *
 * @param room at least {@link leastRoom}.
 */
export function keepApart(formatter: Formatter, room: number): void {
  const moments = momentsOf(formatter);
  const right = pushedRight(
    moments,
    moments.map(({ context }) => context.getX()),
  );
  const places = pushedLeft(moments, right, room);
  moments.forEach(({ context }, at) => {
    const x = places[at] ?? context.getX();
    if (x !== context.getX()) context.setX(x);
  });
}

function momentsOf(formatter: Formatter): readonly Moment[] {
  const { list = [], map = {} } = formatter.getTickContexts() ?? {};
  return list.flatMap((tick): Moment[] => {
    const context = map[tick];
    if (!context) return [];
    const drums = context.getTickables().filter((each) => each instanceof DrumNote);
    return [
      {
        context,
        notes: drums.map((note) => ({ part: note.getVoice(), before: leftOf(note), after: rightOf(note) })),
        heads: Math.max(0, ...drums.map(headsBefore)),
      },
    ];
  });
}

function pushedRight(moments: readonly Moment[], wanted: readonly number[]): readonly number[] {
  const reached = new Map<Voice, number>();
  let before = Number.NEGATIVE_INFINITY;
  return moments.map(({ notes, heads }, at) => {
    const x = notes.reduce(
      (x, { part, before }) => Math.max(x, before + (reached.has(part) ? GAP : 0) + (reached.get(part) ?? 0)),
      Math.max(wanted[at] ?? 0, before + GAP + heads),
    );
    before = x;
    for (const { part, after } of notes) reached.set(part, x + after);
    return x;
  });
}

function pushedLeft(moments: readonly Moment[], places: readonly number[], room: number): readonly number[] {
  const left = [...places];
  const limit = new Map<Voice, number>();
  let next = Number.POSITIVE_INFINITY;
  for (let at = moments.length - 1; at >= 0; at--) {
    const moment = moments[at];
    if (!moment) continue;
    const x = moment.notes.reduce(
      (x, { part, after }) => Math.min(x, (limit.get(part) ?? room) - after),
      Math.min(places[at] ?? 0, next),
    );
    left[at] = x;
    next = x - GAP - moment.heads;
    for (const { part, before } of moment.notes) limit.set(part, x - before - GAP);
  }
  return left;
}

function reachOf({ notes }: Moment): number {
  return Math.max(0, ...notes.map(({ after }) => after));
}

function headsBefore(note: DrumNote): number {
  return Math.max(0, ...headLefts(note).map((left) => -left));
}

function leftOf(note: DrumNote): number {
  const { modLeftPx, leftDisplacedHeadPx } = note.getMetrics();
  const heads = Math.max(leftDisplacedHeadPx, headsBefore(note));
  return modLeftPx + heads + (modLeftPx > PARENTHESIS ? BEFORE_GRACES : 0);
}

function rightOf(note: DrumNote): number {
  const heads = note.noteHeads;
  const lefts = headLefts(note);
  const width = note.getGlyphWidth();
  const furthest = Math.max(width, ...heads.map((head, at) => (lefts[at] ?? 0) + head.getWidth()));
  const flag = note.shouldDrawFlag() && note.getStemDirection() > 0 ? 2 * width : 0;
  return Math.max(furthest, flag) + note.getMetrics().modRightPx;
}
