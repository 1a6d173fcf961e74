/**
 * Question: what became of the call in its answer, in rhythm and in sound apart?
 *
 * 1. `phraseStrokes.ts` takes double triggers away and grace strokes to their main strokes.
 * 2. `transposition.ts` finds where and at what tempo the answer lies, and pairs its strokes with the call's.
 * 3. A stroke of the call without a partner and one of the answer on the same voice, a beat apart at most, are one stroke
 *    whose place has moved.
 * 4. **Rhythm** holds when every stroke of the call has its stroke in the answer, none is added, and none stands out in time:
 *    a stroke stands out beyond the student's band about the answer's own tempo and lean, and where the player's scatter is
 *    wider than that, beyond four times that scatter, but never beyond half of a sixteenth. The scatter itself must stay in
 *    the band. What cannot be heard is never a fault.
 * 5. **Sound** holds when every pair sounds on one voice. Touch (accents, ghost notes) is told beside it.
 */
import { bandMs, hearableMs, leanAndSpread } from "../grading/index.ts";
import type { Voice } from "../kit/index.ts";
import type { Level } from "../score/index.ts";
import {
  type Bpm,
  beatSeconds,
  MAD_TO_SD,
  type Milliseconds,
  medianDeviation,
  type Seconds,
} from "../units/index.ts";
import { type PhraseHit, type PhraseStroke, phraseStrokes } from "./phraseStrokes.ts";
import { type MovedTouch, touchMoved } from "./touchMoved.ts";
import { findTransposition, type TempoLimit, type Transposition } from "./transposition.ts";

/** A stroke of the call and the stroke of the answer that gives it back. */
export interface AnsweredStroke {
  /** Places among the hits given. */
  readonly called: number;
  readonly answered: number;
  /** In the answer's milliseconds, against the call at the answer's own tempo and beginning: negative ahead. */
  readonly offsetMs: Milliseconds;
}

export interface MovedSound {
  /** Place of the stroke in the call. */
  readonly index: number;
  readonly called: Voice;
  readonly answered: Voice;
}

/** A stroke that only one side has. */
export interface LoneStroke {
  /** Place in the call when missed, in the answer when added. */
  readonly index: number;
  readonly voice: Voice;
  /** On the clock of its own side. */
  readonly time: Seconds;
  /** A grace stroke of a flam or drag: the rhythm holds without it. */
  readonly grace: boolean;
}

export interface RhythmCompared {
  readonly holds: boolean;
  /** Of each stroke that was given back, in the order of the call. */
  readonly offsetsMs: readonly Milliseconds[];
  /** Strokes out of their place. */
  readonly moved: readonly { readonly index: number; readonly offsetMs: Milliseconds }[];
}

export interface SoundCompared {
  readonly holds: boolean;
  readonly moved: readonly MovedSound[];
}

/** All that is said of a call and its answer; plain data. */
export interface Comparison {
  readonly rhythm: RhythmCompared;
  readonly sound: SoundCompared;
  readonly touch: { readonly moved: readonly MovedTouch[] };
  readonly missed: readonly LoneStroke[];
  readonly added: readonly LoneStroke[];
  /** In the order of the call. */
  readonly pairs: readonly AnsweredStroke[];
  /** Where the call's moments lie in the answer; `null` when nothing was played. */
  readonly transposition: Transposition | null;
  /** Against the turn, where it is known; else `null`: a free beginning has no lean. */
  readonly leanMs: Milliseconds | null;
  /** Scatter of the offsets; `null` with fewer than two pairs. */
  readonly spreadMs: Milliseconds | null;
}

export interface Comparing extends TempoLimit {
  readonly level: Level;
  /** The call's tempo, in felt beats. */
  readonly tempoBpm: Bpm;
  /** How much later the answer's turn begins than the call's, where both share a pulse. */
  readonly turnSeconds?: Seconds;
}

/**
 * A stroke further out than so many of the player's own standard deviations is out of place, not scattered. Of sixteen strokes
 * with 12 ms of scatter one in six takes has one beyond 30 ms by chance alone. Our choice.
 */
const OUT_SDS = 4;
/** With few strokes the scatter is hardly known: as many strokes with half a band of it are thought beside them. Our choice. */
const THOUGHT_STROKES = 4;
const THOUGHT_SHARE = 0.5;
/** However wide it is played: beyond twice the band, or half of a sixteenth, a stroke is on its way to another place. Our choice. */
const WIDEST_BANDS = 2;
const WIDEST_BEATS = 1 / 8;
/** Of very fast sixteenths half is less than a good player's scatter. Our choice. */
const NARROWEST_LIMIT_MS: Milliseconds = 40;
/** A stroke is looked for on its own voice within a beat: further off it is another stroke. Our choice. */
const MOVED_BEATS = 1;

