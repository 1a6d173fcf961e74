/**
 * Question: how far had the player moved from the click when it came back?
 *
 * While the click is silent nothing pulls the player back, so offsets run away: by a tempo of the player's own and by
 * the wander of an inner clock. What is told is where the player stood at the return: a robust line through the last
 * beats of the silence, read off at the return, less the lean over the last bar that sounded before. A stroke right at the
 * return still counts, since nobody answers a click within {@link ANSWER_SECONDS}.
 */
import { type Milliseconds, robustLine, robustSpread, type Seconds } from "../units/index.ts";
import { capital, milliseconds, numberWord } from "./phrases.ts";
import type { JudgedHit } from "./report.ts";

/** A silence of the click, on the target's clock (as `clickSilences` gives it). */
export interface Silence {
  /** Its first bar, counted from 1. */
  readonly bar: number;
  readonly bars: number;
  readonly from: Seconds;
  readonly to: Seconds;
}

export interface GapDrift {
  readonly bar: number;
  readonly bars: number;
  /** Negative: ahead of the click at its return; `null` when it cannot be told. */
  readonly movedMs: Milliseconds | null;
  /** The true figure lies within ± this in about 95 of 100 cases; `null` with `movedMs`. */
  readonly giveOrTakeMs: Milliseconds | null;
}

/** Where in the silence the player is looked for: longer, and a line no longer holds what an inner clock does. Our choice. */
const LAST_BEATS = 4;
/** Fewer strokes make no line, or no lean. Our choice. */
const FEWEST_STROKES = 4;
/** A simple reaction to a sound takes some 140 ms and more (Woodworth & Schlosberg, *Experimental Psychology*, 1954). */
const ANSWER_SECONDS: Seconds = 0.1;
/** The last stroke may lie this far, in beats, before the return: further, and where the player stood is a guess. Our choice. */
const LATEST_BEATS = 1.5;
/** An offset that is known no better than this share of a beat is not told. Our choice. */
const LEAST_CERTAIN_BEATS = 0.25;
/** A strike is known no better: a note takes 1 ms on the wire (MIDI 1.0: three bytes at 31,250 baud). */
const FINEST_MS: Milliseconds = 1;
/**
 * Standard errors to either side. More than the 2 of independent errors: strokes of one limb wander together, so that
 * scatter about the line shows too little of it. Set by simulation (tests/engine/grading/gapDrift.test.ts).
 */
const ERRORS_EITHER_SIDE = 3.2;

/**
 * What happened over each silence of the click.
 *
 * @param hits of a report whose take shared the click's clock.
 * @example
 * gapDrifts(report.hits, [], 0.5) // => []
 */
export function gapDrifts(
  hits: readonly JudgedHit[],
  silences: readonly Silence[],
  beatSeconds: Seconds,
): readonly GapDrift[] {
  const strokes = hits.flatMap((judged) =>
    judged.state === "matched"
      ? [{ time: judged.targetTime, offsetMs: judged.offsetMs + (judged.slippedMs ?? 0) }]
      : [],
  );
  return silences.map((silence) => ({
    bar: silence.bar,
    bars: silence.bars,
    ...movedOver(strokes, silence, beatSeconds),
  }));
}

interface Stroke {
  readonly time: Seconds;
  readonly offsetMs: Milliseconds;
}

const UNTOLD = { movedMs: null, giveOrTakeMs: null } as const;

function movedOver(
  strokes: readonly Stroke[],
  { bars, from, to }: Silence,
  beatSeconds: Seconds,
): Pick<GapDrift, "movedMs" | "giveOrTakeMs"> {
  const barSeconds = (to - from) / bars;
  const last = { from: Math.max(from, to - LAST_BEATS * beatSeconds), to: to + ANSWER_SECONDS };
  const before = between(strokes, { from: from - barSeconds, to: from });
  const within = between(strokes, last);
  const latest = within.at(-1);
  if (before.length < FEWEST_STROKES || within.length < FEWEST_STROKES || !latest) return UNTOLD;
  if (latest.time < to - LATEST_BEATS * beatSeconds) return UNTOLD;
  const lean = robustSpread(before.map(({ offsetMs }) => offsetMs));
  const at = readOff(within, to);
  const errorMs = Math.hypot(at.errorMs, lean.sd / Math.sqrt(lean.count));
  const giveOrTakeMs = Math.max(ERRORS_EITHER_SIDE * errorMs, FINEST_MS);
  // Whole strokes that could be paired with another of the page leave the question open.
  if (!(giveOrTakeMs <= LEAST_CERTAIN_BEATS * beatSeconds * 1000)) return UNTOLD;
  return { movedMs: at.offsetMs - lean.mean, giveOrTakeMs };
}

