/**
 * Question: did the take keep to the written form: entry, bars, the one after a fill?
 */
import { beatsPerBar } from "../score/index.ts";
import { type Milliseconds, median, robustSpread } from "../units/index.ts";
import { grouped } from "./grouped.ts";
import { barOfTarget } from "./limb.ts";
import type { Stroke } from "./matching.ts";
import type { FormSlip } from "./slip.ts";
import { beatOfBar, placeInBar, type Target, type TargetNote } from "./target.ts";

/** What the form is read from. */
export interface FormTaken {
  readonly target: Target;
  /** Written strokes that count, and those of them nobody answered, in order of the target. */
  readonly counted: readonly TargetNote[];
  readonly unanswered: readonly TargetNote[];
  /** Offsets with any significant trend taken out, in order of the target. */
  readonly strokes: readonly Stroke[];
  readonly secondsPerBeat: number;
  readonly halfBandMs: Milliseconds;
  /** Whether take and target shared a clock: a free start may be anywhere. */
  readonly shared: boolean;
}

/** Late entry, if the first stroke answered lies a beat or more after the first one written. */
export function entrySlip({ counted, strokes, secondsPerBeat, shared }: FormTaken): readonly FormSlip[] {
  const first = counted[0];
  const played = strokes[0];
  if (!shared || !first || !played) return [];
  const byBeats = played.note.beat - first.beat;
  if (byBeats < 1 - 1e-3) return [];
  const strokesLate = counted.filter(({ index }) => index < played.note.index).length;
  return [
    {
      kind: "entry",
      bar: 1,
      beat: 1,
      byBeats,
      byMs: byBeats * secondsPerBeat * 1000 + played.offsetMs,
      strokes: strokesLate,
    },
  ];
}

/** Whole bars in the middle of the take in which nothing written was played. */
export function silentBars({ target, counted, strokes }: FormTaken): readonly FormSlip[] {
  const barOf = ({ beat }: TargetNote) => barOfTarget(target, beat);
  const written = grouped(counted, barOf);
  const played = new Set(strokes.map(({ note }) => barOf(note)));
  const first = Math.min(...played);
  const last = Math.max(...played);
  const silent = [...written.keys()].filter((bar) => bar > first && bar < last && !played.has(bar));
  const slips: { from: number; bars: number; strokes: number }[] = [];
  for (const bar of silent) {
    const count = written.get(bar)?.length ?? 0;
    const before = slips[slips.length - 1];
    if (before && before.from + before.bars === bar) {
      before.bars += 1;
      before.strokes += count;
    } else slips.push({ from: bar, bars: 1, strokes: count });
  }
  return slips.map(({ from, bars, strokes: count }) => ({
    kind: "bars-silent",
    bar: from + 1,
    beat: 1,
    bars,
    strokes: count,
  }));
}

/** A phrase: four bars (common practice, no source). */
const PHRASE_BARS = 4;
/** Bars on either side that a one is compared with. */
const NEIGHBOURS = 2;
/** Off its neighbours by this many standard errors is more than chance. Common practice. */
const SURELY = 3;

/**
 * Ones that lie off their neighbours: after a phrase of four bars, or after a bar that is written otherwise than most
 * (a fill). The strokes on the one are taken together; to be told they must lie outside the band, and by more than
 * their own scatter makes likely.
 */
export function onesOffPlace({ target, counted, strokes, halfBandMs }: FormTaken): readonly FormSlip[] {
  const fills = fillBars(counted, target);
  const byBar = grouped(strokes, ({ note }) => barOfTarget(target, note.beat));
  const spread =
    strokes.length < 2 ? Number.POSITIVE_INFINITY : robustSpread(strokes.map(({ offsetMs }) => offsetMs)).sd;
  return [...byBar.keys()].flatMap((bar): FormSlip[] => {
    const afterFill = fills.has(bar - 1);
    if (bar === 0 || (!afterFill && bar % PHRASE_BARS !== 0)) return [];
    const ones = (byBar.get(bar) ?? []).filter(({ note }) => placeInBar(target, note.beat) === 0);
    const around: Milliseconds[] = [];
    for (let near = bar - NEIGHBOURS; near <= bar + NEIGHBOURS; near += 1) {
      for (const { note, offsetMs } of byBar.get(near) ?? []) {
        if (near !== bar || beatOfBar(target, note.beat) !== 1) around.push(offsetMs);
      }
    }
    if (ones.length === 0 || around.length < beatsPerBar(target.metre)) return [];
    const byMs = ones.reduce((sum, { offsetMs }) => sum + offsetMs, 0) / ones.length - median(around);
    const surely = (SURELY * spread) / Math.sqrt(ones.length);
    if (Math.abs(byMs) <= halfBandMs || Math.abs(byMs) <= surely) return [];
    return [{ kind: "one-off-place", bar: bar + 1, beat: 1, byMs, afterFill, strokes: ones.length }];
  });
}

/** Bars written otherwise than the most frequent one. */
function fillBars(counted: readonly TargetNote[], target: Target): ReadonlySet<number> {
  const bars = grouped(counted, ({ beat }) => barOfTarget(target, beat));
  const written = [...bars].map(([bar, notes]) => ({
    bar,
    text: notes.map(({ beat, voice }) => `${placeInBar(target, beat)} ${voice}`).join(),
  }));
  const alike = grouped(written, ({ text }) => text);
  const usual = [...alike.values()].reduce((most, those) => (those.length > most.length ? those : most), []);
  // Where no bar is the usual one (a groove of two bars in turn), there are no fills to tell.
  if (usual.length * 2 <= written.length) return new Set();
  const same = new Set(usual.map(({ bar }) => bar));
  return new Set(written.flatMap(({ bar }) => (same.has(bar) ? [] : [bar])));
}
