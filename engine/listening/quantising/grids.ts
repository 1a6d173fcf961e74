/**
 * Question: into how many parts is each beat divided, and on which of them does each stroke stand?
 * Method: every division of a beat is weighed by how near its places lie to the strokes (a bell as wide as the player's own
 * spread), how usual it is, and how usual each place is. What is usual is at first what is usual in general; then it is
 * learnt from the take, by the beat of the bar and by the voice, and all beats are weighed again.
 * Conventions: beats are felt beats from the first bar line, as written; a division of `parts` has places 0 to `parts`,
 * whose last is the next beat.
 */
import type { Voice } from "../../kit/index.ts";
import { MAD_TO_SD, type Milliseconds, median, type Seconds, toMs } from "../../units/index.ts";

/** A stroke to be laid on a grid. */
export interface LooseStroke {
  readonly beat: number;
  readonly voice: Voice;
}

/** A division of a beat, with the place of each of its strokes. */
export interface Division {
  readonly parts: number;
  readonly places: readonly number[];
  /** Natural log of its weight. */
  readonly log: number;
}

/** A beat with its strokes, and how it may be divided, likeliest first. */
export interface DividedBeat {
  readonly beat: number;
  readonly seconds: Seconds;
  /** Indices of the strokes that were given. */
  readonly strokes: readonly number[];
  readonly divisions: readonly [Division, ...Division[]];
  /** For each stroke, its other likeliest place in the division chosen, with the odds against it. */
  readonly others: readonly { readonly place: number; readonly odds: number }[];
}

/** How usual divisions are before anything is known of a take, as natural logs. Our choice, tuned on the catalogue. */
const SIMPLE: ReadonlyMap<number, number> = new Map([
  [1, 0],
  [2, 0],
  [4, -0.5],
  [3, -1.5],
  [6, -3.5],
  [8, -4],
  [5, -6],
]);
const COMPOUND: ReadonlyMap<number, number> = new Map([
  [1, 0],
  [3, 0],
  [6, -1],
  [2, -2.5],
  [4, -4],
  [12, -5],
]);
/** Strokes so little before a beat, in beats, may be meant on it. */
const EARLY = 0.07;
/** The spread before it is known, and the least and most that is believed. Our choice. */
const FIRST_SPREAD: Milliseconds = 14;
const LEAST_SPREAD: Milliseconds = 5;
const MOST_SPREAD: Milliseconds = 30;
/** What no division of the list is worth. */
const UNUSUAL = -12;
/** A slip: a stroke off by far more than the spread, and what it costs. It still belongs to a place near by. Our choice. */
const SLIP: { readonly ms: Milliseconds; readonly log: number } = { ms: 25, log: -4 };
/** Two strokes of a voice on one place. Our choice. */
const TWICE = -6;
/** Doubt, in bars, beside what the take shows of a place, and in beats beside what it shows of a division. Our choice. */
const DOUBT_BARS = 1.5;
const DOUBT_BEATS = 3;
const ROUNDS = 3;
/** Every division tried has its places among these: a multiple of 5, 8 and 12. */
const PLACES_IN_BEAT = 120;
/** More than any division has. */
const MOST_PARTS = 100;

/**
 * Divides the beats of a take that have strokes, in order.
 *
 * @param strokes in order of time.
 * @param beatSeconds the length of a beat.
 */
export function dividedBeats(
  strokes: readonly LooseStroke[],
  how: {
    readonly beatsInBar: number;
    readonly compound: boolean;
    readonly beatSeconds: (beat: number) => Seconds;
  },
): readonly DividedBeat[] {
  const priors = how.compound ? COMPOUND : SIMPLE;
  const groups = byBeat(strokes);
  let usual: Usual = { spreadMs: FIRST_SPREAD, division: generally(priors), place: evenly };
  let beats: readonly DividedBeat[] = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    const seen = usual;
    beats = [...groups].map(([beat, own]) =>
      divided(strokes, beat, own, how.beatSeconds(beat), priors, seen),
    );
    usual = learnt(strokes, beats, how.beatsInBar, priors);
  }
  return beats;
}

/** What is usual: the player's spread, and the natural logs of divisions and of places. */
interface Usual {
  readonly spreadMs: Milliseconds;
  readonly division: (parts: number, beat: number) => number;
  readonly place: (stroke: LooseStroke, beat: number, place: number, parts: number) => number;
}

function generally(priors: ReadonlyMap<number, number>): Usual["division"] {
  return (parts) => priors.get(parts) ?? UNUSUAL;
}

function evenly(_: LooseStroke, __: number, ___: number, parts: number): number {
  return -Math.log(parts);
}

function byBeat(strokes: readonly LooseStroke[]): ReadonlyMap<number, readonly number[]> {
  const groups = new Map<number, number[]>();
  strokes.forEach(({ beat }, index) => {
    const whole = Math.floor(beat + EARLY);
    const own = groups.get(whole);
    if (own) own.push(index);
    else groups.set(whole, [index]);
  });
  return new Map([...groups].sort(([a], [b]) => a - b));
}

function divided(
  strokes: readonly LooseStroke[],
  beat: number,
  own: readonly number[],
  seconds: Seconds,
  priors: ReadonlyMap<number, number>,
  usual: Usual,
): DividedBeat {
  const ms = toMs(seconds);
  const weighed = [...priors.keys()].map((parts) => {
    const laid = laidOn(strokes, own, beat, parts, ms, usual);
    return { parts, ...laid, log: laid.log + usual.division(parts, beat) };
  });
  weighed.sort((a, b) => b.log - a.log || a.parts - b.parts);
  const [best, ...rest] = weighed;
  const first = best ?? { parts: 1, places: own.map(() => 0), log: 0, others: [] };
  return { beat, seconds, strokes: own, divisions: [first, ...rest], others: first.others };
}

