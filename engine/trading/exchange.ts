/**
 * Question: what is to be said of an exchange, a call and its answer, and of how the time went from one player to the other?
 */
import { leanAndSpread } from "../grading/index.ts";
import type { Level } from "../score/index.ts";
import { type Bpm, beatSeconds, type Milliseconds, type Seconds } from "../units/index.ts";
import type { Aim } from "./aim.ts";
import { type Comparison, compareAnswer } from "./compare.ts";
import { handOverWords } from "./comparisonWords.ts";
import type { TurnSpan } from "./freeAnswer.ts";
import { freeSpans } from "./freeSpans.ts";
import { pulsesPerBeat } from "./onPulses.ts";
import { phraseStrokes } from "./phraseStrokes.ts";
import type { Pulse } from "./turnClock.ts";
import { type PlayedTurn, type TradedHit, turnHits } from "./turnHits.ts";
import { type Verdict, verdictOn } from "./verdict.ts";

/** Where a player stands in time, against the pulse. */
export interface Standing {
  readonly leanMs: Milliseconds | null;
  readonly spreadMs: Milliseconds | null;
}

export interface Exchange extends Verdict {
  readonly aim: Aim;
  readonly comparison: Comparison;
  readonly call: Standing;
  readonly answer: Standing;
  /** How much later the answer stands at its beginning than the call at its end; `null` where one of them is silent there. */
  readonly handOverMs: Milliseconds | null;
}

/** So many beats up to the call's last stroke are compared with as many from the answer's first one on. Our choice: half a bar. */
const HAND_OVER_BEATS = 2;

export interface Judging {
  readonly aim: Aim;
  readonly level: Level;
  /** Within how much the clocks of two places are known; 0 in one. */
  readonly clockMs?: Milliseconds;
}

/** Judges an exchange, each turn with the pulse that it was played on. */
export function judgeExchange(
  hits: readonly TradedHit[],
  { call, answer }: { readonly call: PlayedTurn; readonly answer: PlayedTurn },
  { aim, level, clockMs = 0 }: Judging,
): Exchange {
  const { pulse } = answer;
  const { tempoBpm } = pulse;
  const called = turnHits(hits, call);
  // Who finishes a phrase may begin where it stopped.
  const answered = turnHits(hits, answer, aim === "finish" ? called.phrase.at(-1)?.time : undefined);
  const isFree = answer.turn.bars === null;
  const comparison = compareAnswer(called.phrase, answered.phrase, {
    level,
    tempoBpm,
    // Without lines at which turns meet, nobody knows where an answer should begin.
    ...(isFree ? {} : { turnSeconds: answer.from - call.from, largestStretch: SAME_PULSE_STRETCH }),
  });
  const spans = isFree
    ? freeSpans(called.phrase, answered.phrase, pulse)
    : { call: spanOf(call, pulse), answer: spanOf(answer, pulse) };
  const verdict = verdictOn(aim, comparison, {
    call: { hits: called.phrase, turn: spans.call },
    answer: {
      hits: answered.withLanding,
      turn: spans.answer,
      isLandingTold: answered.isLandingTold,
    },
    level,
  });
  const callOffsets = pulseOffsets(called.phrase, pulse);
  const answerOffsets = pulseOffsets(answered.phrase, pulse);
  const handOverMs = handOver(callOffsets, answerOffsets, tempoBpm);
  return {
    ...verdict,
    aim,
    comparison,
    call: standingOf(callOffsets),
    answer: standingOf(answerOffsets),
    handOverMs,
    says: [...verdict.says, handOverWords(handOverMs, tempoBpm, clockMs)].flatMap(
      (sentence) => sentence ?? [],
    ),
  };
}

function spanOf({ turn, from }: PlayedTurn, { tempoBpm, metre }: Pulse): TurnSpan {
  return { from, bars: turn.bars ?? 0, tempoBpm, metre };
}

/** On one pulse an answer's tempo is the call's, but for how people drift in a turn. Our choice. */
const SAME_PULSE_STRETCH = 1.08;

/** A stroke and how far it stands from the nearest pulse of the phrase's own division: negative ahead. */
export interface PulseOffset {
  readonly time: Seconds;
  readonly offsetMs: Milliseconds;
}

/** Offsets of a phrase from a pulse, by the coarsest division of the beat on which the phrase lies. */
export function pulseOffsets(
  phrase: readonly TradedHit[],
  { from, tempoBpm }: Pulse,
): readonly PulseOffset[] {
  const times = phraseStrokes(phrase).map(({ time }) => time);
  if (times.length === 0) return [];
  const pulse = beatSeconds(tempoBpm) / pulsesPerBeat(times, from, tempoBpm);
  return times.map((time) => {
    const place = (time - from) / pulse;
    return { time, offsetMs: (place - Math.round(place)) * pulse * 1000 };
  });
}

function standingOf(offsets: readonly PulseOffset[]): Standing {
  const { leanMs, spreadMs } = leanAndSpread(offsets.map(({ offsetMs }) => offsetMs));
  return { leanMs, spreadMs };
}

function handOver(
  before: readonly PulseOffset[],
  after: readonly PulseOffset[],
  tempoBpm: Bpm,
): Milliseconds | null {
  const reach = HAND_OVER_BEATS * beatSeconds(tempoBpm);
  const end = before.at(-1)?.time ?? 0;
  const beginning = after[0]?.time ?? 0;
  const last = before.filter(({ time }) => time > end - reach);
  const first = after.filter(({ time }) => time < beginning + reach);
  const from = standingOf(last).leanMs;
  const to = standingOf(first).leanMs;
  return from === null || to === null ? null : to - from;
}
