/**
 * Question: which strokes make the phrase, and which only belong to one of them?
 *
 * A pad that speaks twice within 12 ms was struck once. A soft stroke just before a loud one on the same family of voices is
 * the grace of a flam, two of them of a drag: they colour their main stroke and have no place of their own in the rhythm.
 */
import { familyOf, type Hit, RETRIGGER_GAP_MS } from "../kit/index.ts";
import type { Milliseconds } from "../units/index.ts";

/** What a phrase is compared by; a strike of a kit, a spoken syllable or a written note alike. */
export type PhraseHit = Pick<Hit, "time" | "voice" | "velocity">;

/** One main stroke of a phrase. */
export interface PhraseStroke extends PhraseHit {
  /** Place among the hits given. */
  readonly index: number;
  /** Places of its grace strokes among the hits given, in order of time. */
  readonly graces: readonly number[];
}

/** A grace stroke is so near to what follows it; that of nine flams in ten on the Groove MIDI Dataset. */
const LONGEST_GRACE_GAP_MS: Milliseconds = 51;
/** And softer than this share of its main stroke, so that two even strokes are never taken for a flam. Our choice. */
const GRACE_SHARE = 0.6;
/** A flam has one, a drag two. */
const MOST_GRACES = 2;

/**
 * The main strokes of a phrase, in order of time.
 *
 * @param hits in any order.
 * @example
 * const grace = { time: 0, voice: "snare", velocity: 0.3 };
 * const main = { time: 0.03, voice: "snare", velocity: 0.8 };
 * phraseStrokes([grace, main]).map(({ index, graces }) => [index, graces.length]) // => [[1, 1]]
 */
export function phraseStrokes(hits: readonly PhraseHit[]): readonly PhraseStroke[] {
  const inOrder = hits
    .map((hit, index) => ({ time: hit.time, voice: hit.voice, velocity: hit.velocity, index, graces: [] }))
    .sort((a, b) => a.time - b.time || a.index - b.index);
  return withGraces(struckOnce(inOrder));
}

/** A voice that sounds again within the gap of a double trigger was struck once, as hard as the harder of the two. */
function struckOnce(strokes: readonly PhraseStroke[]): readonly PhraseStroke[] {
  const kept: PhraseStroke[] = [];
  for (const stroke of strokes) {
    const at = kept.findLastIndex(({ voice }) => voice === stroke.voice);
    const before = kept[at];
    if (!before || gapMs(before, stroke) > RETRIGGER_GAP_MS) kept.push(stroke);
    else if (stroke.velocity > before.velocity) kept[at] = { ...before, velocity: stroke.velocity };
  }
  return kept;
}

function withGraces(strokes: readonly PhraseStroke[]): readonly PhraseStroke[] {
  const graces = new Set<number>();
  const mains = strokes.toReversed().map((main) => {
    if (graces.has(main.index)) return main;
    const its = gracesOf(main, strokes);
    for (const index of its) graces.add(index);
    return { ...main, graces: its };
  });
  return mains.reverse().filter(({ index }) => !graces.has(index));
}

function gracesOf(main: PhraseStroke, strokes: readonly PhraseStroke[]): readonly number[] {
  const its: number[] = [];
  let after = main;
  for (let at = strokes.indexOf(main) - 1; at >= 0 && its.length < MOST_GRACES; at -= 1) {
    const soft = strokes[at];
    if (!soft || gapMs(soft, after) > LONGEST_GRACE_GAP_MS) break;
    if (familyOf(soft.voice) !== familyOf(main.voice)) continue;
    if (soft.velocity >= GRACE_SHARE * main.velocity) break;
    its.unshift(soft.index);
    after = soft;
  }
  return its;
}

function gapMs(before: PhraseStroke, after: PhraseStroke): Milliseconds {
  // Differences of seconds are not exact: a gap of just so much is included.
  return (after.time - before.time) * 1000 - 1e-6;
}
