/** A phrase as the words that are said, each at its time. */
import { beatsPerBar, type Phrase } from "../score/index.ts";
import { beatSeconds, floor, fraction, type Seconds, subtract, toNumber } from "../units/index.ts";
import { countOf } from "./counting.ts";
import { type Counting, isCounting } from "./phraseText.ts";
import { type SyllableSet, syllableOf } from "./syllables.ts";
import type { SaidAt } from "./voice/index.ts";

/** The words of a phrase at its tempo, from time 0; a stroke without a word is not said. */
export function wordsOfPhrase(phrase: Phrase, syllables: SyllableSet | Counting): readonly SaidAt[] {
  const secondsPerBeat = beatSeconds(phrase.tempoBpm.low);
  return phrase.notes.flatMap(({ position, voice }) => {
    const beat = floor(position);
    const text = isCounting(syllables)
      ? countOf(beat % beatsPerBar(phrase.metre), subtract(position, fraction(beat)))
      : syllableOf(syllables, voice)?.text;
    return text === undefined ? [] : [{ time: toNumber(position) * secondsPerBeat, text }];
  });
}

/** How long a phrase lasts at its tempo. */
export function phraseSeconds({ bars, metre, tempoBpm }: Phrase): Seconds {
  return bars * beatsPerBar(metre) * beatSeconds(tempoBpm.low);
}
