/**
 * Question: what does this player usually play at each place of what comes round, and how well does each beat keep to it?
 * Method: the take's own strokes are folded onto one repeat of the groove, with the known groove counting as a bar or two
 * of them; where strokes of one part gather, a stroke is expected, with the share of the other repeats that have it as its
 * chance. A beat's log likelihood sums the strokes that came, those that did not, and those that nobody expected.
 * Conventions: places, PLACES_PER_BEAT to a beat of the pulse, from the downbeat of the take's first bar.
 */
import type { Background } from "./background.ts";
import { type BarModel, PLACES_PER_BEAT } from "./barModel.ts";
import { logAdd } from "./logSum.ts";
import { PART_COUNT, ROLE_COUNT, SOUND_PARTS } from "./roles.ts";

/** A stroke laid on the bars of the take. */
export interface LaidStroke {
  readonly place: number;
  readonly sound: number;
  /** Grace strokes came before it, which are not laid themselves: an ornament is one stroke. */
  readonly ornate: boolean;
}

/** The bars a take is laid on; lengths in places. */
export interface Bars {
  readonly beat: number;
  readonly bar: number;
  /** What comes round, and where it first does. */
  readonly repeat: number;
  readonly repeatsFrom: number;
  /** First and last stroke. */
  readonly first: number;
  readonly last: number;
  /** Strokes this near one another are one stroke of what is expected. */
  readonly near: number;
  readonly beats: number;
}

/** An early stroke belongs to the beat it was meant for: so many places before a beat are its own. Our choice. */
export const EARLY_PLACES = 0.75;

export function beatOf(place: number, { beat }: Pick<Bars, "beat">): number {
  return Math.floor((place + EARLY_PLACES) / beat);
}

/** The known groove counts for so many repeats beside those of the take. Our choice. */
const KNOWN_REPEATS = 1.5;
/** So much doubt, in repeats, where no groove is known, and the chance it stands for. Our choice. */
const DOUBT_REPEATS = 0.5;
const DOUBT_CHANCE = 0.3;
/** No stroke is surer to come, or not to. Our choice: one in twenty is left out by a fair player. */
const SUREST = 0.95;
const UNLIKELIEST = 0.03;
/** A stroke nobody expected, at any place. Our choice. */
const UNEXPECTED = 0.02;
/** A beat of the groove is now and then varied into something else that grooves have. Our choice. */
const VARIED = 0.01;
/** Places at which strokes of one part gather are at least so far apart: sixteenth triplets. */
const APART = 2;
/** Fewer strokes in the whole take make no place. */
const FEWEST = 0.5;

interface ExpectedStroke {
  readonly part: number;
  /** Within the repeat. */
  readonly place: number;
  /** Strokes of the known groove there, 0 to 1. */
  readonly known: number;
}

/** Log likelihood of each beat of the take under its groove; 0 for beats outside the take. */
export function usualLogs(
  strokes: readonly LaidStroke[],
  bars: Bars,
  general: Background,
  model?: BarModel,
): Float64Array {
  const expected = expectedStrokes(strokes, bars, model);
  const came = expected.map(() => new Set<number>());
  const logs = new Float64Array(bars.beats);
  const add = (beat: number, log: number): void => {
    if (beat >= 0 && beat < logs.length) logs[beat] = (logs[beat] ?? 0) + log;
  };
  const byPart = new Map<number, number[]>();
  expected.forEach(({ part }, index) => {
    byPart.set(part, [...(byPart.get(part) ?? []), index]);
  });
  for (const { place, sound } of strokes) {
    const met = nearest(place, byPart.get(SOUND_PARTS[sound] ?? 0) ?? [], expected, bars);
    if (met) came[met.index]?.add(met.round);
    else add(beatOf(place, bars), Math.log(UNEXPECTED));
  }
  const weight = model ? KNOWN_REPEATS : DOUBT_REPEATS;
  expected.forEach(({ place, known }, index) => {
    const rounds = roundsWithin(place, bars);
    const all = came[index]?.size ?? 0;
    const prior = weight * (model ? known : DOUBT_CHANCE);
    for (let round = rounds.from; round <= rounds.to; round += 1) {
      const here = came[index]?.has(round) ?? false;
      const others = rounds.to - rounds.from;
      const share = (prior + all - (here ? 1 : 0)) / (weight + others);
      const chance = Math.min(SUREST, Math.max(UNLIKELIEST, share));
      add(beatOf(absolute(place, round, bars), bars), Math.log(here ? chance : 1 - chance));
    }
  });
  const varied = ratesLogs(strokes, bars, usualBeat(general));
  return logs.map((log, beat) =>
    log === 0 ? 0 : logAdd(Math.log(1 - VARIED) + log, Math.log(VARIED) + (varied[beat] ?? 0)),
  );
}

function absolute(place: number, round: number, { repeat, repeatsFrom }: Bars): number {
  return repeatsFrom + place + round * repeat;
}

/** The rounds of the repeat in which a stroke at this place would lie within the take. */
function roundsWithin(place: number, { repeat, repeatsFrom, first, last, near }: Bars) {
  return {
    from: Math.ceil((first - near - repeatsFrom - place) / repeat),
    to: Math.floor((last + near - repeatsFrom - place) / repeat),
  };
}

