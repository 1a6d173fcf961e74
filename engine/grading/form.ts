/**
 * Question: did the take keep to the written form: entry, bars, the one after a fill?
 */
import { beatsPerBar } from "../score/index.ts";
import { beatSeconds, type Milliseconds, median, type Seconds } from "../units/index.ts";
import { nearestPlace, roundBeats } from "./formPath.ts";
import { grouped } from "./grouped.ts";
import type { FormPiece, InPieces } from "./inPieces.ts";
import { barOfTarget, placeOnPage } from "./limb.ts";
import type { StartPoint, Stroke } from "./matching.ts";
import type { FormFigures, FormSlip } from "./slip.ts";
import { beatOfBar, placeInBar, type Target, type TargetNote } from "./target.ts";

/** All slips of the form, in order of the take. */
export function formFigures(taken: FormTaken, whole: InPieces): FormFigures {
  const slips = [...placeSlips(whole, taken), ...silentBars(taken), ...onesOffPlace(taken)];
  // A late entry that was made good by leaving strokes out, unless the whole came late.
  const entry = slips.some(({ kind }) => kind === "entry") ? [] : entrySlip(taken);
  return { slips: [...entry, ...slips].sort((a, b) => a.bar - b.bar || a.beat - b.beat) };
}

/** Beats count as whole to this much. */
const WHOLE = 0.02;
/** A silence of so many bars is a stop, even when the player comes in again on a beat. Our choice. */
const LONG_STOP_BARS = 1.5;
/** A stroke this much of a beat early still belongs to its beat. */
const ROUND_UP = 0.2;

/** What is told of the pieces of a take (`inPieces.ts`): changes of place, in order. */
function placeSlips(
  { matched: { hits, heardAt }, pieces }: InPieces,
  { target, start, shared }: FormTaken,
): readonly FormSlip[] {
  if (pieces.length === 1 && pieces[0]?.shift === 0) return [];
  const beat = beatSeconds(target.tempoBpm);
  const round = roundBeats(target);
  const bar = beatsPerBar(target.metre);
  const slips: FormSlip[] = [];
  let before = 0;
  // What a stop moved by is told by the stop: from there the page is counted anew.
  let base = 0;
  pieces.forEach((piece, at) => {
    const by = nearestPlace((piece.shift - before) / beat, round);
    const now = nearestPlace((piece.shift - base) / beat, round);
    const last = pieces[at - 1];
    const pageBeat = last ? Math.round((last.to / beat) * 2) / 2 : 0;
    const place = placeOnPage(target, pageBeat);
    const strokes = Math.max(1, Math.round(piece.saved));
    const turned = slips[slips.length - 1];
    if (at > 0 && turned?.kind === "turned-round" && turned.untilBar === null && isWhole(now / bar)) {
      slips[slips.length - 1] = { ...turned, untilBar: place.bar };
    } else if (
      piece.afterStop &&
      !(shared && isWhole(2 * by) && silenceBefore(piece) < LONG_STOP_BARS * bar * beat)
    ) {
      slips.push(stopSlip(piece, strokes));
      base = piece.shift;
    } else if (Math.abs(by) > WHOLE) {
      if (at === 0 && shared) {
        slips.push({
          kind: "entry",
          bar: 1,
          beat: 1,
          byBeats: by,
          byMs: by * beat * start.stretch * 1000,
          strokes,
        });
      } else if (isWhole(by / bar)) {
        const bars = Math.round(Math.abs(by) / bar);
        const kind = by < 0 ? "bars-dropped" : "bars-added";
        slips.push({ kind, ...place, bars, strokes });
      } else {
        slips.push({ kind: "turned-round", ...place, byBeats: roundedBeats(now), untilBar: null, strokes });
      }
    }
    before = piece.shift;
  });
  return slips;

  function silenceBefore({ firstHit }: FormPiece): Seconds {
    return (hits[firstHit]?.hit.time ?? 0) - (hits[firstHit - 1]?.hit.time ?? 0);
  }

  function stopSlip(piece: FormPiece, strokes: number): FormSlip {
    const stopped = placeOnPage(target, (heardAt[piece.firstHit - 1] ?? 0) / beat + ROUND_UP);
    const on = placeOnPage(target, (heardAt[piece.firstHit] ?? 0) / beat + ROUND_UP);
    const silenceMs = silenceBefore(piece) * 1000;
    return { kind: "stopped", ...stopped, onBar: on.bar, onBeat: on.beat, silenceMs, strokes };
  }
}

function isWhole(value: number): boolean {
  return Math.abs(value - Math.round(value)) < WHOLE;
}

function roundedBeats(value: number): number {
  return Math.round(value * 100) / 100;
}

/** What the form is read from. */
export interface FormTaken {
  readonly target: Target;
  /** Written strokes that count, in order of the target. */
  readonly counted: readonly TargetNote[];
  /** Offsets with any significant trend taken out, in order of the target. */
  readonly strokes: readonly Stroke[];
  readonly start: StartPoint;
  readonly halfBandMs: Milliseconds;
  readonly spreadMs: Milliseconds | null;
  /** Whether take and target shared a clock: a free start may be anywhere. */
  readonly shared: boolean;
}

/** Late entry, if the first stroke answered lies a beat or more after the first one written. */
function entrySlip({ target, counted, strokes, start, shared }: FormTaken): readonly FormSlip[] {
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
      byMs: byBeats * beatSeconds(target.tempoBpm) * start.stretch * 1000 + played.offsetMs,
      strokes: strokesLate,
    },
  ];
}

/** Whole bars in the middle of the take in which nothing written was played. */
function silentBars({ target, counted, strokes }: FormTaken): readonly FormSlip[] {
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
/** Off its neighbours by this many standard errors is more than chance, though some bars are looked at. Common practice. */
const SURELY = 4;

/**
 * Ones that lie off their neighbours: after a phrase of four bars, or after a bar that is written otherwise than most
 * (a fill). The strokes on the one are taken together; to be told they must lie outside the band, and by more than
 * their own scatter makes likely.
 */
function onesOffPlace({ target, counted, strokes, halfBandMs, spreadMs }: FormTaken): readonly FormSlip[] {
  const fills = fillBars(counted, target);
  const byBar = grouped(strokes, ({ note }) => barOfTarget(target, note.beat));
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
    const surely = (SURELY * (spreadMs ?? Number.POSITIVE_INFINITY)) / Math.sqrt(ones.length);
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
