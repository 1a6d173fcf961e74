/**
 * How many strokes a bar tell two grooves apart, for the test that no two styles are the same: the least over all
 * turns of the one against the other, and over the tempos at which the one could be meant for the other.
 *
 * Hi-hats, rides and bells are one part (the hand that keeps time may move); snare and cross-stick are one part,
 * toms are one part, and there the other voice at the same place still counts, for less. Weights are our choice.
 */
import type { Voice } from "../../../engine/kit/index.ts";
import { beatsPerBar, type Groove, grooveBeats } from "../../../engine/score/index.ts";
import { toNumber } from "../../../engine/units/index.ts";

const ALL_PARTS = ["kick", "back-beat", "time-keeper", "toms", "pedal"] as const;
type Part = (typeof ALL_PARTS)[number];

export const PARTS: Partial<Readonly<Record<Voice, Part>>> = {
  kick: "kick",
  snare: "back-beat",
  "cross-stick": "back-beat",
  "hi-hat-closed": "time-keeper",
  "hi-hat-open": "time-keeper",
  ride: "time-keeper",
  bell: "time-keeper",
  "high-tom": "toms",
  "mid-tom": "toms",
  "floor-tom": "toms",
  "hi-hat-pedal": "pedal",
};

const GHOST = 0.5;
const OTHER_VOICE: Readonly<Record<Part, number>> = {
  kick: 0,
  "back-beat": 0.4,
  "time-keeper": 0,
  toms: 0.4,
  pedal: 0,
};

/** Holds sixteenths, triplets and their halves, at every stretch. */
const PLACES_PER_BEAT = 48;
/** A groove's beat lasts so many beats of the other. */
const STRETCHES = [1, 2, 1 / 2, 3, 1 / 3, 3 / 2, 2 / 3] as const;
/** A performance may be so much slower or faster than the tempos written. */
const TEMPO_MARGIN = 0.25;

interface Laid {
  /** In places. */
  readonly length: number;
  readonly strokes: readonly Stroke[];
}

interface Stroke {
  readonly place: number;
  readonly part: Part;
  readonly voice: Voice;
  readonly weight: number;
}

export interface Apart {
  readonly strokesPerBar: number;
  readonly stretch: number;
}

/** The least difference of two grooves, in strokes a bar of the longer bar. */
export function apart(a: Groove, b: Groove): Apart {
  let least: Apart = { strokesPerBar: Number.POSITIVE_INFINITY, stretch: 1 };
  for (const stretch of STRETCHES) {
    if (!tempoMeets(a, b, stretch)) continue;
    const bar = Math.max(beatsPerBar(a.metre), beatsPerBar(b.metre) * stretch) * PLACES_PER_BEAT;
    const strokesPerBar = leastDifference(laid(a, 1), laid(b, stretch)) * bar;
    if (strokesPerBar < least.strokesPerBar) least = { strokesPerBar, stretch };
  }
  return least;
}

/** At the written beat whatever the tempos; at another, where the tempos allow it. */
function tempoMeets(a: Groove, b: Groove, stretch: number): boolean {
  if (stretch === 1) return true;
  const slowest = Math.max(a.tempoBpm.low, b.tempoBpm.low * stretch) * (1 - TEMPO_MARGIN);
  const fastest = Math.min(a.tempoBpm.high, b.tempoBpm.high * stretch) * (1 + TEMPO_MARGIN);
  return slowest <= fastest;
}

function laid(groove: Groove, stretch: number): Laid {
  return {
    length: Math.round(grooveBeats(groove) * stretch * PLACES_PER_BEAT),
    strokes: groove.notes.map(({ position, voice, dynamic }) => {
      const part = PARTS[voice];
      if (!part) throw new Error(`${groove.id}: ${voice} plays no part that can be compared.`);
      const place = Math.round(toNumber(position) * stretch * PLACES_PER_BEAT);
      return { place, part, voice, weight: dynamic === "ghost" ? GHOST : 1 };
    }),
  };
}

/** Strokes that differ, by place. */
function leastDifference(a: Laid, b: Laid): number {
  const period = leastCommonMultiple(a.length, b.length);
  const [inA, inB] = [repeated(a, period), repeated(b, period)];
  const key = (part: Part, place: number): number => ALL_PARTS.indexOf(part) * period + place;
  const found = new Map(inA.map((stroke) => [key(stroke.part, stroke.place), stroke]));
  const all = [...inA, ...inB].reduce((sum, { weight }) => sum + weight, 0);
  let mostShared = 0;
  for (let turn = 0; turn < b.length; turn += 1) {
    if (turn % (PLACES_PER_BEAT / 4) !== 0 && turn % (PLACES_PER_BEAT / 3) !== 0) continue;
    let shared = 0;
    for (const stroke of inB) {
      const other = found.get(key(stroke.part, (stroke.place + turn) % period));
      if (!other) continue;
      shared += 2 * Math.min(stroke.weight, other.weight);
      if (other.voice !== stroke.voice) shared -= OTHER_VOICE[stroke.part];
    }
    mostShared = Math.max(mostShared, shared);
  }
  return (all - mostShared) / period;
}

/** One stroke at one place of each part: of two, the stronger. */
function repeated(groove: Laid, period: number): readonly Stroke[] {
  const strokes = new Map<string, Stroke>();
  for (let start = 0; start < period; start += groove.length) {
    for (const stroke of groove.strokes) {
      const place = start + stroke.place;
      const key = `${stroke.part} ${place}`;
      if ((strokes.get(key)?.weight ?? 0) < stroke.weight) strokes.set(key, { ...stroke, place });
    }
  }
  return [...strokes.values()];
}

function leastCommonMultiple(a: number, b: number): number {
  let [high, low] = [a, b];
  while (low > 0) [high, low] = [low, high % low];
  return (a / high) * b;
}
