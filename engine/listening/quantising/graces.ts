/**
 * Question: which strokes are the grace strokes of a flam or a drag, and belong to the stroke after them?
 * Source: gaps of written-out flams in the Groove MIDI Dataset, 13, 26 and 51 ms at the 10th, 50th and 90th percentile.
 */
import type { Hit } from "../../kit/index.ts";
import type { Ornament } from "../../score/index.ts";
import type { Seconds } from "../../units/index.ts";

/** A stroke that is written by itself, with its grace strokes folded into it. */
export interface MainStroke {
  /** Of the hits that were given. */
  readonly hitIndex: number;
  readonly hit: Hit;
  readonly ornament?: Ornament;
}

/** A grace stroke comes within this before the next stroke of its voice. */
const LONGEST_GAP: Seconds = 0.06;
/** It is softer than this share of the stroke it leads to. Our choice. */
const SOFTER = 0.75;
/** So near, it is one however strong: nobody writes so short a note. Our choice: a 64th at 107 a minute. */
const ANY_STRENGTH_GAP: Seconds = 0.035;
const MOST_GRACES = 2;

/**
 * The strokes to be written, in order of time.
 *
 * @param hits in order of time; retriggers already taken out.
 */
export function mainStrokes(hits: readonly Hit[]): readonly MainStroke[] {
  const mains: MainStroke[] = [];
  const graces = new Set<number>();
  for (let index = hits.length - 1; index >= 0; index -= 1) {
    const hit = hits[index];
    if (!hit || graces.has(index)) continue;
    const own = gracesOf(hits, index);
    for (const grace of own) graces.add(grace);
    const ornament = own.length === 0 ? {} : ({ ornament: own.length === 1 ? "flam" : "drag" } as const);
    mains.push({ hitIndex: index, hit, ...ornament });
  }
  return mains.reverse();
}

/** Indices of the grace strokes of the stroke at `main`. */
function gracesOf(hits: readonly Hit[], main: number): readonly number[] {
  const found: number[] = [];
  const { time = 0, voice, velocity = 0 } = hits[main] ?? {};
  let before = time;
  for (let index = main - 1; index >= 0 && found.length < MOST_GRACES; index -= 1) {
    const hit = hits[index];
    if (!hit || before - hit.time > LONGEST_GAP) break;
    if (hit.voice !== voice) continue;
    if (hit.velocity >= SOFTER * velocity && before - hit.time > ANY_STRENGTH_GAP) break;
    found.push(index);
    before = hit.time;
  }
  return found;
}
