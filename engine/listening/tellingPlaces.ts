/**
 * Question: at which places of the bar, in which part, does this groove say another thing of the take than that one?
 * Method: both grooves are laid on the take, each where it lies best; what each expects and what was heard is counted by
 * the places of the first groove's bar as they are counted aloud, and weighed by the log likelihood ratio of a Poisson
 * process, part by part.
 */
import type { Voice } from "../kit/index.ts";
import { beatsPerBar, type Groove, grooveBeats, isCompound, type Metre, playedBeat } from "../score/index.ts";
import { toNumber } from "../units/index.ts";
import { PLACES_PER_BEAT } from "./barModel.ts";
import { isCounted } from "./countedPlaces.ts";
import { type GrooveModel, type KnownGroove, variantOf } from "./knownGroove.ts";
import type { Placing } from "./placing.ts";
import { foldedOnce, type PulseHypothesis } from "./pulse.ts";
import { numberOf, ROLE_COUNT, ROLE_VOICES, ROLE_WEIGHTS, rolesOf, SOUND_ROLES } from "./roles.ts";

/** A known groove where it lies best. */
export interface Laid {
  readonly known: KnownGroove;
  readonly model: GrooveModel;
  readonly placing: Placing;
}

/** Parts that are told, each with the roles that belong to it: its own first. */
const PARTS: readonly (readonly number[])[] = [
  ["kick" as const],
  ["back-beat" as const, "snare" as const, "cross-stick" as const],
  ["time-keeper" as const, "closed hi-hat" as const, "open hi-hat" as const, "ride" as const],
  ["toms" as const, "high tom" as const, "mid tom" as const, "floor tom" as const],
  ["pedal" as const],
  ["crash" as const],
].map((roles) => roles.map(numberOf));

/** Strokes a round of the bar, by role and counted place: `role * places + place`. */
type Counts = Float64Array;

/** A take on the bar of one groove. */
export interface CountedBar {
  /** Felt beats of the counted places, in order. */
  readonly places: readonly number[];
  /** Whether each can be counted aloud. */
  readonly counted: readonly boolean[];
  readonly metre: Metre;
  /** Bars until it comes round. */
  readonly bars: number;
  /** Beats of the pulse until it comes round. */
  readonly beatsOfPulse: number;
  /** Rounds that were played. */
  readonly rounds: number;
  readonly heard: Counts;
  readonly expected: Counts;
  /** The counted place of a moment of the groove's pulse, in beats of its map. */
  readonly placeOf: (beat: number) => number;
}

/** A place that is this near to a written stroke, in places, is its own. */
const REACH_PLACES = 1.5;

/** Lays a take on the bar of a groove. */
export function countedBar({ known, model, placing }: Laid): CountedBar {
  const { feltPerPulse } = model;
  const written = variantOf(model);
  const metre = written?.metre ?? known.metre;
  const length = written ? grooveBeats(written) : model.beats * feltPerPulse;
  const shares = sharesHeard(placing, metre, written, feltPerPulse);
  const { places, placeOfPlace } = countedPlaces(written, shares, length, feltPerPulse);
  const around = placeOfPlace.length;
  const placeOf = (beat: number): number => {
    const place = Math.round(beat * PLACES_PER_BEAT - placing.turn);
    return placeOfPlace[((place % around) + around) % around] ?? 0;
  };
  const { beats, sounds } = placing.pulse.strokes;
  const rounds = Math.max(1, (placing.pulse.spanBeats * feltPerPulse) / length);
  const heard = new Float64Array(ROLE_COUNT * places.length);
  beats.forEach((beat, index) => {
    const place = placeOf(beat);
    for (const role of SOUND_ROLES[sounds[index] ?? -1] ?? [])
      addTo(heard, role * places.length + place, 1 / rounds);
  });
  const expected = new Float64Array(ROLE_COUNT * places.length);
  const roundsOfModel = (model.beats * feltPerPulse) / length;
  for (let place = 0; place < model.places; place += 1) {
    const at = placeOfPlace[place % around] ?? 0;
    for (let role = 0; role < ROLE_COUNT; role += 1)
      addTo(
        expected,
        role * places.length + at,
        (model.rates[role * model.places + place] ?? 0) / roundsOfModel,
      );
  }
  const bars = Math.max(1, Math.round(length / beatsPerBar(metre)));
  const counted = places.map((place) => isCounted(place, metre));
  const beatsOfPulse = length / feltPerPulse;
  return { places, counted, metre, bars, beatsOfPulse, rounds, heard, expected, placeOf };
}

/** The places of a groove's bar as they are counted, and for each of the model's places the one it is counted as. */
interface CountedPlaces {
  readonly places: readonly number[];
  readonly placeOfPlace: readonly number[];
}