/**
 * Compares an answer with its call.
 *
 * @param call in any order, on a clock of its own.
 * @param answer in any order, on a clock of its own.
 * @example
 * const stroke = (time, voice) => ({ time, voice, velocity: 0.7 });
 * const call = [stroke(0, "snare"), stroke(0.5, "snare"), stroke(0.75, "kick")];
 * const answer = [stroke(2, "snare"), stroke(2.5, "high-tom"), stroke(2.75, "kick")];
 * const { sound } = compareAnswer(call, answer, { level: "steady", tempoBpm: 120 });
 * sound.moved // => [{ index: 1, called: "snare", answered: "high-tom" }]
 */
export function compareAnswer(
  call: readonly PhraseHit[],
  answer: readonly PhraseHit[],
  how: Comparing,
): Comparison {
  const called = phraseStrokes(call);
  const answered = phraseStrokes(answer);
  const found = findTransposition(called, answered, how);
  const {
    pairs: rough,
    missed,
    added,
  } = found ? placesFound(found.slots, found, how.tempoBpm) : { pairs: [], missed: called, added: answered };
  const answerBpm = how.tempoBpm / (found?.stretch ?? 1);
  const halfBandMs = Math.max(bandMs(how.level, answerBpm), hearableMs(beatSeconds(answerBpm) * 1000));
  const { pairs, transposition, limitMs } = inTime(rough, found, { halfBandMs, answerBpm });
  const offsetsMs = pairs.map(({ offsetMs }) => offsetMs);
  const outOfPlace = pairs.filter(({ offsetMs }) => Math.abs(offsetMs) > limitMs);
  const soundMoved = pairs.flatMap(({ called, answered }) =>
    called.voice === answered.voice
      ? []
      : [{ index: called.index, called: called.voice, answered: answered.voice }],
  );
  const held = pairs.filter((pair) => !outOfPlace.includes(pair)).map(({ offsetMs }) => offsetMs);
  const { spreadMs } = leanAndSpread(held);
  return {
    rhythm: {
      holds:
        pairs.length > 0 &&
        missed.length === 0 &&
        added.length === 0 &&
        outOfPlace.length === 0 &&
        (spreadMs ?? 0) <= halfBandMs,
      offsetsMs,
      moved: outOfPlace.map(({ called: { index }, offsetMs }) => ({ index, offsetMs })),
    },
    sound: { holds: pairs.length > 0 && soundMoved.length === 0, moved: soundMoved },
    touch: { moved: touchMoved(pairs) },
    missed: alone(missed, call, gracesOver(pairs, "called", "answered")),
    added: alone(added, answer, gracesOver(pairs, "answered", "called")),
    pairs: pairs.map(({ called: c, answered: a, offsetMs }) => ({
      called: c.index,
      answered: a.index,
      offsetMs,
    })),
    transposition,
    leanMs: leanOf(pairs, how.turnSeconds),
    spreadMs,
  };
}

interface Pair {
  readonly called: PhraseStroke;
  readonly answered: PhraseStroke;
  readonly offsetMs: Milliseconds;
}

/** Pairs in the order of the call, strokes whose place has moved among them; and what is left over. */
function placesFound(
  slots: readonly { readonly hit: PhraseStroke | undefined; readonly note: PhraseStroke | undefined }[],
  { start, stretch }: Transposition,
  tempoBpm: Bpm,
): {
  readonly pairs: readonly Pair[];
  readonly missed: readonly PhraseStroke[];
  readonly added: readonly PhraseStroke[];
} {
  const paired = (called: PhraseStroke, answered: PhraseStroke): Pair => ({
    called,
    answered,
    offsetMs: offsetOf({ called, answered }, { start, stretch }),
  });
  const pairs: Pair[] = [];
  const missed = new Set<PhraseStroke>();
  const added = new Set<PhraseStroke>();
  for (const { hit, note } of slots) {
    if (hit && note) pairs.push(paired(note, hit));
    else if (note) missed.add(note);
    else if (hit) added.add(hit);
  }
  const furthestMs = MOVED_BEATS * stretch * beatSeconds(tempoBpm) * 1000 * (1 + 1e-6);
  const moved = [...missed]
    .flatMap((called) =>
      // Two whole phrases may be left over: what is too far away is not even paired.
      [...added].flatMap((answered) =>
        called.voice === answered.voice &&
        Math.abs(offsetOf({ called, answered }, { start, stretch })) <= furthestMs
          ? [paired(called, answered)]
          : [],
      ),
    )
    .sort((a, b) => Math.abs(a.offsetMs) - Math.abs(b.offsetMs));
  for (const pair of moved) {
    if (!missed.has(pair.called) || !added.has(pair.answered)) continue;
    missed.delete(pair.called);
    added.delete(pair.answered);
    pairs.push(pair);
  }
  pairs.sort((a, b) => a.called.time - b.called.time || a.called.index - b.called.index);
  return { pairs, missed: [...missed], added: [...added] };
}

