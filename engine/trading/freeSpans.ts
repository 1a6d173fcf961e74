/**
 * Question: in a free form, in which bars do a call and its answer lie?
 * Turns are where one stops and the other begins. Each phrase has the bar line nearest to its first stroke; the call lasts to the
 * line at which the answer begins, in whole bars, and as long an answer is as long.
 */
import { beatsPerBar } from "../score/index.ts";
import { beatSeconds, type Seconds } from "../units/index.ts";
import type { TurnSpan } from "./freeAnswer.ts";
import type { PhraseHit } from "./phraseStrokes.ts";
import { barAt, beatsAt, type Pulse } from "./turnClock.ts";

/** Where nothing was answered, the call lasts to the end of the bar of its last stroke. */
export function freeSpans(
  called: readonly PhraseHit[],
  answered: readonly PhraseHit[],
  pulse: Pulse,
): { readonly call: TurnSpan; readonly answer: TurnSpan } {
  const inBar = beatsPerBar(pulse.metre);
  const lineBy = (time: Seconds): number => Math.round(beatsAt(pulse, time) / inBar);
  const afterCall = (called.at(-1)?.time ?? pulse.from) + (inBar / 2) * beatSeconds(pulse.tempoBpm);
  const begins = lineBy(called[0]?.time ?? pulse.from);
  const passes = lineBy(answered[0]?.time ?? afterCall);
  const { tempoBpm, metre } = pulse;
  const bars = Math.max(1, passes - begins);
  return {
    call: { from: barAt(pulse, passes - bars), bars, tempoBpm, metre },
    answer: { from: barAt(pulse, passes), bars, tempoBpm, metre },
  };
}
