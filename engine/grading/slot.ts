/**
 * What a pairing of hits with written strokes is made of, and what it costs.
 */
import type { Voice } from "../kit/index.ts";
import type { Seconds } from "../units/index.ts";

/** Anything that sounds at a moment; both sides of an alignment are in order of time and on one clock. */
export interface Sounded {
  readonly time: Seconds;
  readonly voice: Voice;
}

/** A pair, a hit left over (`note` undefined), or a note left out (`hit` undefined). */
export interface Slot<N extends Sounded, H extends Sounded> {
  readonly hit: H | undefined;
  readonly note: N | undefined;
}

/** What a pair costs, in gaps. */
export interface PairCost {
  /** A difference of this much in time costs one gap. */
  readonly scaleSeconds: Seconds;
  /** Added when hit and note sound on different voices. */
  readonly otherVoice: number;
}

/** Price of one hit or note left over: the unit of cost. */
export const GAP = 1;

/**
 * Costs inside a family of voices. 60 ms a gap lets a stroke on its own voice be found up to 120 ms away, a
 * sixteenth at 125 beats a minute: further off a listener hears another place of the bar. Where written strokes
 * stand closer than that, their order decides. Another voice of the family costs half a gap, 30 ms: when two
 * strokes are that close together, sound tells them apart better than time. Our choice.
 */
export const WITHIN_FAMILY: PairCost = { scaleSeconds: 0.06, otherVoice: 0.5 };

/**
 * Costs between families, for what is left over: at most 70 ms apart. Tighter than inside a family because the
 * sound no longer speaks for the pair; 70 ms is also the window of the beat F-measure (Davies, Degara & Plumbley
 * 2009). The voice is always another, so it costs nothing to say so.
 */
export const ACROSS_FAMILIES: PairCost = { scaleSeconds: 0.035, otherVoice: 0 };

/**
 * The cost of one slot, in gaps.
 *
 * @example
 * slotCost({ hit: { time: 1.03, voice: "snare" }, note: { time: 1, voice: "snare" } }, WITHIN_FAMILY) // => 0.5
 */
export function slotCost({ hit, note }: Slot<Sounded, Sounded>, cost: PairCost): number {
  if (hit && note) return pairCost(hit, note, cost);
  return hit || note ? GAP : 0;
}

/** The cost of a pair, in gaps. */
export function pairCost(hit: Sounded, note: Sounded, { scaleSeconds, otherVoice }: PairCost): number {
  return Math.abs(hit.time - note.time) / scaleSeconds + (hit.voice === note.voice ? 0 : otherVoice);
}

/** When a slot sounds: its hit's moment, or its note's where nothing was heard. */
export function slotTime({ hit, note }: Slot<Sounded, Sounded>): Seconds {
  return hit?.time ?? note?.time ?? Number.NEGATIVE_INFINITY;
}
