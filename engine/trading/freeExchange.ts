/**
 * An exchange of a free form, whose turns are as long as they are played: what is said of it, without a line at which they meet.
 */
import type { Level, Metre } from "../score/index.ts";
import { beatsPerBar } from "../score/index.ts";
import { type Bpm, beatSeconds } from "../units/index.ts";
import type { Aim } from "./aim.ts";
import { compareAnswer } from "./compare.ts";
import type { Exchange } from "./exchange.ts";
import type { TurnSpan } from "./freeAnswer.ts";
import type { PhraseHit } from "./phraseStrokes.ts";
import { verdictOn } from "./verdict.ts";

/** Judges two phrases, each begun with its own first stroke. */
export function judgePhrases(
  called: readonly PhraseHit[],
  answered: readonly PhraseHit[],
  how: { readonly aim: Aim; readonly level: Level; readonly tempoBpm: Bpm; readonly metre: Metre },
): Exchange {
  const { aim, level, tempoBpm } = how;
  const comparison = compareAnswer(called, answered, { level, tempoBpm });
  const bars = barsOfPhrase(called, how);
  const span = (phrase: readonly PhraseHit[]): TurnSpan => ({
    from: phrase[0]?.time ?? 0,
    bars,
    tempoBpm,
    metre: how.metre,
  });
  const verdict = verdictOn(aim, comparison, {
    call: { hits: called, turn: span(called) },
    answer: { hits: answered, turn: span(answered) },
    level,
  });
  const nowhere = { leanMs: null, spreadMs: null };
  return {
    ...verdict,
    aim,
    comparison,
    call: nowhere,
    answer: { leanMs: null, spreadMs: comparison.spreadMs },
    handOverMs: null,
  };
}

/** Whole bars that a phrase takes, one at least. */
function barsOfPhrase(
  phrase: readonly PhraseHit[],
  { tempoBpm, metre }: { readonly tempoBpm: Bpm; readonly metre: Metre },
): number {
  const long = (phrase.at(-1)?.time ?? 0) - (phrase[0]?.time ?? 0);
  return Math.max(
    1,
    Math.round((long + beatSeconds(tempoBpm)) / (beatsPerBar(metre) * beatSeconds(tempoBpm))),
  );
}
