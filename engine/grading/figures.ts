/**
 * Question: how far from the written place, all in all, by beat and by bar?
 */
import { beatsPerBar } from "../score/index.ts";
import { type Milliseconds, robustSpread } from "../units/index.ts";
import { grouped } from "./grouped.ts";
import type { Matched, Stroke } from "./matching.ts";
import type { BarFigures, BeatFigures, FlamFigures, LeanAndSpread } from "./report.ts";
import { beatOfBar, type Target, type TargetNote } from "./target.ts";

/**
 * Lean and spread of some offsets, strokes that were surely mistakes left out.
 *
 * @example
 * leanAndSpread([10, 12, 14]) // => { count: 3, leanMs: 12, spreadMs: 2 }
 */
export function leanAndSpread(offsetsMs: readonly Milliseconds[]): LeanAndSpread {
  if (offsetsMs.length === 0) return { count: 0, leanMs: null, spreadMs: null };
  const { mean, sd } = robustSpread(offsetsMs);
  // One stroke has a place but no spread.
  return { count: offsetsMs.length, leanMs: mean, spreadMs: offsetsMs.length > 1 ? sd : null };
}

/** Every beat of the bar, played or not. */
export function beatFigures(strokes: readonly Stroke[], target: Target): readonly BeatFigures[] {
  const byBeat = grouped(strokes, ({ note }) => beatOfBar(target, note.beat));
  return Array.from({ length: beatsPerBar(target.metre) }, (_, at) => ({
    beat: at + 1,
    ...leanAndSpread((byBeat.get(at + 1) ?? []).map(({ offsetMs }) => offsetMs)),
  }));
}

/** Every bar from the first to the last that counts, played or not. */
export function barFigures(
  strokes: readonly Stroke[],
  counted: readonly TargetNote[],
  target: Target,
): readonly BarFigures[] {
  const first = counted[0];
  const last = counted[counted.length - 1];
  if (!first || !last) return [];
  const barOf = (note: TargetNote) => Math.floor((note.beat + 1e-3) / beatsPerBar(target.metre));
  const byBar = grouped(strokes, ({ note }) => barOf(note));
  return Array.from({ length: barOf(last) - barOf(first) + 1 }, (_, at) => ({
    bar: at + 1,
    ...leanAndSpread((byBar.get(barOf(first) + at) ?? []).map(({ offsetMs }) => offsetMs)),
  }));
}

/** Written flams (not drags), how many were played as flams, and how open they were. */
export function flamFigures({ hits, strokes }: Matched, counted: readonly TargetNote[]): FlamFigures {
  const main = new Map(
    strokes.filter(({ note }) => note.ornament === "flam").map((stroke) => [stroke.note.index, stroke]),
  );
  const gaps: Milliseconds[] = [];
  for (const judged of hits) {
    if (judged.state !== "grace") continue;
    const stroke = main.get(judged.targetIndex);
    if (stroke) gaps.push((stroke.hit.time - judged.hit.time) * 1000);
  }
  return {
    written: counted.filter(({ ornament }) => ornament === "flam").length,
    played: gaps.length,
    gapMs: gaps.length === 0 ? null : gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length,
  };
}
