/**
 * Question: where do the players have the pulse after a turn? For a form without a click, whose pulse is their own.
 */
import { beatSeconds, type Seconds } from "../units/index.ts";
import { pulsesPerBeat } from "./onPulses.ts";
import { phraseStrokes } from "./phraseStrokes.ts";
import { beatsAt, type Pulse } from "./turnClock.ts";
import { type PlayedTurn, type TradedHit, turnHits } from "./turnHits.ts";

/**
 * The pulse as the players have it after a turn: the line through the turn's strokes, no more than so much faster or slower at
 * once. For a form without a click, whose pulse is the players' own.
 */
export function followedPulse(hits: readonly TradedHit[], played: PlayedTurn): Pulse {
  const { pulse } = played;
  const { phrase } = turnHits(hits, played);
  const times = phraseStrokes(phrase).map(({ time }) => time);
  if (times.length < FEWEST_TO_FOLLOW) return pulse;
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
  const endBeat = Math.round(beatsAt(pulse, played.until));
  const until = pulse.from + endBeat * beat;
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
