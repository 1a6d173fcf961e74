/**
 * Question: how likely are these strokes under this groove, at this pulse, with beat one here?
 * Method: a groove is an inhomogeneous Poisson process, a rate for each role at each place of its bar. The log
 * likelihood of strokes is the sum of their log rates minus the total rate; all turns of the bar are tried at
 * once as a circular correlation of folded strokes with log rates.
 * Conventions: {@link PLACES_PER_BEAT} places a beat; arrays are role-major, `role * places + place`.
 */
import type { Seconds } from "../units/index.ts";
import { ROLE_COUNT, ROLE_WEIGHTS } from "./roles.ts";

/** The least that holds sixteenths and triplets. */
export const PLACES_PER_BEAT = 12;

/** Strokes per bar by role and place, of a groove that repeats after `beats` beats. */
export interface BarModel {
  readonly beats: number;
  readonly places: number;
  /** Expected weighted strokes per repeat. */
  readonly rates: Float64Array;
  /**
   * Role weight times log rate, laid out for turning: each role's row backward and twice over, so that what one
   * stroke meets at all turns lies side by side.
   */
  readonly turned: Float64Array;
  /** Sum over roles of role weight times rates. */
  readonly total: number;
  /** The model is meant for pulses with this many seconds a beat; any, when left out. */
  readonly forBeatSeconds?: { readonly from: Seconds; readonly below: Seconds };
}

/** A stroke anywhere, by role, per beat: what any player adds without meaning it. Our choice. */
const FLOOR_PER_BEAT = 0.3;
/** By how much timing blurs a stroke whose tempo is not asked, as a standard deviation in places. Our choice. */
const BLUR_PLACES = 0.62;

/** A model of raw rates: the floor added, in strokes per beat over all roles. `rates` is not changed. */
export function barModel(rates: Float64Array, beats: number, floorPerBeat = FLOOR_PER_BEAT): BarModel {
  const places = beats * PLACES_PER_BEAT;
  const mixed = Float64Array.from(rates);
  const floor = floorPerBeat / (PLACES_PER_BEAT * ROLE_COUNT);
  const turned = new Float64Array(2 * mixed.length);
  let total = 0;
  for (let role = 0; role < ROLE_COUNT; role += 1) {
    const weight = ROLE_WEIGHTS[role] ?? 1;
    for (let place = 0; place < places; place += 1) {
      const at = role * places + place;
      const rate = (mixed[at] ?? 0) + floor;
      mixed[at] = rate;
      total += weight * rate;
      // Met at turn 0 by the stroke at this place, and again a whole turn before or after.
      const row = turnedRow(at, places);
      turned[row] = weight * Math.log(rate);
      turned[place === 0 ? row - places : row + places] = weight * Math.log(rate);
    }
  }
  return { beats, places, rates: mixed, turned, total };
}

/** Where in `turned` a stroke in this slot finds its log rate at turn 0; those of the next turns follow. */
function turnedRow(slot: number, places: number): number {
  const place = slot % places;
  return 2 * (slot - place) + places - place;
}

/** Places on either side that a blurred stroke reaches: nearly three of the widest standard deviations in use. */
const BLUR_REACH = 3;

/** Adds one stroke to raw rates, blurred over neighbouring places. `place` may have a fraction. */
export function addBlurred(
  rates: Float64Array,
  at: { readonly places: number; readonly role: number; readonly place: number },
  amount: number,
  blurPlaces = BLUR_PLACES,
): void {
  const centre = Math.round(at.place);
  let sum = 0;
  const kernel: number[] = [];
  for (let offset = -BLUR_REACH; offset <= BLUR_REACH; offset += 1) {
    const value = Math.exp(-0.5 * ((centre + offset - at.place) / blurPlaces) ** 2);
    kernel.push(value);
    sum += value;
  }
  kernel.forEach((value, index) => {
    const place = (((centre + index - BLUR_REACH) % at.places) + at.places) % at.places;
    const slot = at.role * at.places + place;
    rates[slot] = (rates[slot] ?? 0) + (amount * value) / sum;
  });
}

/** Slots with less than this hold only what rounding left there. */
const LEAST_COUNT = 1e-3;

/** Strokes folded onto one repeat: weighted counts by role and place, with the list of places that are not empty. */
export interface Folded {
  readonly beats: number;
  readonly places: number;
  readonly counts: Float64Array;
  readonly filled: Int32Array;
  /** For each filled slot, its count, and where its rates begin in {@link BarModel.turned}. */
  readonly filledCounts: Float64Array;
  readonly filledRows: Int32Array;
  /** Sum of role weight times count. */
  readonly mass: number;
  /** How many repeats the strokes cover. */
  readonly repeats: number;
}

/** Folds strokes, given by beat, role and weight, onto a repeat of `beats` beats. */
export function fold(
  strokes: { readonly beats: Float64Array; readonly roles: Uint8Array; readonly weights: Float64Array },
  beats: number,
  spanBeats: number,
): Folded {
  const places = beats * PLACES_PER_BEAT;
  const counts = new Float64Array(ROLE_COUNT * places);
  let mass = 0;
  for (let index = 0; index < strokes.beats.length; index += 1) {
    const repeat = (strokes.beats[index] ?? 0) / beats;
    const place = (repeat - Math.floor(repeat)) * places;
    const low = Math.floor(place);
    const share = place - low;
    const role = strokes.roles[index] ?? 0;
    const weight = strokes.weights[index] ?? 0;
    const first = role * places + (low % places);
    const second = role * places + ((low + 1) % places);
    counts[first] = (counts[first] ?? 0) + weight * (1 - share);
    counts[second] = (counts[second] ?? 0) + weight * share;
    mass += weight * (ROLE_WEIGHTS[role] ?? 1);
  }
  const slots: number[] = [];
  for (let slot = 0; slot < counts.length; slot += 1) {
    if ((counts[slot] ?? 0) > LEAST_COUNT) slots.push(slot);
  }
  const filled = Int32Array.from(slots);
  return {
    beats,
    places,
    counts,
    filled,
    filledCounts: Float64Array.from(filled, (slot) => counts[slot] ?? 0),
    filledRows: filled.map((slot) => turnedRow(slot, places)),
    mass,
    repeats: spanBeats / beats,
  };
}

/**
 * Log likelihood of the folded strokes at every turn: `scores[turn]` has the model's first place `turn` places
 * after the fold's. The density is per beat, so models of different lengths compare; add `−mass · log(seconds
 * per beat)` to compare pulses.
 */
export function scoreTurns(model: BarModel, folded: Folded, scores: Float64Array): void {
  const { turned } = model;
  const { filledCounts, filledRows } = folded;
  const nothing = folded.mass * Math.log(PLACES_PER_BEAT) - folded.repeats * model.total;
  // Four turns at once (places are a multiple of four), their sums in registers: listening spends half its time here.
  for (let turn = 0; turn < model.places; turn += 4) {
    let first = nothing;
    let second = nothing;
    let third = nothing;
    let fourth = nothing;
    for (let at = 0; at < filledRows.length; at += 1) {
      const count = filledCounts[at] ?? 0;
      const rate = (filledRows[at] ?? 0) + turn;
      first += count * (turned[rate] ?? 0);
      second += count * (turned[rate + 1] ?? 0);
      third += count * (turned[rate + 2] ?? 0);
      fourth += count * (turned[rate + 3] ?? 0);
    }
    scores[turn] = first;
    scores[turn + 1] = second;
    scores[turn + 2] = third;
    scores[turn + 3] = fourth;
  }
}
