/**
 * Question: what is to be said of a free answer?
 * Nothing of it is right or wrong; it is described: how long it is, whether it lands, how much space it leaves, how dense it is
 * and how much of the call's material it takes up.
 */
import { bandMs } from "../grading/index.ts";
import { beatsPerBar, type Level, type Metre } from "../score/index.ts";
import { type Bpm, beatSeconds, type Milliseconds, type Seconds } from "../units/index.ts";
import { pulsesPerBeat } from "./onPulses.ts";
import { type PhraseHit, type PhraseStroke, phraseStrokes } from "./phraseStrokes.ts";

/** A turn on the clock of its strokes. */
export interface TurnSpan {
  readonly from: Seconds;
  readonly bars: number;
  readonly tempoBpm: Bpm;
  readonly metre: Metre;
}

/** A phrase in its turn. */
export interface TurnPhrase {
  /** They may run past the end of the turn; what lies before it is a pick-up. */
  readonly hits: readonly PhraseHit[];
  readonly turn: TurnSpan;
  /** False where both share a kit: the one after the turn is then anybody's. */
  readonly isLandingTold?: boolean;
}

export interface FreeAnswer {
  /** From the turn's beginning to the end of the bar of the last stroke; 0 for silence. */
  readonly lengthBars: number;
  /** Of the turn's own length: it stops sooner, fills it, or runs over. */
  readonly length: "shorter" | "as long" | "longer";
  /** The stroke on the one after the turn, against that one; `null` where none was struck there. */
  readonly landingMs: Milliseconds | null;
  /** `null` where it cannot be told whose stroke stands there. */
  readonly landsOnOne: boolean | null;
  /** Share of the turn's beats on which, and after which until the next, nothing is struck: 0 to 1. */
  readonly spaceLeft: number;
  /** Onsets a beat, chords counted once. */
  readonly density: number;
  /** Of both phrases' figures (two sounds and the time between them), the share they have in common: 0 to 1. */
  readonly materialShared: number;
}

/** Onsets nearer than this are one: a chord, however the hands fall (Hirsh 1959: order is heard from 20 ms; from memory). */
const ONE_ONSET_SECONDS: Seconds = 0.03;
/** A stroke nearer to the one after the turn than a quarter of a beat is meant for it. Our choice. */
const LANDING_BEATS = 0.25;

/** Describes a free answer beside its call, each in its own turn. */
export function describeAnswer(call: TurnPhrase, answer: TurnPhrase, level: Level): FreeAnswer {
  const { turn } = answer;
  const beat = beatSeconds(turn.tempoBpm);
  const inBar = beatsPerBar(turn.metre);
  const beats = turn.bars * inBar;
  const end = turn.from + beats * beat;
  const strokes = phraseStrokes(answer.hits);
  const inTurn = strokes.filter(({ time }) => time < end - LANDING_BEATS * beat);
  const landing = nearest(strokes, end, LANDING_BEATS * beat);
  const beyond = strokes.filter(({ time }) => time >= end + LANDING_BEATS * beat);
  const last = beyond.at(-1) ?? inTurn.at(-1);
  const lengthBars = last
    ? Math.floor((last.time - turn.from + LANDING_BEATS * beat) / (inBar * beat)) + 1
    : 0;
  const landingMs = landing ? (landing.time - end) * 1000 : null;
  const onsets = onsetsOf(inTurn);
  const struck = new Set(onsets.map((time) => Math.floor((time - turn.from) / beat + LANDING_BEATS)));
  const empty = Array.from({ length: beats }, (_, at) => at).filter((at) => !struck.has(at)).length;
  return {
    lengthBars,
    length: lengthBars < turn.bars ? "shorter" : lengthBars > turn.bars ? "longer" : "as long",
    landingMs,
    landsOnOne:
      answer.isLandingTold === false
        ? null
        : landingMs !== null && Math.abs(landingMs) <= bandMs(level, turn.tempoBpm),
    spaceLeft: beats === 0 ? 1 : empty / beats,
    density: beats === 0 ? 0 : onsets.length / beats,
    materialShared: shared(figuresOf(phraseStrokes(call.hits), call.turn), figuresOf(inTurn, turn)),
  };
}

function nearest(
  strokes: readonly PhraseStroke[],
  moment: Seconds,
  within: Seconds,
): PhraseStroke | undefined {
  return strokes
    .filter(({ time }) => Math.abs(time - moment) < within)
    .sort((a, b) => Math.abs(a.time - moment) - Math.abs(b.time - moment))[0];
}

function onsetsOf(strokes: readonly PhraseStroke[]): readonly Seconds[] {
  const onsets: Seconds[] = [];
  for (const { time } of strokes) {
    const before = onsets.at(-1);
    if (before === undefined || time - before > ONE_ONSET_SECONDS) onsets.push(time);
  }
  return onsets;
}

/** "snare, three pulses, kick": what can be taken up from one place to another and from one tempo to another. */
function figuresOf(strokes: readonly PhraseStroke[], { from, tempoBpm }: TurnSpan): readonly string[] {
  if (strokes.length < 2) return [];
  const times = strokes.map(({ time }) => time);
  const perBeat = pulsesPerBeat(times, from, tempoBpm);
  // On one fine grid for both sides, so that eighths here and sixteenths there are told alike.
  const place = (time: Seconds): number =>
    (Math.round(((time - from) / beatSeconds(tempoBpm)) * perBeat) / perBeat) * FINEST;
  return strokes
    .slice(1)
    .map(
      ({ time, voice }, at) =>
        `${strokes[at]?.voice} ${Math.round(place(time) - place(strokes[at]?.time ?? time))} ${voice}`,
    );
}

const FINEST = 24;

/** Dice's share of two bags: twice what they have in common over what they have (Dice 1945). */
function shared(a: readonly string[], b: readonly string[]): number {
  if (a.length + b.length === 0) return 0;
  const left = [...b];
  const common = a.filter((figure) => {
    const at = left.indexOf(figure);
    if (at >= 0) left.splice(at, 1);
    return at >= 0;
  }).length;
  return (2 * common) / (a.length + b.length);
}
