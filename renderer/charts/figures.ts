/**
 * How figures are said. Every chart and the table beside it take their words from here, so that they can
 * never say two different things. Ahead is negative, behind positive. `null`: it could not be told.
 */
import {
  type DynamicsFigures,
  hearableMs,
  numberWord,
  placeOf,
  type TouchFigures,
  touchWords,
} from "../../engine/grading/index.ts";
import type { Bpm, Milliseconds } from "../../engine/units/index.ts";

/** What stands where a figure could not be told. */
export const NO_FIGURE = "too few strokes";

/** What nobody hears at any tempo. */
const NEVER_HEARD_MS = hearableMs(0);

/**
 * A lean in whole milliseconds, and in words where nobody hears it.
 *
 * @param limitMs differences up to this much are "in the pocket": `hearableMs` of the beat, where the tempo is known.
 * @example
 * formatMs(9.2) // => "9 ms behind"
 */
export function formatMs(leanMs: Milliseconds | null, limitMs: Milliseconds = NEVER_HEARD_MS): string {
  if (leanMs === null) return NO_FIGURE;
  const place = placeOf(leanMs, limitMs);
  return place === "in the pocket" ? place : `${Math.round(Math.abs(leanMs))} ms ${place}`;
}

/**
 * A lean to a tenth of a millisecond, for tables.
 *
 * @example
 * formatLean(-4.25) // => "4.3 ms ahead"
 */
export function formatLean(leanMs: Milliseconds | null): string {
  if (leanMs === null) return NO_FIGURE;
  const tenths = toTenths(Math.abs(leanMs));
  return tenths === "0.0" ? "0.0 ms" : `${tenths} ms ${placeOf(leanMs, 0)}`;
}

/** A spread to a tenth of a millisecond, for tables: "14.2 ms". */
export function formatSpread(spreadMs: Milliseconds | null): string {
  return spreadMs === null ? NO_FIGURE : `${toTenths(spreadMs)} ms`;
}

/** A spread in whole milliseconds: "14 ms". */
export function formatWholeMs(spreadMs: Milliseconds | null): string {
  return spreadMs === null ? NO_FIGURE : `${Math.round(spreadMs)} ms`;
}

/** Long to short: "1.9 : 1". `null` where nothing is written on both halves of a beat. */
export function formatRatio(ratio: number | null): string {
  return ratio === null ? "not written here" : `${ratio.toFixed(1)} : 1`;
}

/** "104 a minute". */
export function formatTempo(tempoBpm: Bpm): string {
  return `${Math.round(tempoBpm)} a minute`;
}

/**
 * What the two zones behind a chart are.
 *
 * @param leanMs the take's own lean; `null`: the zones lie round the beat.
 */
export function bandWords({
  leanMs,
  bandMs,
  limitMs,
}: {
  readonly leanMs: Milliseconds | null;
  readonly bandMs: Milliseconds;
  readonly limitMs: Milliseconds;
}): string {
  const middle = leanMs === null ? "the beat" : "the take’s own lean";
  return `Band: ${formatWholeMs(bandMs)} either side of ${middle}. Not heard: up to ${formatWholeMs(limitMs)}.`;
}

/** A count in a table: "none" rather than a nought. */
export function formatCount(count: number): string {
  return count === 0 ? "none" : String(count);
}

/** Touch of a voice: "as written" when all of it was, else how many strokes were what. */
export function formatTouch(touch: TouchFigures): string {
  if (touch.ghosted > 0 || touch.heavy > 0) return touchWords(touch);
  return touch.asWritten > 0 ? "as written" : "nothing to compare";
}

/** What stands where there is no plain stroke on a voice to hold others against. */
const NO_PLAIN = "nothing to compare";

/**
 * Accents of a voice.
 *
 * @example
 * formatAccents({ written: 24, standOut: 18, unwritten: 2 }) // => "18 of 24 stand out, 2 not written"
 */
export function formatAccents(accents: DynamicsFigures["accents"]): string {
  if (accents === null) return NO_PLAIN;
  const { written, standOut, unwritten } = accents;
  return counts([
    written > 0 && `${standOut} of ${written} stand out`,
    unwritten > 0 && `${unwritten} not written`,
  ]);
}

/**
 * Ghost notes of a voice.
 *
 * @example
 * formatGhosts({ written: 32, asGhosts: 29, tooLoud: 2, leftOut: 1, added: 0 }) // => "29 of 32, 2 too loud, 1 left out"
 */
export function formatGhosts(ghosts: DynamicsFigures["ghosts"]): string {
  if (ghosts === null) return NO_PLAIN;
  const { written, asGhosts, tooLoud, leftOut, added } = ghosts;
  return counts([
    written > 0 && `${asGhosts} of ${written}`,
    tooLoud > 0 && `${tooLoud} too loud`,
    leftOut > 0 && `${leftOut} left out`,
    added > 0 && `${added} added`,
  ]);
}

/** What there is to count; nothing written and nothing heard is "none written". */
function counts(parts: readonly (string | false)[]): string {
  return parts.filter((part) => part !== false).join(", ") || "none written";
}

/** Steps of strength a kit sends (MIDI 1.0: velocity 1 to 127). */
const LOUDEST = 127;

/**
 * The player's own range on a voice, in the steps a kit sends.
 *
 * @example
 * formatRange({ soft: 0.3, middle: 0.5, loud: 0.8 }) // => "38 to 102"
 */
export function formatRange(range: DynamicsFigures["range"]): string {
  if (range === null) return NO_FIGURE;
  return `${Math.round(range.soft * LOUDEST)} to ${Math.round(range.loud * LOUDEST)}`;
}

/** "one bar", "twelve bars", "31 bars". */
export function formatBars(bars: number): string {
  if (bars < 1) return "less than a bar";
  return `${numberWord(bars)} ${bars === 1 ? "bar" : "bars"}`;
}

/** Half away from nought, whatever the binary fraction makes of it. */
function toTenths(value: number): string {
  return (Math.round((value + 1e-9) * 10) / 10).toFixed(1);
}
