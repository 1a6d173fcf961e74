/**
 * Question: in what is a take like a groove, and in what not, once it is laid on it?
 * Method: part by part, the strokes heard where the groove has none and the strokes of the groove that were not heard.
 * The likelihood of `barModel.ts` weighs every stroke by its part alone; with these figures `certainty.ts` can weigh a
 * kick that should not be there otherwise than a cymbal that is missing.
 */

import type { BarModel, Folded } from "./barModel.ts";
import { numberOf, SOUND_ROLES } from "./roles.ts";

/** Parts compared: kick, back-beat, time-keeper, and what colours them. */
const PARTS: readonly (readonly number[])[] = [
  [numberOf("kick")],
  [numberOf("back-beat")],
  [numberOf("time-keeper")],
  [numberOf("toms"), numberOf("crash"), numberOf("pedal")],
];

/** Weighted strokes a beat of one part. */
export interface PartLikeness {
  /** Heard, where the groove has none. */
  readonly unexplained: number;
  /** The groove's, not heard. */
  readonly missing: number;
  /** Heard where the groove has them. */
  readonly shared: number;
}

/**
 * How a take lies on a groove, by part in the order kick, back-beat, time-keeper, colour.
 *
 * @param laid the take folded to the length of the groove, and where the groove begins in it.
 */
export function likeness(
  model: BarModel,
  { folded, turn }: { readonly folded: Folded; readonly turn: number },
): readonly PartLikeness[] {
  const { places } = model;
  return PARTS.map((roles) => {
    const heard = new Float64Array(places);
    const expected = new Float64Array(places);
    for (const role of roles) {
      SOUND_ROLES.forEach((played, sound) => {
        if (!played.includes(role)) return;
        for (let place = 0; place < places; place += 1) {
          const count = folded.counts[sound * places + ((place + turn) % places)] ?? 0;
          heard[place] = (heard[place] ?? 0) + count / folded.repeats;
        }
      });
      for (let place = 0; place < places; place += 1) {
        expected[place] = (expected[place] ?? 0) + (model.rates[role * places + place] ?? 0);
      }
    }
    return compared(blurred(heard), blurred(expected), model.beats);
  });
}

/** The mean of several, part by part. */
export function meanLikeness(several: readonly (readonly PartLikeness[])[]): readonly PartLikeness[] {
  return PARTS.map((_, part) => {
    const mean = (of: keyof PartLikeness): number =>
      several.reduce((sum, one) => sum + (one[part]?.[of] ?? 0), 0) / several.length;
    return { unexplained: mean("unexplained"), missing: mean("missing"), shared: mean("shared") };
  });
}

function compared(heard: Float64Array, expected: Float64Array, beats: number): PartLikeness {
  let unexplained = 0;
  let missing = 0;
  let shared = 0;
  heard.forEach((count, place) => {
    const rate = expected[place] ?? 0;
    shared += Math.min(count, rate);
    if (count > rate) unexplained += count - rate;
    else missing += rate - count;
  });
  return { unexplained: unexplained / beats, missing: missing / beats, shared: shared / beats };
}

/** Timing moves a stroke by a place: each is spread over its neighbours. */
function blurred(strokes: Float64Array): Float64Array {
  const places = strokes.length;
  return strokes.map((own, place) => {
    const before = strokes[(place + places - 1) % places] ?? 0;
    const after = strokes[(place + 1) % places] ?? 0;
    return (before + own + after) / 3;
  });
}
