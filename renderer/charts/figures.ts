/**
 * How figures are said. Every chart and the table beside it take their words from here, so that they can
 * never say two different things. Ahead is negative, behind positive. `null`: it could not be told.
 */
import {
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

/** A count in a table: "none" rather than a nought. */
export function formatCount(count: number): string {
  return count === 0 ? "none" : String(count);
}

/** Touch of a voice: "as written" when all of it was, else how many strokes were what. */
export function formatTouch(touch: TouchFigures): string {
  if (touch.ghosted > 0 || touch.heavy > 0) return touchWords(touch);
  return touch.asWritten > 0 ? "as written" : "nothing to compare";
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