function nearest(
  place: number,
  candidates: readonly number[],
  expected: readonly ExpectedStroke[],
  bars: Bars,
): { readonly index: number; readonly round: number } | undefined {
  let best: { readonly index: number; readonly round: number } | undefined;
  let least = bars.near;
  for (const index of candidates) {
    const from = place - bars.repeatsFrom - (expected[index]?.place ?? 0);
    const round = Math.round(from / bars.repeat);
    const apart = Math.abs(from - round * bars.repeat);
    if (apart > least) continue;
    least = apart;
    best = { index, round };
  }
  return best;
}

/** Where strokes of each part gather in the repeat. */
function expectedStrokes(
  strokes: readonly LaidStroke[],
  { repeat, repeatsFrom }: Bars,
  model?: BarModel,
): readonly ExpectedStroke[] {
  const counts = new Float64Array(PART_COUNT * repeat);
  for (const { place, sound } of strokes) {
    const within = ((Math.round(place - repeatsFrom) % repeat) + repeat) % repeat;
    const slot = (SOUND_PARTS[sound] ?? 0) * repeat + within;
    counts[slot] = (counts[slot] ?? 0) + 1;
  }
  return PARTS.flatMap((part) => {
    const own = counts.subarray(part * repeat, (part + 1) * repeat);
    const known = model?.rates.subarray(part * repeat, (part + 1) * repeat) ?? new Float64Array(repeat);
    const all = own.map((count, place) => count + KNOWN_REPEATS * (known[place] ?? 0));
    return gathered(all).map((at) => ({
      part,
      place: at.centre,
      known: Math.min(1, around(known, at.place)),
    }));
  });
}

/** Numbers of the roles that are parts. */
const PARTS = [...new Set(SOUND_PARTS)];

function around(values: Float64Array, place: number): number {
  const { length } = values;
  return (
    (values[(place + length - 1) % length] ?? 0) + (values[place] ?? 0) + (values[(place + 1) % length] ?? 0)
  );
}

function gathered(counts: Float64Array): readonly { readonly place: number; readonly centre: number }[] {
  const { length } = counts;
  const sums = counts.map((_, place) => around(counts, place) + 0.01 * (counts[place] ?? 0));
  const order = [...sums.keys()].filter((place) => (sums[place] ?? 0) >= FEWEST && (counts[place] ?? 0) > 0);
  order.sort((a, b) => (sums[b] ?? 0) - (sums[a] ?? 0));
  const kept: number[] = [];
  for (const place of order) {
    const far = (other: number): boolean => {
      const apart = Math.abs(other - place);
      return Math.min(apart, length - apart) >= APART;
    };
    if (kept.every(far)) kept.push(place);
  }
  return kept.map((place) => {
    const before = counts[(place + length - 1) % length] ?? 0;
    const after = counts[(place + 1) % length] ?? 0;
    return { place, centre: place + (after - before) / (before + (counts[place] ?? 0) + after) };
  });
}

/** Chances by part and place of one beat: of a stroke of the part within a place of there. */
export type BeatRates = Float64Array;

/** The part of a stroke at a place of a beat, in {@link BeatRates}. */
export function beatSlot(sound: number, place: number, { beat }: Pick<Bars, "beat">): number {
  const share = (place / beat - Math.floor(place / beat)) * PLACES_PER_BEAT;
  return (SOUND_PARTS[sound] ?? 0) * PLACES_PER_BEAT + (Math.round(share) % PLACES_PER_BEAT);
}

/** Log likelihood of each beat when strokes come at these rates, whatever came before. */
export function ratesLogs(strokes: readonly LaidStroke[], bars: Bars, rates: BeatRates): Float64Array {
  const logs = new Float64Array(bars.beats);
  // A rate counts the strokes within a place of it: three places share them.
  const expected = rates.reduce((sum, rate) => sum + rate, 0) / 3;
  const from = beatOf(bars.first, bars);
  const to = beatOf(bars.last, bars);
  for (let beat = from; beat <= to; beat += 1) logs[beat] = -expected;
  for (const { place, sound } of strokes) {
    const beat = beatOf(place, bars);
    logs[beat] = (logs[beat] ?? 0) + Math.log(rates[beatSlot(sound, place, bars)] ?? UNEXPECTED);
  }
  return logs;
}

/** What no groove in general has is not impossible. Our choice. */
const LEAST_RATE = 0.01;
const usualBeats = new WeakMap<Background, BeatRates>();

/** The average beat of grooves in general. */
export function usualBeat(general: Background): BeatRates {
  const known = usualBeats.get(general);
  if (known) return known;
  const average = general.average.get(4) ?? new Float64Array();
  const places = average.length / ROLE_COUNT;
  const beats = Math.max(1, places / PLACES_PER_BEAT);
  const sums = new Float64Array(PART_COUNT * PLACES_PER_BEAT);
  for (const part of PARTS) {
    for (let place = 0; place < places; place += 1) {
      const slot = part * PLACES_PER_BEAT + (place % PLACES_PER_BEAT);
      sums[slot] = (sums[slot] ?? 0) + (average[part * places + place] ?? 0) / beats;
    }
  }
  const rates = widened(sums, LEAST_RATE);
  usualBeats.set(general, rates);
  return rates;
}

/** Strokes a beat at each place, as the chance of one within a place of there, and never less than `least`. */
export function widened(sums: Float64Array, least: number): BeatRates {
  const rates = new Float64Array(sums.length);
  for (const part of PARTS) {
    const own = sums.subarray(part * PLACES_PER_BEAT, (part + 1) * PLACES_PER_BEAT);
    own.forEach((_, place) => {
      rates[part * PLACES_PER_BEAT + place] = Math.max(least, around(own, place));
    });
  }
  return rates;
}
