/**
 * Question: which voices, at which places, spoke for this groove and which against it?
 * Method: the log likelihood ratio of the groove against grooves in general, split by role and place.
 */
import type { Voice } from "../kit/index.ts";
import type { Background } from "./background.ts";
import { type BarModel, type Folded, PLACES_PER_BEAT } from "./barModel.ts";
import type { Evidence } from "./hearing.ts";
import type { Placing } from "./placing.ts";
import { ROLE_COUNT, ROLE_VOICES, ROLE_WEIGHTS, SOUND_ROLES } from "./roles.ts";

/** Pieces of evidence told of each side, at most. Our choice. */
const MOST_TOLD = 6;
/** Below this the voice and place said next to nothing, in natural-log units. Our choice. */
const LEAST_TOLD = 0.4;
/** Places this near belong to one written stroke. */
const REACH_PLACES = 2;
/** Fewer strokes a bar, heard and expected together, are not told. Our choice. */
const LEAST_STROKES = 0.1;

/** The strongest evidence on both sides, strongest first. */
export function evidenceFor(
  model: BarModel,
  placing: Placing,
  general: Background,
): { readonly spokeFor: readonly Evidence[]; readonly spokeAgainst: readonly Evidence[] } {
  const all: Evidence[] = [];
  for (let role = 0; role < ROLE_COUNT; role += 1) {
    // Roles without a voice of their own are told through the part they belong to.
    if (ROLE_VOICES[role]?.length) all.push(...ofRole(role, model, placing, general));
  }
  const strongest = (sign: 1 | -1): Evidence[] =>
    all
      .filter(({ weight }) => weight * sign >= LEAST_TOLD)
      .sort((a, b) => (b.weight - a.weight) * sign)
      .slice(0, MOST_TOLD);
  return { spokeFor: strongest(1), spokeAgainst: strongest(-1) };
}

function ofRole(role: number, model: BarModel, placing: Placing, general: Background): readonly Evidence[] {
  const { places } = model;
  const { folded, turn } = placing;
  const average = general.average.get(model.beats) ?? general.average.get(4) ?? new Float64Array();
  const averagePlaces = average.length / ROLE_COUNT;
  const heard = new Float64Array(places);
  const expected = new Float64Array(places);
  const weight = new Float64Array(places);
  for (let place = 0; place < places; place += 1) {
    const count = heardInRole(folded, role, (place + turn) % places);
    const rate = model.rates[role * places + place] ?? 0;
    const usual = average[role * averagePlaces + (place % averagePlaces)] ?? rate;
    heard[place] = count / folded.repeats;
    expected[place] = rate;
    weight[place] =
      (ROLE_WEIGHTS[role] ?? 1) * (count * Math.log(rate / usual) - folded.repeats * (rate - usual));
  }
  return peaks(heard, expected).map((peak) => ({
    voice: voiceThere(role, model, placing, peak),
    place: peak / PLACES_PER_BEAT,
    heardPerBar: around(heard, peak),
    expectedPerBar: around(expected, peak),
    weight: around(weight, peak),
  }));
}

function heardInRole({ counts, places }: Folded, role: number, place: number): number {
  return SOUND_ROLES.reduce(
    (sum, roles, sound) => (roles.includes(role) ? sum + (counts[sound * places + place] ?? 0) : sum),
    0,
  );
}

/** Of the voices that can play the role, the one most heard or expected there. */
function voiceThere(role: number, model: BarModel, placing: Placing, place: number): Voice {
  const { places } = model;
  const strength = (detail: number): number => {
    const heard = Float64Array.from({ length: places }, (_, at) => heardInRole(placing.folded, detail, at));
    const expected = model.rates.subarray(detail * places, (detail + 1) * places);
    return around(heard, (place + placing.turn) % places) / placing.folded.repeats + around(expected, place);
  };
  const voices = [...(ROLE_VOICES[role] ?? [])].sort((a, b) => strength(b.role) - strength(a.role));
  return voices[0]?.voice ?? "unknown";
}

function peaks(heard: Float64Array, expected: Float64Array): readonly number[] {
  const strength = heard.map((count, place) => count + (expected[place] ?? 0));
  const order = Array.from(strength.keys()).sort((a, b) => (strength[b] ?? 0) - (strength[a] ?? 0));
  const kept: number[] = [];
  for (const place of order) {
    if ((strength[place] ?? 0) < LEAST_STROKES) break;
    const apart = (other: number): number => {
      const distance = Math.abs(place - other);
      return Math.min(distance, strength.length - distance);
    };
    if (kept.every((other) => apart(other) >= REACH_PLACES)) kept.push(place);
  }
  return kept;
}

function around(values: Float64Array, place: number): number {
  let sum = 0;
  for (let offset = 1 - REACH_PLACES; offset < REACH_PLACES; offset += 1) {
    sum += values[(place + offset + values.length) % values.length] ?? 0;
  }
  return sum;
}
