/**
 * Question: how likely are these strokes under this groove, at this pulse, with beat one here?
 * Method: a groove is an inhomogeneous Poisson process, a rate for each role at each place of its bar. The log
 * likelihood of strokes is the sum of their log rates minus the total rate; all turns of the bar that are worth trying
 * are tried at once as a circular correlation of folded strokes with log rates.
 * Conventions: {@link PLACES_PER_BEAT} places a beat; arrays are row by row, `role * places + place` for rates and
 * `sound * places + place` for what was heard.
 */
import { ROLE_COUNT, ROLE_WEIGHTS, SOUND_COUNT, SOUND_ROLES, SOUND_WEIGHTS } from "./roles.ts";

/** The least that holds sixteenths and triplets. */
export const PLACES_PER_BEAT = 12;

/** Strokes per bar by role and place, of a groove that repeats after `beats` beats of its pulse. */
export interface BarModel {
  readonly beats: number;
  readonly places: number;
  /** Expected weighted strokes per repeat, by role. */
  readonly rates: Float64Array;
  /**
   * What a stroke of each sound meets: the weighted log rates of its roles, laid out for turning: each sound's row
   * backward and twice over, so that what one stroke meets at all turns lies side by side.
   */
  readonly turned: Float64Array;
  /**
   * The most a stroke of each sound can meet at each place of the beat, whichever beat is one: a sound's row of
   * places twice over, in the order of `turned`.
   */
  readonly most: Float64Array;
  /** Sum over roles of role weight times rates. */
  readonly total: number;
}

/** A stroke anywhere, by role, per beat: what any player adds without meaning it. Our choice. */
const FLOOR_PER_BEAT = 0.3;
/** By how much timing blurs a stroke whose tempo is not asked, as a standard deviation in places. Our choice. */
const BLUR_PLACES = 0.62;

/** A model of raw rates: the floor added, in strokes per beat over all roles. `rates` is not changed. */
export function barModel(rates: Float64Array, beats: number, floorPerBeat = FLOOR_PER_BEAT): BarModel {
  const places = beats * PLACES_PER_BEAT;
  const floor = floorPerBeat / (PLACES_PER_BEAT * ROLE_COUNT);
  const mixed = rates.map((rate) => rate + floor);
  const logs = mixed.map((rate) => Math.log(rate));
  const turned = new Float64Array(2 * SOUND_COUNT * places);
  SOUND_ROLES.forEach((roles, sound) => {
    for (let place = 0; place < places; place += 1) {
      const met = roles.reduce(
        (sum, role) => sum + (ROLE_WEIGHTS[role] ?? 0) * (logs[role * places + place] ?? 0),
        0,
      );
      // Met at turn 0 by the stroke at this place, and again a whole turn before or after.
      const row = turnedRow(sound, place, places);
      turned[row] = met;
      turned[place === 0 ? row - places : row + places] = met;
    }
  });
  const total = mixed.reduce((sum, rate, at) => sum + (ROLE_WEIGHTS[Math.floor(at / places)] ?? 0) * rate, 0);
  return { beats, places, rates: mixed, turned, most: mostByPlace(turned, places), total };
}

const BEAT_TWICE = 2 * PLACES_PER_BEAT;

function mostByPlace(turned: Float64Array, places: number): Float64Array {
  const most = new Float64Array(SOUND_COUNT * BEAT_TWICE).fill(Number.NEGATIVE_INFINITY);
  turned.forEach((met, row) => {
    const first = Math.floor(row / (2 * places)) * BEAT_TWICE + (row % PLACES_PER_BEAT);
    most[first] = Math.max(most[first] ?? 0, met);
    most[first + PLACES_PER_BEAT] = most[first] ?? 0;
  });
  return most;
}

