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

/**
 * The rung of the next phrase, from 1.
 *
 * @param results of one student, the latest last.
 * @example
 * nextRung([{ rung: 1, held: true }, { rung: 1, held: true }], "first-year") // => 2
 */
export function nextRung(results: readonly RungResult[], level: Level): number {
  const last = results.at(-1);
  if (!last) return FIRST_RUNG[level];
  if (!last.held) return Math.max(1, last.rung - 1);
  const recent = results.slice(-HELD_FOR_HARDER);
  const isTime =
    recent.length === HELD_FOR_HARDER && recent.every((each) => each.held && each.rung === last.rung);
  return isTime ? Math.min(RUNGS.length, last.rung + 1) : last.rung;
}

/**
 * A phrase of a rung, in 4/4, from the first syllables of the set.
 *
 * @param number from 1; beyond the last rung it is the last.
 */
export function inventPhrase(number: number, set: SyllableSet, chance: Chance): Phrase {
  const rung = RUNGS[Math.min(RUNGS.length, Math.max(1, number)) - 1] ?? firstRung();
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

function firstRung(): Rung {
  const [first] = RUNGS;
  if (!first) throw new RangeError("The ladder of phrases has no rung.");
  return first;
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
