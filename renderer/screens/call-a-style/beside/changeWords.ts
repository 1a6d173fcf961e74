/**
 * What changed from one take to another, in plain words: figures before and now. It does not say what is better: the
 * teacher knows what was asked for.
 */
import {
  type BeatFigures,
  driftWords,
  type Report,
  sharesClock,
  type VoiceFigures,
} from "../../../../engine/grading/index.ts";
import { voiceName } from "../../../../engine/kit/index.ts";
import type { Milliseconds } from "../../../../engine/units/index.ts";
import { formatCount, formatMs, formatTempo, formatWholeMs, inRingOrder } from "../../../charts/index.ts";

/** A change of spread is told from so many standard errors on: strokes of one take are not independent. Our choice. */
const TOLD_FROM_ERRORS = 3;
/** Beats told one by one; the chart shows the rest. Our choice. */
const MOST_BEATS = 2;
/** The same of voices; the table has all of them. */
const MOST_VOICES = 3;
/** A stroke more or less happens to anybody. Our choice. */
const FEWEST_STROKES = 2;

/**
 * Sentences, the whole take first.
 *
 * @example
 * changeWords(before, now)[0] // => "Spread went from 21 ms to 14 ms."
 */
export function changeWords(before: Report, now: Report): readonly string[] {
  const limitMs = now.band.hearableMs;
  return [
    ...spreadWords(before, now),
    ...leanWords(before, now, limitMs),
    ...tempoWords(before, now),
    ...beatWords(before, now, limitMs),
    ...voicesWords(before.voices, now.voices),
  ];
}

function spreadWords(before: Report, now: Report): readonly string[] {
  const [earlier, latest] = [before.spreadMs, now.spreadMs];
  if (earlier === null || latest === null) return ["Too few strokes to lay the spreads beside one another."];
  const [from, to] = [formatWholeMs(earlier), formatWholeMs(latest)];
  if (from === to) return [`Spread stayed at ${to}.`];
  const errorMs = Math.hypot(spreadError(earlier, before), spreadError(latest, now));
  return Math.abs(latest - earlier) > TOLD_FROM_ERRORS * errorMs
    ? [`Spread went from ${from} to ${to}.`]
    : [`Spread was ${from} and is ${to}; so small a difference comes by chance.`];
}

/** Standard error of a standard deviation, for normal scatter: s / √(2(n − 1)). Common practice. */
function spreadError(spreadMs: Milliseconds, { hits }: Report): Milliseconds {
  const strokes = hits.filter(({ state }) => state === "matched").length;
  return spreadMs / Math.sqrt(2 * Math.max(1, strokes - 1));
}

/** Only against a clock that both takes shared: otherwise a lean is nought by construction. */
function leanWords(before: Report, now: Report, limitMs: Milliseconds): readonly string[] {
  if (!isSameClock(before, now) || before.leanMs === null || now.leanMs === null) return [];
  const [from, to] = [formatMs(before.leanMs, 0), formatMs(now.leanMs, 0)];
  return Math.abs(now.leanMs - before.leanMs) > limitMs
    ? [`Lean went from ${from} to ${to}.`]
    : [`Lean stayed, to the ear: ${from}, then ${to}.`];
}

/** Whether both takes lean against a clock of their own making or both against a click. */
export function isSameClock(before: Report, now: Report): boolean {
  return sharesClock(before) && sharesClock(now);
}

function tempoWords(before: Report, now: Report): readonly string[] {
  const [earlier, latest] = [before.tempoBpm, now.tempoBpm];
  const moved =
    earlier !== null && latest !== null && formatTempo(earlier) !== formatTempo(latest)
      ? [`The tempo went from ${formatTempo(earlier)} to ${formatTempo(latest)}.`]
      : [];
  const [drifted, drifts] = [driftWords(before), driftWords(now)];
  return drifted === drifts ? moved : [...moved, `Before: ${inSentence(drifted)} Now: ${inSentence(drifts)}`];
}

function inSentence(sentence: string): string {
  return sentence.charAt(0).toLowerCase() + sentence.slice(1);
}

interface BeatChange {
  readonly beat: number;
  readonly from: Milliseconds;
  readonly to: Milliseconds;
}

/** Beats that moved within the take by more than can be heard, the furthest first. */
function beatWords(before: Report, now: Report, limitMs: Milliseconds): readonly string[] {
  const changes = now.perBeat.flatMap(({ beat, leanMs }): readonly BeatChange[] => {
    const earlier = before.perBeat.find((figures: BeatFigures) => figures.beat === beat)?.leanMs ?? null;
    if (leanMs === null || earlier === null) return [];
    return [{ beat, from: earlier - (before.leanMs ?? 0), to: leanMs - (now.leanMs ?? 0) }];
  });
  return changes
    .filter(({ from, to }) => Math.abs(to - from) > limitMs)
    .sort((a, b) => Math.abs(b.to - b.from) - Math.abs(a.to - a.from))
    .slice(0, MOST_BEATS)
    .map(
      ({ beat, from, to }) =>
        `Beat ${beat} went from ${againstRest(from)} to ${againstRest(to)} against the rest.`,
    );
}

function againstRest(offsetMs: Milliseconds): string {
  return Math.round(offsetMs) === 0 ? "0 ms" : formatMs(offsetMs, 0);
}

/** What became of the strokes of a voice, other than written. */
const SLIPS = [
  { what: "left out", countOf: ({ leftOut }: VoiceFigures) => leftOut },
  {
    what: "on another sound",
    countOf: ({ otherSound }: VoiceFigures) => otherSound.reduce((sum, { count }) => sum + count, 0),
  },
  { what: "added", countOf: ({ added }: VoiceFigures) => added },
] as const;

/** Voices of which more or fewer strokes slipped, the furthest first. */
function voicesWords(before: readonly VoiceFigures[], now: readonly VoiceFigures[]): readonly string[] {
  const voices = inRingOrder([...before, ...now].map(({ voice }) => voice));
  const changes = voices.flatMap((voice) => {
    const earlier = before.find((figures) => figures.voice === voice);
    const latest = now.find((figures) => figures.voice === voice);
    return SLIPS.map(({ what, countOf }) => {
      const [from, to] = [earlier ? countOf(earlier) : 0, latest ? countOf(latest) : 0];
      const outOf = what === "added" ? () => "" : ofWritten;
      return {
        by: Math.abs(to - from),
        words: `${capital(voiceName(voice))} ${what}: ${formatCount(from)}${outOf(earlier)} before, ${formatCount(to)}${outOf(latest)} now.`,
      };
    });
  });
  return changes
    .filter(({ by }) => by >= FEWEST_STROKES)
    .sort((a, b) => b.by - a.by)
    .slice(0, MOST_VOICES)
    .map(({ words }) => words);
}

function ofWritten(figures: VoiceFigures | undefined): string {
  return ` of ${figures?.written ?? 0}`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