/** By the groove, and by how its beats are divided and laid on the pulse: live, the same are asked for at every beat. */
const placesKnown = new WeakMap<Groove, Map<string, CountedPlaces>>();

function countedPlaces(
  written: Groove | undefined,
  shares: readonly number[],
  length: number,
  feltPerPulse: number,
): CountedPlaces {
  if (!written) return placesCounted(written, shares, length, feltPerPulse);
  const ofGroove = placesKnown.get(written) ?? new Map<string, CountedPlaces>();
  placesKnown.set(written, ofGroove);
  const way = `${shares.length} ${feltPerPulse}`;
  const known = ofGroove.get(way) ?? placesCounted(written, shares, length, feltPerPulse);
  ofGroove.set(way, known);
  return known;
}

function placesCounted(
  written: Groove | undefined,
  shares: readonly number[],
  length: number,
  feltPerPulse: number,
): CountedPlaces {
  const notes = written?.notes.map(({ position }) => toNumber(position)) ?? [];
  const own = [...new Set(notes)].map((position) => ({
    position,
    at: written ? playedBeat(written.feel, position) : position,
  }));
  const reach = (REACH_PLACES * feltPerPulse) / PLACES_PER_BEAT;
  const around = Math.round((length * PLACES_PER_BEAT) / feltPerPulse);
  const counted = Array.from({ length: around }, (_, place) => {
    const felt = (place * feltPerPulse) / PLACES_PER_BEAT;
    const apart = (at: number): number => Math.abs(felt - at - length * Math.round((felt - at) / length));
    const nearest = own.reduce<(typeof own)[number] | undefined>(
      (best, one) => (best && apart(best.at) <= apart(one.at) ? best : one),
      undefined,
    );
    if (nearest && apart(nearest.at) <= reach) return nearest.position;
    return snapped(felt, shares) % length;
  });
  const places = [...new Set(counted)].sort((a, b) => a - b);
  return { places, placeOfPlace: counted.map((place) => places.indexOf(place)) };
}

/** The nearest of the places a beat is divided at. */
function snapped(felt: number, shares: readonly number[]): number {
  const beat = Math.floor(felt);
  const share = felt - beat;
  const nearest = [...shares, 1].reduce((best, one) =>
    Math.abs(one - share) < Math.abs(best - share) ? one : best,
  );
  return beat + nearest;
}

/** Places of twelve a beat that only a beat in threes has, and those that only a beat in fours has. */
const THIRDS = [4, 8];
const FOURTHS = [3, 9];

/**
 * Where a beat is divided: in threes (the sixths between are never told) or in fours, as it is written or, where it is
 * written straight, as most strokes have it: a stroke a little late in a straight take is no triplet.
 */
function sharesHeard(
  { pulse, turn }: Placing,
  metre: Metre,
  written: Groove | undefined,
  feltPerPulse: number,
): readonly number[] {
  const feel = written?.feel;
  if (isCompound(metre) || (feel?.kind === "swung" && feel.written !== "sixteenths")) return SIXTHS;
  let inThrees = 0;
  for (const beat of pulse.strokes.beats) {
    const felt = (beat - turn / PLACES_PER_BEAT) * feltPerPulse;
    const place = Math.round((felt - Math.floor(felt)) * PLACES_PER_BEAT);
    if (THIRDS.includes(place)) inThrees += 1;
    if (FOURTHS.includes(place)) inThrees -= 1;
  }
  return inThrees > 0 ? SIXTHS : QUARTERS;
}
const SIXTHS = [0, 1 / 6, 1 / 3, 1 / 2, 2 / 3, 5 / 6];
const QUARTERS = [0, 1 / 4, 1 / 2, 3 / 4];

function addTo(counts: Counts, at: number, amount: number): void {
  counts[at] = (counts[at] ?? 0) + amount;
}

/** The pulse with so many beats in place of each of its own. */
export function dividedPulse(pulse: PulseHypothesis, into: number): PulseHypothesis {
  const { map, strokes, phases } = pulse;
  const beats = strokes.beats.map((beat) => beat * into);
  const spanBeats = pulse.spanBeats * into;
  const divided = { ...strokes, beats };
  return {
    map: { times: map.times, beats: map.beats.map((beat) => beat * into) },
    beatSeconds: pulse.beatSeconds / into,
    spanBeats,
    strokes: divided,
    folded: foldedOnce(divided, spanBeats),
    phases: [...new Set(phases.map((phase) => (phase * into) % PLACES_PER_BEAT))],
  };
}

