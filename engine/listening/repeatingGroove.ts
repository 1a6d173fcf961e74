/**
 * Question: which groove repeats in a long take or a file: how long is its bar, where is the one, and what is its usual bar?
 * Method: the take is written down on its bars, those of the file's own tempo and metre where its strokes stand on them,
 * else those that are heard. Bars are compared by what is struck where; the bar with the most like it gathers them, and what
 * most of these have is the usual bar. Two bars are told where they foretell the take better than one; bars that differ in
 * touch only are one bar.
 */
import { familyOf, type Hit } from "../kit/index.ts";
import { beatsPerBar, type Dynamic, inOrder, type Note } from "../score/index.ts";
import { add, floor, fraction, type Seconds, subtract } from "../units/index.ts";
import { type Background, shippedBackground } from "./background.ts";
import { hear } from "./hear.ts";
import type { Heard } from "./hearing.ts";
import { type Heading, type Quantised, quantise } from "./quantise.ts";
import { type FileMap, headingOfFile } from "./quantising/fileBars.ts";

/** A groove that repeats, as written music from its own first bar line. */
export interface FoundGroove {
  readonly kind: "found";
  /** Whose bar lines these are: those the file says, which its strokes stand on, or those that were heard. */
  readonly barsFrom: "file" | "listening";
  /** The groove; `asGroove` gives it an id and a name. */
  readonly groove: Pick<Quantised, "metre" | "feel" | "tempoBpm" | "bars" | "voices" | "notes">;
  /** When the bars of the take begin, and when the last one ends. */
  readonly barTimes: readonly Seconds[];
  /** The first bar of the take, from 1, that begins the groove as it is written. */
  readonly firstBar: number;
  /** How many of the take's bars play it, and how many bars the take has. */
  readonly played: number;
  readonly outOf: number;
  /** The share of its own strokes and of theirs that these bars have in common with it, 0 to 1. */
  readonly likeness: number;
}

export type RepeatingGroove =
  | FoundGroove
  | { readonly kind: "none"; readonly reason: "too-few-hits" | "too-few-bars" | "nothing-repeats" };

/** Fewer bars do not repeat. */
const FEWEST_BARS = 2;
/** Bars that have this share of their strokes in common are the same bar. Our choice: one in four differs, at most. */
const ALIKE = 0.6;
/** So many bars must be the same, and such a share of the take. Our choice. */
const FEWEST_ALIKE = 2;
const ALIKE_SHARE = 0.12;
/** In at least so many of those bars a stroke belongs to the groove. More than half: of two readings one is usual. */
const USUAL = 0.55;
/** Two bars must foretell so much of what one does not, and at least so much. Our choice: they say twice as much. */
const TWO_BETTER = { share: 0.2, least: 0.02 };
const FEWEST_PAIRS = 3;

/**
 * Finds the groove that repeats.
 *
 * @param hits in order of time; retriggers already taken out.
 * @param file tempo and metre of the file they come from; left out, bars are found by listening.
 * @example
 * repeatingGroove(hits).kind // => "found"
 */
export function repeatingGroove(
  hits: readonly Hit[],
  file?: FileMap,
  general: Background = shippedBackground(),
): RepeatingGroove {
  const written = file ? headingOfFile(hits, file) : undefined;
  const heading = written ?? heardHeading(hits, general);
  if (!heading) return { kind: "none", reason: "too-few-hits" };
  return repeatingIn(quantise(hits, heading), written ? "file" : "listening");
}

/**
 * Finds the groove that repeats in a take that is written down already.
 *
 * @param barsFrom whose bar lines it was written down on.
 */