/** Lays the strokes of a beat on the places of a division, each voice in its order. */
function laidOn(
  strokes: readonly LooseStroke[],
  own: readonly number[],
  beat: number,
  parts: number,
  beatMs: Milliseconds,
  usual: Usual,
) {
  const taken = new Map<Voice, number>();
  const places: number[] = [];
  const others: { place: number; odds: number }[] = [];
  let log = 0;
  for (const index of own) {
    const stroke = strokes[index];
    if (!stroke) continue;
    const share = (stroke.beat - beat) * parts;
    const near = [Math.floor(share), Math.ceil(share)].map((place) => Math.min(parts, Math.max(0, place)));
    const weighed = near.map((place) => {
      const off = ((share - place) / parts) * beatMs;
      const bell = Math.max(-((off / usual.spreadMs) ** 2) / 2, SLIP.log - (off / SLIP.ms) ** 2 / 2);
      const twice = taken.get(stroke.voice) === place ? TWICE : 0;
      return { place, log: bell + twice + usual.place(stroke, beat, place, parts) };
    });
    weighed.sort((a, b) => b.log - a.log);
    const [best, other] = weighed;
    if (!best || !other) continue;
    places.push(best.place);
    others.push({
      place: other.place,
      odds: other.place === best.place ? Number.POSITIVE_INFINITY : Math.exp(best.log - other.log),
    });
    taken.set(stroke.voice, best.place);
    log += best.log;
  }
  return { places, others, log };
}

/** The fewest parts that have all these places. */
export function fewestParts(parts: number, places: readonly number[]): number {
  const divisor = places.reduce((common, place) => greatestDivisor(common, place), parts);
  return parts / Math.max(1, divisor);
}

function greatestDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestDivisor(b, a % b);
}

/** What the take shows of itself. */
function learnt(
  strokes: readonly LooseStroke[],
  beats: readonly DividedBeat[],
  beatsInBar: number,
  priors: ReadonlyMap<number, number>,
): Usual {
  const spreadMs = spreadOf(strokes, beats);
  const inBar = (beat: number): number => ((beat % beatsInBar) + beatsInBar) % beatsInBar;
  const chosen = new Map<number, number>();
  const divisionsAt = new Map<number, number>();
  const beatsAt = new Map<number, number>();
  const divisions = new Map<number, number>();
  const placesAt = new Map<number, number>();
  const placed = new Map<LooseStroke, number>();
  const count = <K>(counts: Map<K, number>, key: K, by = 1): void => {
    counts.set(key, (counts.get(key) ?? 0) + by);
  };
  const numbers = new Map<Voice, number>();
  for (const { voice } of strokes) if (!numbers.has(voice)) numbers.set(voice, numbers.size);
  const key = (voice: Voice, beat: number, place: number, parts: number): number => {
    const slot = Math.round((inBar(beat) + place / parts) * PLACES_IN_BEAT) % (beatsInBar * PLACES_IN_BEAT);
    return (numbers.get(voice) ?? 0) * beatsInBar * PLACES_IN_BEAT + slot;
  };
  for (const {
    beat,
    divisions: [best],
    strokes: own,
  } of beats) {
    const parts = fewestParts(best.parts, best.places);
    chosen.set(beat, parts);
    count(divisionsAt, inBar(beat) * MOST_PARTS + parts);
    count(beatsAt, inBar(beat));
    count(divisions, parts);
    best.places.forEach((place, index) => {
      const stroke = strokes[own[index] ?? 0];
      if (!stroke) return;
      const slot = key(stroke.voice, beat, place, best.parts);
      count(placesAt, slot);
      placed.set(stroke, slot);
    });
  }
  const bars = Math.max(1, (beats.at(-1)?.beat ?? 0) / beatsInBar - (beats[0]?.beat ?? 0) / beatsInBar);
  const sum = [...priors.values()].reduce((all, log) => all + Math.exp(log), 0);
  return {
    spreadMs,
    division: (parts, beat) => {
      const own = chosen.get(beat) === parts ? 1 : 0;
      const general = Math.exp(priors.get(parts) ?? UNUSUAL) / sum;
      const others = (divisions.get(parts) ?? 0) - own;
      const whole = (others + DOUBT_BEATS * general) / (beats.length - 1 + DOUBT_BEATS);
      const here = (divisionsAt.get(inBar(beat) * MOST_PARTS + parts) ?? 0) - own;
      return Math.log((here + DOUBT_BEATS * whole) / ((beatsAt.get(inBar(beat)) ?? 1) - 1 + DOUBT_BEATS));
    },
    place: (stroke, beat, place, parts) => {
      const slot = key(stroke.voice, beat, place, parts);
      // The stroke itself says nothing of what is usual: it is taken out where it was counted.
      const others = (placesAt.get(slot) ?? 0) - (placed.get(stroke) === slot ? 1 : 0);
      return Math.log((others + DOUBT_BARS / parts / 2) / (Math.max(0, bars - 1) + DOUBT_BARS));
    },
  };
}

function spreadOf(strokes: readonly LooseStroke[], beats: readonly DividedBeat[]): Milliseconds {
  const offs = beats.flatMap(({ beat, seconds, strokes: own, divisions: [{ parts, places }] }) =>
    places.map((place, at) => ((strokes[own[at] ?? 0]?.beat ?? 0) - beat - place / parts) * toMs(seconds)),
  );
  const spread = median(offs.map(Math.abs)) * MAD_TO_SD;
  return Math.min(MOST_SPREAD, Math.max(LEAST_SPREAD, Number.isNaN(spread) ? FIRST_SPREAD : spread));
}