/** What another groove, laid on the same pulse, expects at the places of this bar. */
export function expectedBy(other: Laid, bar: CountedBar): Counts {
  const { model, placing } = other;
  const expected = new Float64Array(ROLE_COUNT * bar.places.length);
  const rounds = roundsToMeet(model.beats, bar.beatsOfPulse);
  for (let round = 0; round < rounds; round += 1) {
    for (let place = 0; place < model.places; place += 1) {
      const at = bar.placeOf(round * model.beats + (place + placing.turn) / PLACES_PER_BEAT);
      for (let role = 0; role < ROLE_COUNT; role += 1)
        addTo(expected, role * bar.places.length + at, model.rates[role * model.places + place] ?? 0);
    }
  }
  return expected.map((count) => (count * bar.beatsOfPulse) / (rounds * model.beats));
}

/** After how many rounds of one length, in beats, both lengths begin together again. */
function roundsToMeet(beats: number, others: number): number {
  let rounds = 1;
  while ((rounds * beats) % others !== 0 && rounds < others) rounds += 1;
  return rounds;
}

/** Counts of strokes are told apart down to this: what players add without meaning it. Our choice. */
const FLOOR = 0.04;

/** A part at a counted place. */
export interface PartAtPlace {
  readonly part: number;
  /** Index into {@link CountedBar.places}. */
  readonly place: number;
  /** Strokes a round: heard, of this groove, of the other. */
  readonly heard: number;
  readonly expected: number;
  readonly otherwise: number;
  /** Natural-log likelihood ratio of what was heard (or not), this groove over the other. */
  readonly weight: number;
}

/** Every part at every place that can be counted aloud, with what it says for this groove over what is expected otherwise. */
export function partsAtPlaces(bar: CountedBar, otherwise: Counts): readonly PartAtPlace[] {
  const width = bar.places.length;
  return PARTS.flatMap((roles, part) =>
    [...bar.places.keys()]
      .filter((place) => bar.counted[place])
      .map((place) => {
        const [first = 0] = roles;
        const at = (counts: Counts, role: number): number => counts[role * width + place] ?? 0;
        const weight = roles.reduce((sum, role) => {
          const own = at(bar.expected, role) + FLOOR;
          const other = at(otherwise, role) + FLOOR;
          const ratio = at(bar.heard, role) * Math.log(own / other) - (own - other);
          return sum + (ROLE_WEIGHTS[role] ?? 0) * bar.rounds * ratio;
        }, 0);
        return {
          part,
          place,
          heard: at(bar.heard, first),
          expected: at(bar.expected, first),
          otherwise: at(otherwise, first),
          weight,
        };
      }),
  );
}

/** Of the voices that can play a part, the one with most strokes at this place. */
export function voiceAt(counts: Counts, bar: CountedBar, part: number, place: number): Voice {
  const voices = ROLE_VOICES[PARTS[part]?.[0] ?? 0] ?? [];
  const count = (role: number): number => counts[role * bar.places.length + place] ?? 0;
  const [most] = [...voices].sort((a, b) => count(b.role) - count(a.role));
  return most?.voice ?? "unknown";
}

/** Places, as `part * places + place`, of the strokes that make a style itself, laid on the same pulse as the bar. */
export function ownPlaces({ known, model, placing }: Laid, bar: CountedBar): ReadonlySet<number> {
  const { own } = known;
  if (!own) return new Set();
  const shift = shiftOfOwn(own, variantOf(model));
  const length = grooveBeats(own);
  const whole = Math.max(model.beats * model.feltPerPulse, bar.beatsOfPulse * model.feltPerPulse);
  const found = new Set<number>();
  for (let start = 0; start < whole; start += length) {
    for (const note of own.notes) {
      const felt = start + shift + playedBeat(own.feel, toNumber(note.position));
      const beat = placing.turn / PLACES_PER_BEAT + felt / model.feltPerPulse;
      const [role = -1] = rolesOf(note.voice);
      const part = PARTS.findIndex(([first]) => first === role);
      if (part >= 0) found.add(part * bar.places.length + bar.placeOf(beat));
    }
  }
  return found;
}

/** By how many beats the style's own strokes begin later than the variant: a figure of two bars may begin at its other bar. */
function shiftOfOwn(own: Groove, written: Groove | undefined): number {
  if (!written) return 0;
  const inBar = beatsPerBar(own.metre);
  const length = grooveBeats(written);
  const key = (voice: Voice, beat: number): string =>
    `${rolesOf(voice)[0]} ${Math.round((beat % length) * 24)}`;
  const played = new Set(written.notes.map(({ voice, position }) => key(voice, toNumber(position))));
  const held = (shift: number): number =>
    own.notes.filter(({ voice, position }) => played.has(key(voice, toNumber(position) + shift))).length;
  return Array.from({ length: own.bars }, (_, bar) => bar * inBar).reduce((best, shift) =>
    held(shift) > held(best) ? shift : best,
  );
}