function between(
  strokes: readonly Stroke[],
  { from, to }: { readonly from: Seconds; readonly to: Seconds },
): readonly Stroke[] {
  // A stroke written on the edge belongs to what begins there.
  const edge = 1e-6;
  return strokes.filter(({ time }) => time >= from - edge && time < to - edge);
}

/** The line through the strokes at a moment, and its standard error there (least squares). */
function readOff(
  strokes: readonly Stroke[],
  time: Seconds,
): { readonly offsetMs: Milliseconds; readonly errorMs: Milliseconds } {
  const x = strokes.map((stroke) => stroke.time - time);
  const y = strokes.map(({ offsetMs }) => offsetMs);
  const line = robustLine(x, y);
  const { sd } = robustSpread(y.map((offset, at) => offset - line.at0 - line.slope * (x[at] ?? 0)));
  const mean = x.reduce((sum, each) => sum + each, 0) / x.length;
  const squares = x.reduce((sum, each) => sum + (each - mean) ** 2, 0);
  const lever = squares > 0 ? mean ** 2 / squares : 0;
  // The line has used up two of the strokes.
  const scatter = sd * Math.sqrt((x.length - 1) / Math.max(1, x.length - 2));
  return { offsetMs: line.at0, errorMs: scatter * Math.sqrt(1 / x.length + lever) };
}

/**
 * One silence in words.
 *
 * @example
 * gapDriftWords({ bar: 3, bars: 1, movedMs: -34, giveOrTakeMs: 11 })
 * // => "Bar 3 without the click: at its return you were 34 ms ahead of it, give or take 11 ms."
 */
export function gapDriftWords({ bar, bars, movedMs, giveOrTakeMs }: GapDrift): string {
  const where = bars === 1 ? `Bar ${bar}` : `Bars ${bar} to ${bar + bars - 1}`;
  if (movedMs === null || giveOrTakeMs === null)
    return `${where} without the click: too little was played there to tell how far you moved.`;
  if (Math.abs(movedMs) <= giveOrTakeMs)
    return `${where} without the click: at its return you were still with it, as far as can be told (±${milliseconds(giveOrTakeMs)}).`;
  const place = movedMs < 0 ? "ahead of it" : "behind it";
  return `${where} without the click: at its return you were ${milliseconds(movedMs)} ${place}, give or take ${milliseconds(giveOrTakeMs)}.`;
}

/**
 * All silences of a take in a sentence; `null` where there were none.
 *
 * @example
 * gapDriftsWords([]) // => null
 */
export function gapDriftsWords(drifts: readonly GapDrift[]): string | null {
  const told = drifts.filter(
    (drift): drift is GapDrift & { movedMs: Milliseconds; giveOrTakeMs: Milliseconds } =>
      drift.movedMs !== null && drift.giveOrTakeMs !== null,
  );
  if (drifts.length === 0) return null;
  const gaps = drifts.length === 1 ? "once" : `${numberWord(drifts.length)} times`;
  if (told.length === 0) return `The click fell silent ${gaps}; too little was played there to tell more.`;
  const ahead = told.filter(({ movedMs, giveOrTakeMs }) => movedMs < -giveOrTakeMs).length;
  const behind = told.filter(({ movedMs, giveOrTakeMs }) => movedMs > giveOrTakeMs).length;
  const counts = [
    [told.length - ahead - behind, "with it"],
    [ahead, "ahead of it"],
    [behind, "behind it"],
  ] as const;
  const said = counts
    .filter(([count]) => count > 0)
    .map(([count, place]) => `${place} ${oneOf(count, told.length)}`.trim());
  return capital(`the click fell silent ${gaps}. At its return you were ${said.join(", ")}.`);
}

function oneOf(count: number, all: number): string {
  if (count === all) return all === 1 ? "" : "each time";
  return count === 1 ? "once" : `${numberWord(count)} times`;
}
