/**
 * Question: where and at what tempo does the answer give the call back?
 *
 * The answer may begin anywhere, be faster or slower, leave strokes out at its edges and sound on other voices. So every
 * difference between a stroke of the answer and a stroke of the call is a vote for a beginning, over a grid of tempos (a
 * generalised Hough transform, Ballard, Pattern Recognition 13 (1981) 111–122, as for the free start of a take). The best are
 * aligned (`engine/grading`), the line through what was paired sets tempo and beginning exactly, and the cheapest is kept.
 */
import { align, GAP, type PairCost, type Slot, slotCost } from "../grading/index.ts";
import { familyOf } from "../kit/index.ts";
import { median, robustLine, type Seconds } from "../units/index.ts";
import type { PhraseStroke } from "./phraseStrokes.ts";

/** The moment of the call `time` is answered at `start + stretch · time`. */
export interface Transposition {
  readonly start: Seconds;
  /** How much longer the answer's seconds are: above 1 the answer is slower. */
  readonly stretch: number;
}

export type AnswerSlot = Slot<PhraseStroke, PhraseStroke>;

export interface Transposed extends Transposition {
  /** Hit: a stroke of the answer, on its own clock. Note: one of the call, on the call's clock. Roughly in order of time. */
  readonly slots: readonly AnswerSlot[];
}

/**
 * All voices are aligned together, since a sound may move anywhere: a pair costs one gap for 60 ms, as within a family of
 * voices, and another voice 0.7 of a gap, so that up to 78 ms it is the same stroke on another sound. Our choice.
 */
const COST: PairCost = { scaleSeconds: 0.06, otherVoice: 0.7 };

/** Tempos are tried to two fifths slower and faster, further than a phrase is given back at once. Our choice. */
const LARGEST_STRETCH = 1.4;
const STRETCH_STEP = 0.015;
/**
 * A tempo off by a fifth costs as much as a stroke left out, one off by a tenth a quarter of that: of three strokes the last
 * of which comes a sixteenth late, the place has moved and not the tempo. Our choice.
 */
const STRETCH_PER_GAP = Math.log(1.2);
const BIN_SECONDS: Seconds = 0.02;
const VOTES = { sameVoice: 1, sameFamily: 0.5, other: 0.2 };
/** Strokes that vote; so many are more than sixteen bars of a phrase. */
const MOST_VOTERS = 256;
const MOST_ALIGNED = 24;
const MOST_AT_STRETCH = 3;
/** Up to so many pairs every line through two of them is tried: among few, one that is out pulls any fitted line along. */
const FEW_PAIRS = 12;

/** How far the tempo of the answer may differ; `undefined` for as far as it is looked for. */
export interface TempoLimit {
  readonly largestStretch?: number;
}

/**
 * The transposition under which the answer costs least; `undefined` when either is empty.
 *
 * @example
 * const strokesAt = (times) => phraseStrokes(times.map((time) => ({ time, voice: "snare", velocity: 0.7 })));
 * findTransposition(strokesAt([0, 1, 1.5]), strokesAt([5, 6, 6.5]))?.start // => 5
 */
export function findTransposition(
  call: readonly PhraseStroke[],
  answer: readonly PhraseStroke[],
  { largestStretch = LARGEST_STRETCH }: TempoLimit = {},
): Transposed | undefined {
  if (call.length === 0 || answer.length === 0) return undefined;
  const candidates = stretches(largestStretch)
    .flatMap((stretch) => peaksAt(stretch, call.slice(0, MOST_VOTERS), answer.slice(0, MOST_VOTERS)))
    .sort((a, b) => b.votes - a.votes)
    .slice(0, MOST_ALIGNED);
  let best: (Transposed & { readonly cost: number }) | undefined;
  for (const candidate of candidates) {
    const found = settled(candidate, call, answer, largestStretch);
    if (!best || found.cost < best.cost - 1e-9) best = found;
  }
  return best;
}

function stretches(largest: number): readonly number[] {
  const steps = Math.floor(Math.log(largest) / STRETCH_STEP);
  return Array.from({ length: 2 * steps + 1 }, (_, at) => Math.exp((at - steps) * STRETCH_STEP));
}

function tempoCost(stretch: number): number {
  return GAP * (Math.log(stretch) / STRETCH_PER_GAP) ** 2;
}

interface Candidate extends Transposition {
  readonly votes: number;
}

