/**
 * A spoken phrase as it is typed, and back.
 *
 *     doo ka - ka                 a beat each; - or . is a rest
 *     doo (ka ka) doo (- tss)     what stands in brackets shares one beat evenly
 *     doo ka doo ka | doo - ka -  a bar line is allowed where a bar ends, and then checked
 *
 * Counted, each word says its own place:
 *
 *     1 2 and 3 e and a | 1 trip let
 *     1 (2) and                   a number in brackets is counted and not struck
 *
 * What is missing of the last bar is silent.
 */
import type { Voice } from "../kit/index.ts";
import { beatsPerBar, type Metre, type Note, type Phrase, STRAIGHT } from "../score/index.ts";
import {
  add,
  type Bpm,
  compare,
  type Fraction,
  floor,
  fraction,
  leastCommonMultiple,
  subtract,
} from "../units/index.ts";
import { countOf, placeCounted } from "./counting.ts";
import { type SyllableSet, syllableOf } from "./syllables.ts";

/** Thrown when the text of a phrase cannot be read, or a phrase cannot be said. The column counts from 1. */
export class PhraseTextError extends Error {
  override readonly name = "PhraseTextError";
  readonly column: number;

  constructor(column: number, problem: string) {
    super(problem);
    this.column = column;
  }
}

/** Counted phrases are struck on one voice. */
export interface Counting {
  readonly counted: true;
  readonly voice: Voice;
}

/** How the text is meant. */
export interface Saying {
  readonly syllables: SyllableSet | Counting;
  readonly metre: Metre;
  readonly tempoBpm: Bpm;
}

/** A beat has at most so many parts. Our choice: finer ones nobody says. */
export const MOST_PARTS = 6;
/** Longer phrases are not kept in mind. Our choice. */
export const MOST_PHRASE_BARS = 4;

interface Word {
  readonly text: string;
  readonly column: number;
}

/** Place of a syllable, before the bars are counted. */
interface Placed {
  readonly position: Fraction;
  readonly voice: Voice;
}

/** Whether words count places instead of naming voices. */
export function isCounting(syllables: SyllableSet | Counting): syllables is Counting {
  return "counted" in syllables;
}

/**
 * Reads a spoken phrase: a call in plain strokes.
 *
 * @throws PhraseTextError with the column and what to do.
 * @example
 * readPhraseText("doo (ka ka)", { syllables: OUR_SYLLABLES, metre: FOUR_FOUR, tempoBpm: 80 }).notes.length // => 3
 */
export function readPhraseText(text: string, { syllables, metre, tempoBpm }: Saying): Phrase {
  const words = wordsOf(text);
  const beatsInBar = beatsPerBar(metre);
  const { placed, beats } = isCounting(syllables)
    ? readCounted(words, syllables.voice, beatsInBar)
    : readSyllables(words, syllables, beatsInBar);
  if (placed.length === 0) throw new PhraseTextError(1, "Nothing is said: write at least one syllable.");
  const bars = Math.ceil(beats / beatsInBar);
  if (bars > MOST_PHRASE_BARS)
    throw new PhraseTextError(1, `This is ${bars} bars long; a phrase has at most ${MOST_PHRASE_BARS}.`);
  const notes: readonly Note[] = placed.map(({ position, voice }) => ({ position, voice, dynamic: "plain" }));
  return {
    id: "said",
    name: text.trim().replaceAll(/\s+/g, " "),
    role: "call",
    metre,
    feel: STRAIGHT,
    tempoBpm: { low: tempoBpm, high: tempoBpm },
    bars,
    voices: [...new Set(notes.map(({ voice }) => voice))],
    notes,
  };
}

/** Brackets, bar lines and rests need no spaces around them. */
function wordsOf(text: string): readonly Word[] {
  return [...text.matchAll(/[()|.\-–]|[^\s()|.\-–]+/g)].map((found) => ({
    text: found[0].toLowerCase(),
    column: found.index + 1,
  }));
}

function isRest({ text }: Word): boolean {
  return text === "." || text === "-" || text === "–";
}

interface Read {
  readonly placed: readonly Placed[];
  /** Whole beats, to the last one that is written. */
  readonly beats: number;
}

function readSyllables(words: readonly Word[], set: SyllableSet, beatsInBar: number): Read {
  const placed: Placed[] = [];
  let beats = 0;
  let group: Word[] | undefined;
  let openedAt = 1;
  const put = (parts: readonly Word[]): void => {
    parts.forEach((word, part) => {
      if (isRest(word)) return;
      placed.push({
        position: add(fraction(beats), fraction(part, parts.length)),
        voice: voiceSaid(word, set),
      });
    });
    beats += 1;
  };
  for (const word of words) {
    if (word.text === "(") {
      if (group)
        throw new PhraseTextError(word.column, "A bracket stands within a bracket: close one first.");
      group = [];
      openedAt = word.column;
    } else if (word.text === ")") {
      if (!group) throw new PhraseTextError(word.column, "A bracket is closed that was not opened.");
      if (group.length === 0)
        throw new PhraseTextError(word.column, "Nothing stands in the brackets: write - for a silent beat.");
      if (group.length > MOST_PARTS)
        throw new PhraseTextError(
          openedAt,
          `A beat has at most ${MOST_PARTS} parts; this has ${group.length}.`,
        );
      put(group);
      group = undefined;
    } else if (word.text === "|") {
      if (group) throw new PhraseTextError(word.column, "A bar line stands within brackets.");
      checkBarLine(word, beats, beatsInBar);
    } else if (group) group.push(word);
    else put([word]);
  }
  if (group) throw new PhraseTextError(openedAt, "A bracket was opened and not closed.");
  return { placed, beats };
}