/** Where in `turned` a stroke of this sound at this place finds its log rate at turn 0; those of the next turns follow. */
function turnedRow(sound: number, place: number, places: number): number {
  return 2 * sound * places + places - place;
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

/** Strokes by the beat of a pulse. */
export interface PulseStrokes {
  readonly beats: Float64Array;
  readonly sounds: Uint8Array;
  readonly weights: Float64Array;
}

/** Strokes folded onto one repeat: weighted counts by sound and place, with the list of places that are not empty. */
export interface Folded {
  readonly beats: number;
  readonly places: number;
  readonly counts: Float64Array;
  /** For each filled slot, its count, and where its rates begin in {@link BarModel.turned}. */
  readonly filledCounts: Float64Array;
  readonly filledRows: Int32Array;
  /** Sum of sound weight times count. */
  readonly mass: number;
  /** How many repeats the strokes cover. */
  readonly repeats: number;
}

/**
 * Folds strokes onto a repeat of `beats` beats, each to the place it is nearest to: of two as near, to the same one however
 * long the repeat is, so that folds of one take agree.
 */
export function fold(strokes: PulseStrokes, beats: number, spanBeats: number): Folded {
  const places = beats * PLACES_PER_BEAT;
  const counts = new Float64Array(SOUND_COUNT * places);
  const slots = new Int32Array(strokes.beats.length);
  let filled = 0;
  let mass = 0;
  for (let index = 0; index < strokes.beats.length; index += 1) {
    const turned = Math.round((strokes.beats[index] ?? 0) * PLACES_PER_BEAT) % places;
    const place = turned < 0 ? turned + places : turned;
    const sound = strokes.sounds[index] ?? 0;
    const weight = strokes.weights[index] ?? 0;
    const slot = sound * places + place;
    const before = counts[slot] ?? 0;
    if (before === 0 && weight > 0) {
      slots[filled] = slot;
      filled += 1;
    }
    counts[slot] = before + weight;
    mass += weight * (SOUND_WEIGHTS[sound] ?? 0);
  }
  const filledCounts = new Float64Array(filled);
  const filledRows = new Int32Array(filled);
  for (let at = 0; at < filled; at += 1) {
    const slot = slots[at] ?? 0;
    const sound = Math.floor(slot / places);
    filledCounts[at] = counts[slot] ?? 0;
    filledRows[at] = turnedRow(sound, slot - sound * places, places);
  }
  return {
    beats,
    places,
    counts,
    filledCounts,
    filledRows,
    mass,
    repeats: spanBeats / beats,
  };
}

/** Which turns of a bar are tried: beat one on any of its beats, the beat beginning at any of these places. */
export interface Turns {
  readonly beats: number;
  /** Places within a beat. */
  readonly phases: readonly number[];
}

/** The turn, in places, with this number in the order {@link scoreTurns} has them: phase by phase, beat by beat. */
export function turnAt({ beats, phases }: Turns, index: number): number {
  return (phases[Math.floor(index / beats)] ?? 0) + (index % beats) * PLACES_PER_BEAT;
}

/**
 * Log likelihood of the folded strokes at each of the turns, in the order of {@link turnAt}: at a turn the model's first
 * place stands that many places after the fold's. The density is per beat, so models of different lengths compare; add
 * `−mass · log(seconds per beat)` to compare pulses.
 *
 * @param scores room for `phases · beats` numbers.
 */
export function scoreTurns(
  model: BarModel,
  folded: Folded,
  phases: readonly number[],
  scores: Float64Array,
): void {
  phases.forEach((phase, index) => {
    scorePhase(model, folded, phase, scores, index * model.beats);
  });
}

/** The same for the turns of one phase, written into `scores` from `at` on. */
export function scorePhase(
  model: BarModel,
  folded: Folded,
  phase: number,
  scores: Float64Array,
  from = 0,
): void {
  const { turned, beats } = model;
  const { filledCounts, filledRows } = folded;
  const nothing = scoreOfNothing(model, folded);
  let beat = 0;
  // Two beats at once, their sums in registers: listening spends much of its time here.
  for (; beat + 1 < beats; beat += 2) {
    const turn = phase + beat * PLACES_PER_BEAT;
    let one = nothing;
    let other = nothing;
    for (let at = 0; at < filledRows.length; at += 1) {
      const count = filledCounts[at] ?? 0;
      const rate = (filledRows[at] ?? 0) + turn;
      one += count * (turned[rate] ?? 0);
      other += count * (turned[rate + PLACES_PER_BEAT] ?? 0);
    }
    scores[from + beat] = one;
    scores[from + beat + 1] = other;
  }
  if (beat < beats) {
    const turn = phase + beat * PLACES_PER_BEAT;
    let sum = nothing;
    for (let at = 0; at < filledRows.length; at += 1) {
      sum += (filledCounts[at] ?? 0) * (turned[(filledRows[at] ?? 0) + turn] ?? 0);
    }
    scores[from + beat] = sum;
  }
}

/**
 * No turn of these phases, four at most, scores more than this, phase by phase. Costs a small part of scoring them.
 *
 * @param onBeat the strokes folded onto one beat.
 */
export function mostOfPhases(
  model: BarModel,
  onBeat: Folded,
  [first = 0, second = first, third = first, fourth = first]: readonly number[],
): readonly number[] {
  const { most } = model;
  // Where what a stroke of such a fold meets begins in `turned`, it begins in `most`.
  const { filledCounts, filledRows } = onBeat;
  const nothing = scoreOfNothing(model, onBeat);
  let one = nothing;
  let two = nothing;
  let three = nothing;
  let four = nothing;
  for (let at = 0; at < filledRows.length; at += 1) {
    const count = filledCounts[at] ?? 0;
    const row = filledRows[at] ?? 0;
    one += count * (most[row + first] ?? 0);
    two += count * (most[row + second] ?? 0);
    three += count * (most[row + third] ?? 0);
    four += count * (most[row + fourth] ?? 0);
  }
  return [one, two, three, four];
}

/** However the strokes are folded. */
function scoreOfNothing(model: BarModel, { mass, beats, repeats }: Folded): number {
  return mass * Math.log(PLACES_PER_BEAT) - ((repeats * beats) / model.beats) * model.total;
}