/**
 * Offsets about the straight line through the strokes that are in their place (least squares, begun from the transposition as
 * found), and from how far on a stroke is out of it.
 */
function inTime(
  rough: readonly Pair[],
  found: Transposition | undefined,
  { halfBandMs, answerBpm }: { readonly halfBandMs: Milliseconds; readonly answerBpm: Bpm },
): {
  readonly pairs: readonly Pair[];
  readonly transposition: Transposition | null;
  readonly limitMs: Milliseconds;
} {
  const eighthOfBeatMs = WIDEST_BEATS * beatSeconds(answerBpm) * 1000;
  const widestMs = Math.max(NARROWEST_LIMIT_MS, Math.min(WIDEST_BANDS * halfBandMs, eighthOfBeatMs));
  let pairs = rough;
  let line = found;
  for (let pass = 0; line && pass < MOST_PASSES; pass += 1) {
    const fitted = lineThrough(pairs.filter(({ offsetMs }) => Math.abs(offsetMs) <= widestMs));
    if (!fitted) break;
    line = fitted;
    pairs = rough.map((pair) => ({ ...pair, offsetMs: offsetOf(pair, fitted) }));
  }
  const held = pairs.map(({ offsetMs }) => offsetMs).filter((offsetMs) => Math.abs(offsetMs) <= widestMs);
  const scatterMs = held.length === 0 ? 0 : medianDeviation(held) * MAD_TO_SD;
  const thought = THOUGHT_STROKES * (THOUGHT_SHARE * halfBandMs) ** 2;
  const sdMs = Math.sqrt((held.length * scatterMs ** 2 + thought) / (held.length + THOUGHT_STROKES));
  return {
    pairs,
    transposition: line ? { start: line.start, stretch: line.stretch } : null,
    limitMs: Math.min(Math.max(halfBandMs, OUT_SDS * sdMs), widestMs),
  };
}

/** Which strokes are in place settles at the second pass. */
const MOST_PASSES = 3;

/** Least squares; `undefined` with fewer than three strokes, which any tempo fits. */
function lineThrough(pairs: readonly Pair[]): Transposition | undefined {
  if (pairs.length < 3) return undefined;
  const meanX = pairs.reduce((sum, { called }) => sum + called.time, 0) / pairs.length;
  const meanY = pairs.reduce((sum, { answered }) => sum + answered.time, 0) / pairs.length;
  const squares = pairs.reduce((sum, { called }) => sum + (called.time - meanX) ** 2, 0);
  const products = pairs.reduce(
    (sum, { called, answered }) => sum + (called.time - meanX) * (answered.time - meanY),
    0,
  );
  if (squares < 1e-9 || products <= 0) return undefined;
  const stretch = products / squares;
  return { stretch, start: meanY - stretch * meanX };
}

function offsetOf(
  { called, answered }: Omit<Pair, "offsetMs">,
  { start, stretch }: Transposition,
): Milliseconds {
  return (answered.time - start - stretch * called.time) * 1000;
}

/** Grace strokes that one side of a pair has more than the other, the last ones first kept. */
function gracesOver(
  pairs: readonly Pair[],
  side: "called" | "answered",
  other: "called" | "answered",
): readonly number[] {
  return pairs.flatMap((pair) =>
    pair[side].graces.slice(0, Math.max(0, pair[side].graces.length - pair[other].graces.length)),
  );
}

function alone(
  strokes: readonly PhraseStroke[],
  hits: readonly PhraseHit[],
  graces: readonly number[],
): readonly LoneStroke[] {
  const mains = strokes.map(({ index }) => ({ index, grace: false }));
  const theirs = strokes.flatMap((stroke) => stroke.graces.map((index) => ({ index, grace: true })));
  const others = graces.map((index) => ({ index, grace: true }));
  return [...mains, ...theirs, ...others]
    .flatMap(({ index, grace }) => {
      const hit = hits[index];
      return hit ? [{ index, voice: hit.voice, time: hit.time, grace }] : [];
    })
    .sort((a, b) => a.time - b.time || a.index - b.index);
}

function leanOf(pairs: readonly Pair[], turnSeconds: Seconds | undefined): Milliseconds | null {
  if (turnSeconds === undefined) return null;
  const offsets = pairs.map(({ called, answered }) => (answered.time - called.time - turnSeconds) * 1000);
  return leanAndSpread(offsets).leanMs;
}
