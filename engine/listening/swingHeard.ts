/**
 * Question: how long is the long one, when nobody has said what was meant?
 * Method: at the heard pulse, spans with exactly one stroke between their ends are pairs of long and short. Where it falls
 * gathers round one place p of the span, straight or swung; the ratio is p / (1 − p).
 * Source: Friberg & Sundström, Music Perception 19 (2002) 333–349: up to 3.5 at slow tempos, falling with tempo.
 */
import { familyOf, type Hit, type VoiceFamily } from "../kit/index.ts";
import { isCompound } from "../score/index.ts";
import { median } from "../units/index.ts";
import type { HeardSwing, Pulse } from "./hearing.ts";

/** Spans long and short may fill, in felt beats. */
const SPANS = [
  { of: "eighths", beats: 1 },
  { of: "sixteenths", beats: 1 / 2 },
] as const;

/** Hands that keep time tell more of swing than the rest: a kick before three is no short note of the beat. */
const TIME_KEEPING: readonly (readonly VoiceFamily[])[] = [
  ["hats", "cymbals"],
  ["hats", "cymbals", "snare", "kick", "percussion"],
];

/** Off-beats are looked for between these shares of a span: straight is 0.5, 3.5 to 1 is 0.78. */
const EARLIEST = 0.42;
const LATEST = 0.82;
/** A stroke this near to an end of the span, as a share of it, stands on the end. */
const ON_END = 0.14;
/** Off-beats this near to one another, as a share of the span, are of one kind. */
const TOGETHER = 0.05;
/** Fewer pairs are not told. */
const FEWEST_PAIRS = 4;
/** So many of the spans that are divided at all must be divided in two, and so many of those at one place. */
const DIVIDED_IN_TWO = 0.6;
const AT_ONE_PLACE = 0.5;
/** From this ratio on sixteenths are swung. Friberg & Sundström's drummers kept to 1 : 1 within a tenth when they meant it. */
const SWUNG_FROM = 1.15;
// All but the last: our choice.

/**
 * The swing of a take without a score; `null` when no long and short are heard, and in compound metres, whose beats are
 * divided in three to begin with. Straight is a ratio near 1.
 *
 * @param hits in order of time.
 */
export function swingHeard(hits: readonly Hit[], pulse: Pulse): HeardSwing | null {
  if (isCompound(pulse.metre)) return null;
  const placed = placedHits(hits, pulse.beats);
  for (const families of TIME_KEEPING) {
    const own = placed.filter(({ family }) => families.includes(family)).map(({ beat }) => beat);
    const [eighths, sixteenths] = SPANS.map(({ of, beats }) => {
      const ratio = ratioIn(own.map((beat) => beat / beats));
      return ratio === null ? null : { ratio, of };
    });
    // Straight eighths may carry swung sixteenths; swung eighths leave no room for them.
    if (sixteenths && (!eighths || (eighths.ratio < SWUNG_FROM && sixteenths.ratio >= SWUNG_FROM)))
      return sixteenths;
    if (eighths) return eighths;
  }
  return null;
}

interface PlacedHit {
  /** Beats from the first of the pulse. */
  readonly beat: number;
  readonly family: VoiceFamily;
}

function placedHits(hits: readonly Hit[], beats: readonly number[]): readonly PlacedHit[] {
  let upper = 1;
  return hits.flatMap(({ time, voice }) => {
    while (upper < beats.length - 1 && (beats[upper] ?? 0) <= time) upper += 1;
    const from = beats[upper - 1];
    const to = beats[upper];
    if (from === undefined || to === undefined) return [];
    return [{ beat: upper - 1 + (time - from) / (to - from), family: familyOf(voice) }];
  });
}

/** Long to short over spans of length 1. */
function ratioIn(places: readonly number[]): number | null {
  const spans = new Map<number, number[]>();
  const ons: number[] = [];
  for (const place of places) {
    const span = Math.floor(place + ON_END);
    const share = place - span;
    if (share <= ON_END) ons.push(share);
    else spans.set(span, [...(spans.get(span) ?? []), share]);
  }
  const divided = [...spans.values()].map(asOne);
  const inTwo = divided
    .filter((shares) => shares.length === 1)
    .flat()
    .filter((share) => share >= EARLIEST && share <= LATEST);
  if (inTwo.length < FEWEST_PAIRS || inTwo.length < DIVIDED_IN_TWO * divided.length) return null;
  const near = inTwo.map((share) => inTwo.filter((other) => Math.abs(other - share) <= TOGETHER));
  const kind = near.reduce((most, one) => (one.length > most.length ? one : most));
  if (kind.length < AT_ONE_PLACE * inTwo.length) return null;
  // The pulse may run a little before or behind the strokes that stand on it.
  const off = ons.length > 0 ? median(ons) : 0;
  const share = median(kind) - off;
  return share / (1 - share);
}

/** Strokes of a unison are one, in the middle of them. */
function asOne(shares: readonly number[]): readonly number[] {
  const groups: number[][] = [];
  for (const share of [...shares].sort((a, b) => a - b)) {
    const last = groups.at(-1);
    if (last && share - (last.at(-1) ?? 0) <= TOGETHER) last.push(share);
    else groups.push([share]);
  }
  return groups.map(median);
}