export function repeatingIn(take: Quantised, barsFrom: FoundGroove["barsFrom"]): RepeatingGroove {
  const bars = wholeBars(take);
  if (bars.length < FEWEST_BARS) return { kind: "none", reason: "too-few-bars" };
  const one = usualBars(bars, 1);
  const two = usualBars(bars, 2);
  const best = two && isBetter(two, one?.score ?? 0) ? two : one;
  if (!best) return { kind: "none", reason: "nothing-repeats" };
  return {
    kind: "found",
    barsFrom,
    groove: grooveOf(take, best),
    barTimes: take.barTimes,
    firstBar: best.firstBar + 1,
    played: best.barsAlike.length,
    outOf: take.bars,
    likeness: best.likeness,
  };
}

function isBetter(two: Usual, one: number): boolean {
  const least = Math.max(TWO_BETTER.least, TWO_BETTER.share * (1 - one));
  return two.repeats >= FEWEST_PAIRS && two.score > one + least;
}

function heardHeading(hits: readonly Hit[], general: Background): (Heading & Partial<Heard>) | undefined {
  const heard = hear(hits, { general, grooves: [] });
  return heard.kind === "heard" ? heard : undefined;
}

/** A bar as what is struck where: the family of the voice and the place, with the notes that stand there. */
type BarStrokes = ReadonlyMap<string, Note>;

function wholeBars(take: Quantised): readonly BarStrokes[] {
  const beats = beatsPerBar(take.metre);
  const bars: Map<string, Note>[] = Array.from({ length: take.bars }, () => new Map());
  for (const note of take.notes) {
    const bar = Math.floor(floor(note.position) / beats);
    const position = subtract(note.position, fraction(bar * beats));
    bars[bar]?.set(`${familyOf(note.voice)} ${position.num}/${position.den}`, { ...note, position });
  }
  return bars;
}

interface Usual {
  readonly bars: 1 | 2;
  /** First bar of the take, from 0, that is the first bar of the groove. */
  readonly firstBar: number;
  /** The bars of the take that play it. */
  readonly barsAlike: readonly number[];
  readonly repeats: number;
  /** The strokes most of them have: in each bar of the groove, the notes seen at each place. */
  readonly strokes: readonly (readonly (readonly Note[])[])[];
  /** Of the bars that play it. */
  readonly likeness: number;
  /** How well it foretells all bars of the take. */
  readonly score: number;
}

/** The usual bar, or two bars, of a take. */
function usualBars(bars: readonly BarStrokes[], length: 1 | 2): Usual | undefined {
  const phases = length === 1 ? [0] : [0, 1];
  const found = phases.flatMap((phase) => usualFrom(bars, length, phase) ?? []);
  return found.reduce<Usual | undefined>(
    (best, one) => (best && best.score >= one.score ? best : one),
    undefined,
  );
}

/** More bars than these are not asked whether they are the usual one: an even sample is enough. Our choice. */
const MOST_ASKED = 48;

function usualFrom(bars: readonly BarStrokes[], length: 1 | 2, phase: number): Usual | undefined {
  const rounds: BarStrokes[] = [];
  for (let bar = phase; bar + length <= bars.length; bar += length) {
    rounds.push(joined(bars.slice(bar, bar + length)));
  }
  const struck = rounds.filter((round) => round.size > 0);
  if (struck.length < FEWEST_ALIKE) return undefined;
  const step = Math.max(1, Math.floor(struck.length / MOST_ASKED));
  const asked = struck.filter((_, index) => index % step === 0);
  let alike: readonly number[] = [];
  let closest = 0;
  for (const one of asked) {
    const likenesses = rounds.map((round) => likenessOf(one, round));
    const own = likenesses.flatMap((likeness, index) => (likeness >= ALIKE ? [index] : []));
    const sum = own.reduce((all, index) => all + (likenesses[index] ?? 0), 0);
    if (sum > closest) [alike, closest] = [own, sum];
  }
  if (alike.length < Math.max(FEWEST_ALIKE, ALIKE_SHARE * struck.length)) return undefined;
  const strokes = usualStrokes(alike.flatMap((index) => rounds[index] ?? []));
  const usual: BarStrokes = new Map([...strokes].flatMap(([key, [note]]) => (note ? [[key, note]] : [])));
  const mean = (values: readonly number[]): number =>
    values.reduce((sum, value) => sum + value, 0) / values.length;
  return {
    bars: length,
    firstBar: phase + (alike[0] ?? 0) * length,
    barsAlike: alike.flatMap((index) => Array.from({ length }, (_, bar) => phase + index * length + bar)),
    repeats: alike.length,
    strokes: Array.from({ length }, (_, bar) =>
      [...strokes].flatMap(([key, notes]) => (key.startsWith(`${bar} `) ? [notes] : [])),
    ),
    likeness: mean(alike.map((index) => likenessOf(usual, rounds[index] ?? new Map()))),
    score: foretold(bars, usual, length, phase),
  };
}

