/**
 * Question: which phrase next, and when is it time for a harder one?
 * Method: a ladder of rungs, each a little longer, with one voice more, with rests, off the beat or faster; one up after two
 * phrases held in a row, one down after one missed (Levitt, J. Acoust. Soc. Am. 49 (1971) 467: settles where seven of ten
 * hold). The rungs are our choice. Chance is passed in.
 */
import type { Voice } from "../kit/index.ts";
import { beatsPerBar, FOUR_FOUR, type Level, type Note, type Phrase, STRAIGHT } from "../score/index.ts";
import { type Bpm, type Chance, compare, type Fraction, fraction } from "../units/index.ts";
import { printPhraseText } from "./phraseText.ts";
import type { SyllableSet } from "./syllables.ts";

/** What a phrase of a rung is made of. */
export interface Rung {
  readonly bars: number;
  readonly strokes: number;
  readonly voices: number;
  /** Parts of a beat: 1, 2, 3 or 4. */
  readonly parts: number;
  /** Share of the strokes that may stand off the beat, 0 to 1. */
  readonly offBeat: number;
  /** Whether the first beat may be silent. */
  readonly mayEnterLate: boolean;
  readonly tempoBpm: Bpm;
}

function rung(
  bars: number,
  strokes: number,
  voices: number,
  parts: number,
  offBeat: number,
  tempoBpm: Bpm,
  mayEnterLate = false,
): Rung {
  return { bars, strokes, voices, parts, offBeat, mayEnterLate, tempoBpm };
}

export const RUNGS: readonly Rung[] = [
  rung(1, 4, 1, 1, 0, 72),
  rung(1, 4, 2, 1, 0, 72),
  rung(1, 3, 2, 1, 0, 76),
  rung(1, 5, 2, 2, 0.3, 76),
  rung(1, 5, 3, 2, 0.4, 80),
  rung(1, 6, 3, 2, 0.5, 84),
  rung(2, 8, 2, 2, 0.3, 84),
  rung(2, 9, 3, 2, 0.4, 84),
  rung(1, 7, 3, 4, 0.6, 76),
  rung(2, 10, 3, 2, 0.5, 92, true),
  rung(2, 10, 4, 2, 0.6, 92, true),
  rung(1, 7, 3, 3, 0.6, 80, true),
  rung(2, 12, 4, 4, 0.6, 80, true),
  rung(2, 12, 5, 4, 0.7, 88, true),
  rung(2, 14, 5, 4, 0.7, 96, true),
  rung(2, 16, 6, 4, 0.7, 104, true),
];

const FIRST_RUNG: Readonly<Record<Level, number>> = {
  "first-year": 1,
  "second-year": 4,
  steady: 7,
  working: 10,
};
/** So many phrases held in a row, and the next is a rung harder. */
const HELD_FOR_HARDER = 2;

/** What became of a phrase of a rung. */
export interface RungResult {
  readonly rung: number;
  readonly held: boolean;
}

/** Where a student left off in an earlier round. */
export interface LeftOff {
  /** The one that would have come next. */
  readonly rung: number;
  readonly daysAgo: number;
}

/**
 * After more days than these a student begins one rung easier: three weekly lessons went by without, and what was held then is
 * held less surely now. A phrase too easy costs a moment; one too hard at the start costs the pleasure. Our choice.
 */
export const LONG_AGO_DAYS = 21;

/** Whether it is so long ago that it begins a rung easier. */
export function isLongAgo({ daysAgo }: Pick<LeftOff, "daysAgo">): boolean {
  return daysAgo > LONG_AGO_DAYS;
}

/**
 * The rung a round begins with, from 1.
 *
 * @param leftOff `null`: never played; the level of the student says it then.
 * @example
 * beginningRung("first-year", { rung: 6, daysAgo: 7 }) // => 6
 * beginningRung("first-year", { rung: 6, daysAgo: 60 }) // => 5
 */
export function beginningRung(level: Level, leftOff: LeftOff | null): number {
  if (!leftOff) return FIRST_RUNG[level];
  return Math.max(1, leftOff.rung - (isLongAgo(leftOff) ? 1 : 0));
}

/**
 * The rung of the next phrase, from 1.
 *
 * @param results of one student, the latest last.
 * @param leftOff in earlier rounds; `null` where there were none.
 * @example
 * nextRung([{ rung: 1, held: true }, { rung: 1, held: true }], "first-year") // => 2
 */
