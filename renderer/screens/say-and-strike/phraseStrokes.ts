/** A phrase as its strokes, and strokes as the words that say them. */
import type { Call, SaidStroke } from "../../../engine/rounds/index.ts";
import { FOUR_FOUR, type Phrase } from "../../../engine/score/index.ts";
import {
  type Counting,
  readPhraseText,
  type SaidAt,
  type SyllableSet,
  syllableOf,
  wordsOfPhrase,
} from "../../../engine/speech/index.ts";
import { type Bpm, beatSeconds, median, type Seconds, toNumber } from "../../../engine/units/index.ts";

const COUNTED: Counting = { counted: true, voice: "snare" };
/** A player's beat, where it is told from the strokes alone: kept within these by doubling. Our choice. */
const SLOWEST_BPM: Bpm = 60;
const FASTEST_BPM: Bpm = 140;

/**
 * A line as it is typed, in 4/4.
 *
 * @throws PhraseTextError
 */
export function typedPhrase(text: string, set: SyllableSet, tempoBpm: Bpm): Phrase {
  return readPhraseText(text, { syllables: isCounted(text) ? COUNTED : set, metre: FOUR_FOUR, tempoBpm });
}

/** A line that begins with a number is counted. */
function isCounted(text: string): boolean {
  return /^[\s(]*\d/.test(text);
}

export function strokesOf(phrase: Phrase): readonly SaidStroke[] {
  const secondsPerBeat = beatSeconds(phrase.tempoBpm.low);
  return phrase.notes.map(({ position, voice }) => ({ time: toNumber(position) * secondsPerBeat, voice }));
}

/** What is said of a call, and when. */
export function wordsOf(
  { text, strokes, tempoBpm }: Pick<Call, "text" | "strokes" | "tempoBpm">,
  set: SyllableSet,
): readonly SaidAt[] {
  if (text !== null && isCounted(text)) return wordsOfPhrase(typedPhrase(text, set, tempoBpm), COUNTED);
  return strokes.flatMap(({ time, voice }) => {
    const syllable = syllableOf(set, voice);
    return syllable ? [{ time, text: syllable.text }] : [];
  });
}

/** What was heard said, as the strokes that were meant; what is no syllable of the set is left out. */
export function saidStrokes(
  heard: readonly { readonly centre: Seconds; readonly syllable: string }[],
  { syllables }: SyllableSet,
): readonly SaidStroke[] {
  return heard.flatMap(({ centre, syllable }) => {
    const voice = syllables.find(({ text }) => text === syllable)?.voice;
    return voice ? [{ time: centre, voice }] : [];
  });
}

/** A beat told from nothing but the strokes: their middle interval, doubled or halved until it is a beat. */
export function tempoOf(strokes: readonly SaidStroke[]): Bpm {
  const gaps = strokes.slice(1).map(({ time }, at) => time - (strokes[at]?.time ?? 0));
  let bpm = 60 / (median(gaps) || 0.75);
  if (!Number.isFinite(bpm)) return 80;
  while (bpm < SLOWEST_BPM) bpm *= 2;
  while (bpm > FASTEST_BPM) bpm /= 2;
  return bpm;
}