/** How well each bar of the take is foretold by its bar of the groove, on average; silent bars are not asked. */
function foretold(bars: readonly BarStrokes[], usual: BarStrokes, length: 1 | 2, phase: number): number {
  const own = Array.from(
    { length },
    (_, at): BarStrokes =>
      new Map([...usual].flatMap(([key, note]) => (key.startsWith(`${at} `) ? [[key.slice(2), note]] : []))),
  );
  const nothing: BarStrokes = new Map();
  const likenesses = bars.flatMap((bar, index) =>
    bar.size === 0 ? [] : [likenessOf(own[(index - phase + length) % length] ?? nothing, bar)],
  );
  return likenesses.reduce((sum, likeness) => sum + likeness, 0) / Math.max(1, likenesses.length);
}

/** Bars in a row as one, each stroke with its bar. */
function joined(bars: readonly BarStrokes[]): BarStrokes {
  return new Map(
    bars.flatMap((bar, index) => [...bar].map(([key, note]) => [`${index} ${key}`, note] as const)),
  );
}

/** The share of both bars' strokes that they have in common (Dice 1945), 0 to 1. */
function likenessOf(one: BarStrokes, other: BarStrokes): number {
  let common = 0;
  for (const key of one.keys()) if (other.has(key)) common += 1;
  return (2 * common) / Math.max(1, one.size + other.size);
}

/** What most rounds have, with the notes that stand there. */
function usualStrokes(rounds: readonly BarStrokes[]): ReadonlyMap<string, readonly Note[]> {
  const seen = new Map<string, Note[]>();
  for (const round of rounds) {
    for (const [key, note] of round) {
      const notes = seen.get(key);
      if (notes) notes.push(note);
      else seen.set(key, [note]);
    }
  }
  return new Map([...seen].filter(([, notes]) => notes.length >= USUAL * rounds.length));
}

/** Written music of what most bars have: at each place the voice, touch and ornament that most of them have there. */
function grooveOf(take: Quantised, usual: Usual): FoundGroove["groove"] {
  const beats = beatsPerBar(take.metre);
  const notes = usual.strokes.flatMap((places, bar) =>
    places.flatMap((seen) => {
      const [first] = seen;
      if (!first) return [];
      const voice = commonest(seen.map((note) => note.voice)) ?? first.voice;
      const dynamic: Dynamic = commonest(seen.map((note) => note.dynamic)) ?? first.dynamic;
      const ornament = commonest(seen.map((note) => note.ornament ?? "none"));
      return [
        {
          position: add(first.position, fraction(bar * beats)),
          voice,
          dynamic,
          ...(ornament === undefined || ornament === "none" ? {} : { ornament }),
        },
      ];
    }),
  );
  const voices = take.voices.filter((voice) => notes.some((note) => note.voice === voice));
  const { metre, feel, tempoBpm } = take;
  return { metre, feel, tempoBpm, bars: usual.bars, voices, notes: inOrder(notes, voices) };
}

function commonest<T>(values: readonly T[]): T | undefined {
  const counts = new Map<T, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts].reduce<[T, number] | undefined>(
    (most, one) => (most && most[1] >= one[1] ? most : one),
    undefined,
  )?.[0];
}
