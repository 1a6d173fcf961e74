/**
 * Question: which groove does a human take play?
 * Method: the strokes of each part are folded on the click onto two bars, the take's own lean taken out; where strokes
 * of one part gather, there is a stroke of the groove, snapped to the nearest sixteenth or triplet, with the share of
 * repeats in which it sounds. Our choice.
 */
import type { Hit, Voice } from "../../../engine/kit/index.ts";
import { median } from "../../../engine/units/index.ts";
import type { HumanTake } from "./humanTake.ts";

/** What plays one line of a groove, whichever voice it does it on. */
export const PARTS = ["kick", "back-beat", "time-keeper", "pedal", "toms", "crash"] as const;
export type Part = (typeof PARTS)[number];

const PART_OF: Partial<Readonly<Record<Voice, Part>>> = {
  kick: "kick",
  snare: "back-beat",
  "cross-stick": "back-beat",
  "hi-hat-closed": "time-keeper",
  "hi-hat-open": "time-keeper",
  ride: "time-keeper",
  bell: "time-keeper",
  "hi-hat-pedal": "pedal",
  "high-tom": "toms",
  "mid-tom": "toms",
  "floor-tom": "toms",
  "crash-left": "crash",
  "crash-right": "crash",
  splash: "crash",
  china: "crash",
};

/** The part a voice plays; `undefined` for a pad the map does not name. */
export function partOf(voice: Voice): Part | undefined {
  return PART_OF[voice];
}

export interface GrooveStroke {
  readonly part: Part;
  readonly voice: Voice;
  /** Twelfths of a beat from the downbeat of the groove. */
  readonly step: number;
  /** Share of repeats in which it sounds, from {@link OPTIONAL_FROM} to 1. */
  readonly share: number;
  /** Mean of its velocities. */
  readonly velocity: number;
}

export interface DerivedGroove {
  readonly id: string;
  readonly tempoBpm: number;
  readonly beatsInBar: number;
  /** 1 or 2. */
  readonly bars: number;
  readonly strokes: readonly GrooveStroke[];
}

export const STEPS_PER_BEAT = 12;
/** Sixteenths and triplets: a groove is written on these, however it is swung. */
const WRITTEN_STEPS = [0, 3, 4, 6, 8, 9, 12];
/** A stroke that sounds in half of the repeats belongs to the groove; from a fifth on it may be played. */
const USUAL_FROM = 0.5;
const OPTIONAL_FROM = 0.2;
/** Strokes within this many beats of a gathering belong to it: a little more than half a twelfth. */
const REACH_BEATS = 0.06;
/** Fewer repeats of two bars do not show what is usual. Our choice. */
const FEWEST_REPEATS = 4;
const FEWEST_USUAL_A_BAR = 5;
/** Usual strokes sound this often on the mean, or the take is a solo, or changes its groove. Our choice. */
const STEADY = 0.65;
/** Bars of a pair this alike are one bar, played twice. Our choice. */
const SAME_BAR = 0.75;

/** The groove of a take; `undefined` for one that is short, or in which too little comes round. */
export function derivedGroove(take: HumanTake): DerivedGroove | undefined {
  const { id, bpm: tempoBpm, beatsInBar } = take;
  const strokes = gathered(take, 2);
  if (!strokes || !isGroove(strokes, 2)) return undefined;
  const barSteps = beatsInBar * STEPS_PER_BEAT;
  const first = strokes.filter(({ step }) => step < barSteps);
  const second = strokes.filter(({ step }) => step >= barSteps);
  const same = alike(first, second, barSteps, [barSteps]) >= SAME_BAR;
  const oneBar = same ? gathered(take, 1) : undefined;
  return oneBar && isGroove(oneBar, 1)
    ? { id, tempoBpm, beatsInBar, bars: 1, strokes: oneBar }
    : { id, tempoBpm, beatsInBar, bars: 2, strokes };
}

function isGroove(strokes: readonly GrooveStroke[], bars: number): boolean {
  const usual = strokes.filter(({ share }) => share >= USUAL_FROM);
  const steadiness = usual.reduce((sum, { share }) => sum + share, 0) / usual.length;
  return (
    usual.length >= FEWEST_USUAL_A_BAR * bars &&
    steadiness >= STEADY &&
    usual.some(({ part }) => part === "kick") &&
    usual.some(({ part }) => part === "back-beat")
  );
}

interface FoldedHit {
  readonly hit: Hit;
  readonly repeat: number;
  readonly beat: number;
}