export function nextRung(
  results: readonly RungResult[],
  level: Level,
  leftOff: LeftOff | null = null,
): number {
  const last = results.at(-1);
  if (!last) return beginningRung(level, leftOff);
  if (!last.held) return Math.max(1, last.rung - 1);
  const recent = results.slice(-HELD_FOR_HARDER);
  const isTime =
    recent.length === HELD_FOR_HARDER && recent.every((each) => each.held && each.rung === last.rung);
  return isTime ? Math.min(RUNGS.length, last.rung + 1) : last.rung;
}

const PARTS_WORDS: Readonly<Record<number, string>> = {
  1: "on the beats",
  2: "eighths",
  3: "triplets",
  4: "sixteenths",
};

/**
 * What phrases of a rung are like, in a clause.
 *
 * @example
 * rungWords(1) // => "one bar, 4 strokes on one drum, on the beats, 72 beats a minute"
 */
export function rungWords(number: number): string {
  const { bars, strokes, voices, parts, mayEnterLate, tempoBpm } = rungAt(number);
  return [
    bars === 1 ? "one bar" : `${bars} bars`,
    `${strokes} strokes on ${voices === 1 ? "one drum" : `${voices} drums`}`,
    PARTS_WORDS[parts] ?? `${parts} parts a beat`,
    ...(mayEnterLate ? ["at times without the one"] : []),
    `${tempoBpm} beats a minute`,
  ].join(", ");
}

/**
 * A phrase of a rung, in 4/4, from the first syllables of the set.
 *
 * @param number from 1; beyond the last rung it is the last.
 */
export function inventPhrase(number: number, set: SyllableSet, chance: Chance): Phrase {
  const rung = rungAt(number);
  const beats = rung.bars * beatsPerBar(FOUR_FOUR);
  const on = shuffled(
    Array.from({ length: beats }, (_, beat) => fraction(beat)),
    chance,
  );
  const off = shuffled(
    Array.from({ length: beats * rung.parts }, (_, part) => fraction(part, rung.parts)).filter(
      ({ den }) => den > 1,
    ),
    chance,
  );
  const isOne = (place: Fraction): boolean => place.num === 0;
  const first = rung.mayEnterLate && chance() < 0.5 ? [] : on.filter(isOne);
  const others = on.filter((place) => !isOne(place));
  const left = rung.strokes - first.length;
  const offCount = Math.min(off.length, Math.round(left * rung.offBeat));
  const positions = [...first, ...off.slice(0, offCount), ...others.slice(0, left - offCount)].sort(compare);
  const voices = voicesFor(rung, set, positions.length, chance);
  const notes: readonly Note[] = positions.map((position, index) => ({
    position,
    voice: voices[index] ?? "snare",
    dynamic: "plain",
  }));
  const phrase = {
    metre: FOUR_FOUR,
    bars: rung.bars,
    notes,
  };
  return {
    ...phrase,
    id: "said",
    name: printPhraseText(phrase, set),
    role: "call",
    feel: STRAIGHT,
    tempoBpm: { low: rung.tempoBpm, high: rung.tempoBpm },
    voices: [...new Set(notes.map(({ voice }) => voice))],
  };
}

function rungAt(number: number): Rung {
  const rung = RUNGS[Math.min(RUNGS.length, Math.max(1, number)) - 1];
  if (!rung) throw new RangeError(`The ladder of phrases has no rung ${number}.`);
  return rung;
}

/** A voice for each stroke, every voice of the rung at least once where there are strokes enough. */
function voicesFor({ voices }: Rung, set: SyllableSet, count: number, chance: Chance): readonly Voice[] {
  const allowed = set.syllables.slice(0, voices).map(({ voice }) => voice);
  const more = Array.from(
    { length: Math.max(0, count - allowed.length) },
    () => allowed[Math.floor(chance() * allowed.length)] ?? "snare",
  );
  return shuffled([...allowed.slice(0, count), ...more], chance);
}

/** Fisher & Yates. */
function shuffled<T>(all: readonly T[], chance: Chance): readonly T[] {
  const result = [...all];
  for (let at = result.length - 1; at > 0; at -= 1) {
    const other = Math.floor(chance() * (at + 1));
    const here = result[at];
    const there = result[other];
    if (here === undefined || there === undefined) continue;
    result[at] = there;
    result[other] = here;
  }
  return result;
}
