/**
 * Question: in what is a take like a groove, and in what not, once it is laid on it?
 * Method: part by part, the strokes heard where the groove has none and the strokes of the groove that were not heard.
 * The likelihood of `barModel.ts` weighs every stroke by its part alone; with these figures `certainty.ts` can weigh a
 * kick that should not be there otherwise than a cymbal that is missing.
 */

import { type BarModel, PLACES_PER_BEAT } from "./barModel.ts";
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
  /**
   * Heard nearly always where the groove has next to none: what no habit explains. Told at the place of the stroke and at the
   * two beside it, so three times over.
   */
  readonly intruding: number;
  /** The groove's nearly always, and next to never heard; likewise three times over. */
  readonly absent: number;
}

/** A groove, or a take of it, by role and place: what a {@link BarModel} has of it. */
export type Rates = Pick<BarModel, "beats" | "places" | "rates">;

/** The strokes of a take on the beats of a groove. */
export interface HeardByBeat {
  /** Weighted strokes: `sound * places + place`, places from where the groove begins. */
  readonly counts: Float64Array;
  /** How often each beat of the groove was heard. */
  readonly exposures: Float64Array;
}

/**
 * How a take lies on a groove, by part in the order kick, back-beat, time-keeper, colour. What was heard of a beat of the
 * groove more often counts for more.
 */
export function likeness(groove: Rates, { counts, exposures }: HeardByBeat): readonly PartLikeness[] {
  const { beats, places, rates } = groove;
  const usual = exposures.reduce((sum, exposure) => sum + exposure, 0) / beats;
  const exposureAt = (place: number): number => exposures[Math.floor(place / PLACES_PER_BEAT)] ?? 0;
  const share = Float64Array.from({ length: places }, (_, place) =>
    exposureAt(place) < LEAST_EXPOSURE ? 0 : exposureAt(place) / usual,
  );
  return PARTS.map((roles) => {
    const heard = new Float64Array(places);
    const expected = new Float64Array(places);
    for (const role of roles) {
      SOUND_ROLES.forEach((played, sound) => {
        if (!played.includes(role)) return;
        for (let place = 0; place < places; place += 1) {
          if (share[place] === 0) continue;
          heard[place] = (heard[place] ?? 0) + (counts[sound * places + place] ?? 0) / exposureAt(place);
        }
      });
      for (let place = 0; place < places; place += 1) {
        expected[place] = (expected[place] ?? 0) + (rates[role * places + place] ?? 0);
      }
    }
    const heardAround = aroundEach(heard);
    const expectedAround = aroundEach(expected);
    return {
      ...compared(blurred(heardAround), blurred(expectedAround), share, beats),
      ...contradictions(heardAround, expectedAround, share, beats),
    };
  });
}

/** A beat heard less often, in times, says nothing. Our choice. */
export const LEAST_EXPOSURE = 0.05;

/** The mean of several, part by part. */
export function meanLikeness(several: readonly (readonly PartLikeness[])[]): readonly PartLikeness[] {
  return PARTS.map((_, part) => {
    const mean = (of: keyof PartLikeness): number =>
      several.reduce((sum, one) => sum + (one[part]?.[of] ?? 0), 0) / several.length;
    return {
      unexplained: mean("unexplained"),
      missing: mean("missing"),
      shared: mean("shared"),
      intruding: mean("intruding"),
      absent: mean("absent"),
    };
  });
}

type Compared = Pick<PartLikeness, "unexplained" | "missing" | "shared">;

/** @param share how much each place counts, 1 on the average. */
function compared(heard: Float64Array, expected: Float64Array, share: Float64Array, beats: number): Compared {
  let unexplained = 0;
  let missing = 0;
  let shared = 0;
  heard.forEach((count, place) => {
    const rate = expected[place] ?? 0;
    const counting = share[place] ?? 0;
    shared += counting * Math.min(count, rate);
    if (count > rate) unexplained += counting * (count - rate);
    else missing += counting * (rate - count);
  });
  return { unexplained: unexplained / beats, missing: missing / beats, shared: shared / beats };
}

/** Habits move a stroke's share of the repeats by about so much; only what goes beyond contradicts. Our choice. */
const HABITS = 0.45;

/** Two players of a groove differ by a little at many places; two grooves differ by nearly all at a few. */
function contradictions(
  heard: Float64Array,
  expected: Float64Array,
  share: Float64Array,
  beats: number,
): Pick<PartLikeness, "intruding" | "absent"> {
  let intruding = 0;
  let absent = 0;
  heard.forEach((count, place) => {
    const apart = Math.min(1, count) - Math.min(1, expected[place] ?? 0);
    const counting = share[place] ?? 0;
    intruding += counting * Math.max(0, apart - HABITS);
    absent += counting * Math.max(0, -apart - HABITS);
  });
  return { intruding: intruding / beats, absent: absent / beats };
}

/** Timing moves a stroke by a place: each is spread over its neighbours. */
function blurred(around: Float64Array): Float64Array {
  return around.map((sum) => sum / 3);
}

/** The strokes at each place and at the two beside it. */
function aroundEach(strokes: Float64Array): Float64Array {
  const places = strokes.length;
  const sums = new Float64Array(places);
  let before = strokes[places - 1] ?? 0;
  let own = strokes[0] ?? 0;
  for (let place = 0; place < places; place += 1) {
    const after = strokes[place + 1 === places ? 0 : place + 1] ?? 0;
    sums[place] = before + own + after;
    before = own;
    own = after;
  }
  return sums;
}