function gathered(take: HumanTake, bars: number): readonly GrooveStroke[] | undefined {
  const beats = take.beatsInBar * bars;
  const folded = foldedOnClick(take, beats);
  const repeats = new Set(folded.map(({ repeat }) => repeat)).size;
  if (repeats * bars < FEWEST_REPEATS * 2) return undefined;
  return PARTS.flatMap((part) => {
    const found: GrooveStroke[] = [];
    let left = folded.filter(({ hit }) => partOf(hit.voice) === part);
    for (;;) {
      const best = fullestGathering(left);
      const share = new Set(best.map(({ repeat }) => repeat)).size / repeats;
      if (share < OPTIONAL_FROM) break;
      found.push({
        part,
        voice: commonest(best.map(({ hit }) => hit.voice)),
        step: writtenStep(median(best.map(({ beat }) => beat))) % (beats * STEPS_PER_BEAT),
        share,
        velocity: best.reduce((sum, { hit }) => sum + hit.velocity, 0) / best.length,
      });
      const taken = new Set(best);
      left = left.filter((one) => !taken.has(one));
    }
    return fullestOfNeighbours(found);
  }).sort((a, b) => a.step - b.step);
}

function foldedOnClick(take: HumanTake, beats: number): readonly FoldedHit[] {
  const lean = leanOnBeats(take);
  return take.hits.map((hit) => {
    const beat = (hit.time * take.bpm) / 60 - lean;
    const repeat = Math.floor((beat + REACH_BEATS) / beats);
    return { hit, repeat, beat: beat - repeat * beats };
  });
}

/** How far after the click the strokes near its beats fall, in beats: the player's own lean and the kit's delay. */
export function leanOnBeats(take: HumanTake): number {
  const near = take.hits
    .map(({ time }) => (time * take.bpm) / 60)
    .map((beat) => beat - Math.round(beat))
    .filter((offset) => Math.abs(offset) < 0.16);
  return near.length === 0 ? 0 : median(near);
}

function writtenStep(beat: number): number {
  const whole = Math.floor(beat);
  const within = (beat - whole) * STEPS_PER_BEAT;
  const nearest = WRITTEN_STEPS.reduce((best, step) =>
    Math.abs(step - within) < Math.abs(best - within) ? step : best,
  );
  return Math.max(0, whole * STEPS_PER_BEAT + nearest);
}

function fullestGathering(hits: readonly FoldedHit[]): readonly FoldedHit[] {
  const sorted = [...hits].sort((a, b) => a.beat - b.beat);
  let best: readonly FoldedHit[] = [];
  let from = 0;
  sorted.forEach((last, to) => {
    while (last.beat - (sorted[from]?.beat ?? 0) > 2 * REACH_BEATS) from += 1;
    if (to - from + 1 > best.length) best = sorted.slice(from, to + 1);
  });
  return best;
}

/** A gathering torn in two by its own width is one stroke: the fuller one, which was found first, stands. */
function fullestOfNeighbours(strokes: readonly GrooveStroke[]): readonly GrooveStroke[] {
  const kept: GrooveStroke[] = [];
  for (const stroke of strokes) {
    if (kept.every(({ step }) => Math.abs(step - stroke.step) > 1)) kept.push(stroke);
  }
  return kept;
}

function commonest(voices: readonly Voice[]): Voice {
  const counts = new Map<Voice, number>();
  for (const voice of voices) counts.set(voice, (counts.get(voice) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? "unknown";
}

/**
 * Likeness of two grooves folded on the same number of steps: what both play over what either plays (the Jaccard
 * index, weighted by the shares of the strokes), by part and step, at the best of the turns. 1 for the same groove.
 */
export function alike(
  a: readonly GrooveStroke[],
  b: readonly GrooveStroke[],
  steps: number,
  turns: readonly number[],
): number {
  const sharesOf = (strokes: readonly GrooveStroke[], turn: number): ReadonlyMap<string, number> =>
    new Map(strokes.map(({ part, step, share }) => [`${part} ${(step + turn) % steps}`, share]));
  const own = sharesOf(a, 0);
  return Math.max(
    ...turns.map((turn) => {
      const other = sharesOf(b, turn);
      let both = 0;
      let either = 0;
      for (const place of new Set([...own.keys(), ...other.keys()])) {
        both += Math.min(own.get(place) ?? 0, other.get(place) ?? 0);
        either += Math.max(own.get(place) ?? 0, other.get(place) ?? 0);
      }
      return either === 0 ? 1 : both / either;
    }),
  );
}
