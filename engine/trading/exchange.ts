/**
 * Question: what is to be said of an exchange, a call and its answer, and of how the time went from one player to the other?
 */
import { leanAndSpread } from "../grading/index.ts";
import { beatsPerBar, type Level } from "../score/index.ts";
import { type Bpm, beatSeconds, type Milliseconds, type Seconds } from "../units/index.ts";
import type { Aim } from "./aim.ts";
import { type Comparison, compareAnswer } from "./compare.ts";
import { handOverWords } from "./comparisonWords.ts";
import type { Turn } from "./form.ts";
import { pulsesPerBeat } from "./onPulses.ts";
import { phraseStrokes } from "./phraseStrokes.ts";
import type { Pulse } from "./turnClock.ts";
import { type TradedHit, turnHits } from "./turnHits.ts";
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

/** Judges an exchange whose turns have a length. */
export function judgeExchange(
  hits: readonly TradedHit[],
  { call, answer }: { readonly call: Turn; readonly answer: Turn },
  pulse: Pulse,
  { aim, level }: { readonly aim: Aim; readonly level: Level },
): Exchange {
  const called = turnHits(hits, call, pulse);
  // Who finishes a phrase may begin where it stopped.
  const answered = turnHits(hits, answer, pulse, aim === "finish" ? called.phrase.at(-1)?.time : undefined);
  const { tempoBpm } = pulse;
  const comparison = compareAnswer(called.phrase, answered.phrase, {
    level,
    tempoBpm,
    turnSeconds: answered.from - called.from,
    largestStretch: SAME_PULSE_STRETCH,
  });
  const span = (turn: Turn, from: Seconds) => ({ from, bars: turn.bars ?? 0, tempoBpm, metre: pulse.metre });
  const verdict = verdictOn(aim, comparison, {
    call: { hits: called.phrase, turn: span(call, called.from) },
    answer: {
      hits: answered.withLanding,
      turn: span(answer, answered.from),
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
    says: [...verdict.says, handOverWords(handOverMs, tempoBpm)].flatMap((sentence) => sentence ?? []),
  };
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

/**
 * The pulse as the players have it after a turn: the line through the turn's strokes, no more than so much faster or slower at
 * once. For a form without a click, whose pulse is the players' own.
 */
export function followedPulse(pulse: Pulse, hits: readonly TradedHit[], turn: Turn): Pulse {
  const { phrase, until } = turnHits(hits, turn, pulse);
  const times = phraseStrokes(phrase).map(({ time }) => time);
  if (turn.bars === null || times.length < FEWEST_TO_FOLLOW) return pulse;
  const beats = followedBeats(times, pulse);
  const meanBeat = beats.reduce((sum, beat) => sum + beat, 0) / beats.length;
  const meanTime = times.reduce((sum, time) => sum + time, 0) / times.length;
  const squares = beats.reduce((sum, beat) => sum + (beat - meanBeat) ** 2, 0);
  const products = beats.reduce(
    (sum, beat, at) => sum + (beat - meanBeat) * ((times[at] ?? 0) - meanTime),
    0,
  );
  const beat = beatSeconds(pulse.tempoBpm);
  // From a single beat no tempo can be told; the place of the next line can.
  const heard = squares < 1 ? beat : products / squares;
  const next = Math.min(beat * MOST_CHANGE, Math.max(beat / MOST_CHANGE, heard));
  const endBeat = (turn.fromBar + turn.bars) * beatsPerBar(pulse.metre);
  const line = meanTime + next * (endBeat - meanBeat);
  // A line further off would be another beat's.
  const held = Math.abs(line - until) > beat * MOST_MOVED ? until : line;
  return { ...pulse, tempoBpm: 60 / next, from: held - endBeat * next };
}

/** The beat of each stroke, for a player who may gain or lose a beat in a turn: place and tempo are followed stroke by stroke. */
function followedBeats(times: readonly Seconds[], { from, tempoBpm }: Pulse): readonly number[] {
  // A take that drifts lies on no division as a whole; its beginning does.
  const perBeat = pulsesPerBeat(times.slice(0, STROKES_FOR_DIVISION), from, tempoBpm);
  let place = { time: from, beat: 0 };
  let beatLong = beatSeconds(tempoBpm);
  return times.map((time) => {
    const exact = place.beat + (time - place.time) / beatLong;
    const beat = Math.round(exact * perBeat) / perBeat;
    const late = (exact - beat) * beatLong;
    const since = beat - place.beat;
    place = { time: time - (1 - PLACE_GAIN) * late, beat };
    if (since > 0) beatLong += (TEMPO_GAIN * late) / Math.max(1, since);
    return beat;
  });
}

const STROKES_FOR_DIVISION = 8;
/** How much of what a stroke is off moves the place and the tempo. Our choice: a bar's memory. */
const PLACE_GAIN = 0.5;
const TEMPO_GAIN = 0.15;
const FEWEST_TO_FOLLOW = 4;
/** Our choice: a turn that gains more than this is a slip, and the other player will not take it up. */
const MOST_CHANGE = 1.06;
/** A turn of eight bars may end three quarters of a beat sooner or later than it began. Our choice. */
const MOST_MOVED = 0.75;
