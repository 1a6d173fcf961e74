/**
 * Question: how far apart are call and answer, by the distances of the literature?
 * Both are laid on the coarsest grid of pulses that holds them, the answer where and at the tempo it was given back; the pattern is as long as the
 * call, or the answer where that is longer, in whole beats.
 */
import { type Bpm, beatSeconds, type Seconds } from "../units/index.ts";
import { chronotonicDistance, editDistance, hammingDistance, swapDistance } from "./distances.ts";
import { patternOn, pulsesPerBeat } from "./onPulses.ts";
import { type PhraseHit, phraseStrokes } from "./phraseStrokes.ts";
import type { Transposition } from "./transposition.ts";

export interface PhraseDistances {
  readonly pulsesPerBeat: number;
  /** Length of the patterns compared. */
  readonly pulses: number;
  /** Of the onsets, whatever sounds. `null` where one side is silent. */
  readonly hamming: number;
  readonly edit: number;
  readonly swap: number | null;
  readonly chronotonic: number | null;
  /** Of the sounds in their order, whenever they come. */
  readonly editOfSounds: number;
}

/**
 * @param transposition where the call's moments lie in the answer; `null`: both begin with their first stroke.
 */
export function phraseDistances(
  call: readonly PhraseHit[],
  answer: readonly PhraseHit[],
  transposition: Transposition | null,
  tempoBpm: Bpm,
): PhraseDistances {
  const called = phraseStrokes(call);
  const answered = phraseStrokes(answer);
  const calledAt = called.map(({ time }) => time);
  const answeredAt = onCall(answered, transposition, calledAt[0] ?? 0);
  const first = calledAt[0] ?? answeredAt[0] ?? 0;
  const beat = beatSeconds(tempoBpm);
  const perBeat = pulsesPerBeat([...calledAt, ...answeredAt], first, tempoBpm);
  const pulseSeconds = beat / perBeat;
  const places = [...calledAt, ...answeredAt].map((time) => Math.round((time - first) / pulseSeconds));
  // A pick-up of the answer stands before the call's first stroke.
  const before = Math.ceil(-Math.min(0, ...places) / perBeat) * perBeat;
  const pulses = Math.ceil((Math.max(0, ...places) + 1) / perBeat) * perBeat + before;
  const grid = { from: first - before * pulseSeconds, pulseSeconds, pulses };
  const a = patternOn(calledAt, grid);
  const b = patternOn(answeredAt, grid);
  return {
    pulsesPerBeat: perBeat,
    pulses,
    hamming: hammingDistance(a, b),
    edit: editDistance(a, b),
    swap: swapDistance(a, b),
    chronotonic: chronotonicDistance(a, b),
    editOfSounds: editDistance(
      called.map(({ voice }) => voice),
      answered.map(({ voice }) => voice),
    ),
  };
}

/** The answer's moments on the call's clock. */
function onCall(
  answered: readonly PhraseHit[],
  transposition: Transposition | null,
  first: Seconds,
): readonly Seconds[] {
  const { start, stretch } = transposition ?? { start: (answered[0]?.time ?? 0) - first, stretch: 1 };
  return answered.map(({ time }) => (time - start) / stretch);
}