function checkBarLine({ column }: Word, beats: number, beatsInBar: number): void {
  if (beats > 0 && beats % beatsInBar === 0) return;
  throw new PhraseTextError(
    column,
    `A bar line stands after ${beats % beatsInBar} of ${beatsInBar} beats: complete the bar, with - for silent beats.`,
  );
}

function voiceSaid({ text, column }: Word, set: SyllableSet): Voice {
  const found = set.syllables.find((each) => each.text === text);
  if (found) return found.voice;
  throw new PhraseTextError(
    column,
    `"${text}" is not one of the syllables: ${set.syllables.map((each) => each.text).join(", ")}.`,
  );
}

function readCounted(words: readonly Word[], voice: Voice, beatsInBar: number): Read {
  const placed: Placed[] = [];
  let bar = 0;
  let beat = -1;
  let latest: Fraction | undefined;
  let opened: Word | undefined;
  for (const word of words) {
    if (word.text === "(" || word.text === ")") {
      if ((word.text === "(") === (opened !== undefined))
        throw new PhraseTextError(
          word.column,
          "Brackets stand around one number that is not struck, as in (2) and.",
        );
      opened = opened ? undefined : word;
      continue;
    }
    if (word.text === "|") {
      if (beat < 0) throw new PhraseTextError(word.column, "A bar line stands before anything is counted.");
      bar += 1;
      beat = -1;
      continue;
    }
    if (isRest(word)) continue;
    const place = placeCounted(word.text);
    if (!place)
      throw new PhraseTextError(
        word.column,
        `"${word.text}" counts nothing: write numbers with e, and, a, or trip, let.`,
      );
    if (place.num === 0) beat = numberCounted(word, beatsInBar);
    else if (opened)
      throw new PhraseTextError(
        word.column,
        "Only a number stands in brackets; what is not struck after it is left out.",
      );
    if (beat < 0)
      throw new PhraseTextError(
        word.column,
        `"${word.text}" needs the number of its beat before it; in brackets where that is not struck.`,
      );
    const position = add(fraction(bar * beatsInBar + beat), place);
    if (latest && compare(position, latest) <= 0)
      throw new PhraseTextError(
        word.column,
        `"${word.text}" goes back in the bar: write | before the next bar.`,
      );
    latest = position;
    if (!opened) placed.push({ position, voice });
  }
  if (opened) throw new PhraseTextError(opened.column, "A bracket was opened and not closed.");
  return { placed, beats: (bar + (beat < 0 ? 0 : 1)) * beatsInBar };
}

function numberCounted({ text, column }: Word, beatsInBar: number): number {
  const number = Number(text);
  if (number >= 1 && number <= beatsInBar) return number - 1;
  throw new PhraseTextError(column, `${text} is not a beat of this bar: it has ${beatsInBar}.`);
}

/**
 * Writes a phrase so that {@link readPhraseText} gives the same strokes.
 *
 * @throws PhraseTextError where it cannot be said: two strokes at once, a voice without a syllable, a place that is too
 * fine or has no count.
 */
export function printPhraseText(
  phrase: Pick<Phrase, "metre" | "bars" | "notes">,
  syllables: SyllableSet | Counting,
): string {
  const beatsInBar = beatsPerBar(phrase.metre);
  const bars: string[] = [];
  for (let bar = 0; bar < phrase.bars; bar += 1) {
    const beats: string[] = [];
    for (let beat = 0; beat < beatsInBar; beat += 1) {
      const from = fraction(bar * beatsInBar + beat);
      const inBeat = phrase.notes
        .map(({ position, voice }) => ({ place: subtract(position, from), voice }))
        .filter(({ place }) => floor(place) === 0);
      beats.push(isCounting(syllables) ? counted(inBeat, beat) : spoken(inBeat, syllables));
    }
    bars.push(beats.filter((words) => words !== "").join(" ") || "(1)");
  }
  return bars.join(" | ");
}

interface InBeat {
  readonly place: Fraction;
  readonly voice: Voice;
}

function spoken(inBeat: readonly InBeat[], set: SyllableSet): string {
  const parts = inBeat.reduce((all, { place }) => leastCommonMultiple(all, place.den), 1);
  if (parts > MOST_PARTS) throw new PhraseTextError(1, `A beat in ${parts} parts is too fine to be said.`);
  const words = Array.from({ length: parts }, () => "-");
  for (const { place, voice } of inBeat) {
    const at = (place.num * parts) / place.den;
    if (words[at] !== "-") throw new PhraseTextError(1, "Two strokes fall together: only one can be said.");
    const syllable = syllableOf(set, voice);
    if (!syllable) throw new PhraseTextError(1, `The syllables have none for the ${voice}.`);
    words[at] = syllable.text;
  }
  return parts === 1 ? words.join("") : `(${words.join(" ")})`;
}

function counted(inBeat: readonly InBeat[], beat: number): string {
  const number = inBeat.length > 0 && inBeat[0]?.place.num !== 0 ? `(${beat + 1}) ` : "";
  const words = inBeat
    .map(({ place }) => {
      const word = countOf(beat, place);
      if (!word) throw new PhraseTextError(1, "A stroke falls where nothing is counted.");
      return word;
    })
    .join(" ");
  return number + words;
}