/** The beginnings with the most votes at one tempo. */
function peaksAt(
  stretch: number,
  call: readonly PhraseStroke[],
  answer: readonly PhraseStroke[],
): readonly Candidate[] {
  const first = call[0]?.time ?? 0;
  const last = call.at(-1)?.time ?? first;
  const middle = (first + last) / 2;
  // Half a step of tempo moves the ends of a long phrase by more than a bin.
  const bin = Math.max(BIN_SECONDS, (STRETCH_STEP / 2) * stretch * (middle - first));
  const earliest = (answer[0]?.time ?? 0) - stretch * (last - middle) - 2 * bin;
  const latest = (answer.at(-1)?.time ?? 0) + stretch * (middle - first) + 2 * bin;
  const bins = new Float64Array(Math.ceil((latest - earliest) / bin) + 2);
  for (const called of call) {
    for (const answered of answer) {
      const place = (answered.time - stretch * (called.time - middle) - earliest) / bin;
      const low = Math.floor(place);
      const weight = voteOf(called, answered);
      bins[low] = (bins[low] ?? 0) + weight * (1 - place + low);
      bins[low + 1] = (bins[low + 1] ?? 0) + weight * (place - low);
    }
  }
  const found: Candidate[] = [];
  for (let at = 1; at < bins.length - 1; at += 1) {
    const before = bins[at - 1] ?? 0;
    const here = bins[at] ?? 0;
    const after = bins[at + 1] ?? 0;
    if (here === 0 || here < before || here <= after) continue;
    const votes = before + here + after;
    const centre = earliest + (at + (after - before) / votes) * bin;
    found.push({ stretch, start: centre - stretch * middle, votes });
  }
  return found.sort((a, b) => b.votes - a.votes).slice(0, MOST_AT_STRETCH);
}

function voteOf(called: PhraseStroke, answered: PhraseStroke): number {
  if (called.voice === answered.voice) return VOTES.sameVoice;
  return familyOf(called.voice) === familyOf(answered.voice) ? VOTES.sameFamily : VOTES.other;
}

/** Aligned, moved onto the line through the pairs, and aligned again; the cheapest of the ways on. */
function settled(
  from: Transposition,
  call: readonly PhraseStroke[],
  answer: readonly PhraseStroke[],
  largestStretch: number,
): Transposed & { readonly cost: number } {
  const first = laid(from, call, answer);
  let best = first;
  for (let pass = 0; pass < 2; pass += 1) {
    const refined = bestLine(best, largestStretch);
    const again = laid(refined, call, answer);
    if (again.cost >= best.cost - 1e-9) break;
    best = again;
  }
  return best;
}

function laid(
  { start, stretch }: Transposition,
  call: readonly PhraseStroke[],
  answer: readonly PhraseStroke[],
): Transposed & { readonly cost: number } {
  const notes = call.map((stroke) => ({ stroke, voice: stroke.voice, time: start + stretch * stroke.time }));
  const slots = align(notes, answer, COST);
  const cost = slots.reduce((sum, slot) => sum + slotCost(slot, COST), tempoCost(stretch));
  return { start, stretch, cost, slots: slots.map(({ hit, note }) => ({ hit, note: note?.stroke })) };
}

/** The line through the pairs that costs least; the one they were paired by where they are too few. */
function bestLine({ start, stretch, slots }: Transposed, largestStretch: number): Transposition {
  const x: Seconds[] = [];
  const y: Seconds[] = [];
  for (const { hit, note } of slots) {
    if (!hit || !note) continue;
    x.push(note.time);
    y.push(hit.time);
  }
  const lines: Transposition[] = [
    { stretch, start },
    { stretch, start: startFor(stretch, x, y) },
    { stretch: 1, start: startFor(1, x, y) },
  ];
  if (x.length > 2) {
    const { at0, slope } = robustLine(x, y);
    lines.push({ stretch: slope, start: at0 });
  }
  if (x.length <= FEW_PAIRS) {
    for (let from = 0; from < x.length; from += 1) {
      for (let to = from + 1; to < x.length; to += 1) {
        const slope = ((y[to] ?? 0) - (y[from] ?? 0)) / ((x[to] ?? 0) - (x[from] ?? 0));
        if (Number.isFinite(slope) && slope > 0) lines.push({ stretch: slope, start: startFor(slope, x, y) });
      }
    }
  }
  const costOf = (line: Transposition): number =>
    x.reduce(
      (sum, time, at) => sum + Math.abs((y[at] ?? 0) - line.start - line.stretch * time) / COST.scaleSeconds,
      tempoCost(line.stretch),
    );
  return lines
    .filter(({ stretch: s }) => s <= largestStretch + 1e-9 && s >= 1 / largestStretch - 1e-9)
    .reduce((best, line) => (costOf(line) < costOf(best) - 1e-9 ? line : best), { stretch, start });
}

function startFor(stretch: number, x: readonly Seconds[], y: readonly Seconds[]): Seconds {
  return x.length === 0 ? 0 : median(x.map((time, at) => (y[at] ?? 0) - stretch * time));
}
