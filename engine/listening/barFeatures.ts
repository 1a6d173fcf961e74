/**
 * Question: what about these strokes speaks for this bar: this tempo, this length, beat one here?
 * Method: what a listener goes by, as numbers: where the kick, the back-beat and the cymbals fall in the bar, how often
 * they come a beat, how much of one bar, half bar and beat returns in the next, where the player leaves the pattern
 * (fills end bars), which beats are struck harder, how many beats apart the strokes of a part are, and how clearly they
 * lie on this pulse rather than another.
 * `reading.ts` weighs them; `scripts/learn.ts` learnt the weights.
 */

import type { Seconds } from "../units/index.ts";
import { type Folded, PLACES_PER_BEAT } from "./barModel.ts";
import { leads } from "./lead.ts";
import type { BarHypothesis, PulseHypothesis } from "./pulse.ts";
import { SOUND_COUNT, soundsPlaying } from "./roles.ts";

const KICK = soundsPlaying("kick");
const BACK_BEAT = soundsPlaying("back-beat");
const TIME_KEEPER = soundsPlaying("time-keeper");
const TOMS = soundsPlaying("toms");
const CRASH = soundsPlaying("crash");
const SKELETON = [KICK, BACK_BEAT];
const PARTS = [...SKELETON, TIME_KEEPER];
const COLOURS = [
  TIME_KEEPER,
  soundsPlaying("open hi-hat"),
  TOMS,
  CRASH,
  soundsPlaying("pedal"),
  soundsPlaying("cross-stick"),
];

/** Bars with so many beats are told apart place by place; of others only what holds for any bar is told. */
const BEATS_TOLD = 4;
const SIXTEENTH = PLACES_PER_BEAT / 4;
const SIXTEENTHS_TOLD = 4 * BEATS_TOLD;
const REFERENCE_BPM = 100;

/** The features of bars that could be of one take: of all as many and in the same order. */
export function featuresOfBars(bars: readonly BarHypothesis[]): readonly (readonly number[])[] {
  const known = new Map<PulseHypothesis, UnderPulse>();
  const lead = leads(bars);
  return bars.map((bar, index) => {
    const underPulse = known.get(bar.pulse) ?? new UnderPulse(bar.pulse);
    known.set(bar.pulse, underPulse);
    return [...underPulse.of(bar), lead[index] ?? 0];
  });
}

/** What all bars under one pulse share is worked out once. */
class UnderPulse {
  readonly #pulse: PulseHypothesis;
  readonly #folds = new Map<number, FoldedParts>();
  readonly #logTempo: number;
  /** What the distances of neighbouring strokes tell. */
  readonly #distances: readonly number[];

  constructor(pulse: PulseHypothesis) {
    this.#pulse = pulse;
    this.#logTempo = Math.log(60 / pulse.beatSeconds / REFERENCE_BPM);
    const distances = apart(pulse);
    this.#distances = [...distances.map((beats) => beats * this.#logTempo), ...distances.flatMap(spread)];
  }

  /** What belongs to this bar alone. */
  of(bar: BarHypothesis): readonly number[] {
    const { beatsInBar } = bar;
    const folded = this.#fold(beatsInBar);
    const turned = new TurnedFold(folded, bar.turn);
    const logTempo = this.#logTempo;
    const features = [bar.logChance - bar.begins, logTempo, logTempo * logTempo, beatsInBar === 3 ? 1 : 0];
    addByPlace(features, turned);
    for (const sounds of PARTS) addDensities(features, turned, sounds);
    features.push(
      this.#fold(2 * beatsInBar).returning(beatsInBar * PLACES_PER_BEAT, PARTS),
      folded.returning((beatsInBar * PLACES_PER_BEAT) / 2, SKELETON),
      folded.returning(PLACES_PER_BEAT, SKELETON),
      ...this.#distances,
      ...byBar(this.#pulse, bar),
    );
    return features;
  }

  #fold(beats: number): FoldedParts {
    const known = this.#folds.get(beats) ?? new FoldedParts(this.#pulse.folded(beats));
    this.#folds.set(beats, known);
    return known;
  }
}

/** Folded strokes by part. */
class FoldedParts {
  readonly beats: number;
  readonly places: number;
  readonly #folded: Folded;
  readonly #parts = new Map<readonly number[], Float64Array>();
  readonly #around = new Map<readonly number[], Float64Array>();
  readonly #returning = new Map<readonly (readonly number[])[], Map<number, number>>();

  constructor(folded: Folded) {
    this.#folded = folded;
    this.beats = folded.beats;
    this.places = folded.places;
  }

  /** Strokes a repeat of these sounds, place by place. */
  part(sounds: readonly number[]): Float64Array {
    const known = this.#parts.get(sounds) ?? this.#summed(sounds);
    this.#parts.set(sounds, known);
    return known;
  }

  /** The same, summed over the places from `first` to `last` of each place. Each part is asked for one such stretch only. */
  around(sounds: readonly number[], first: number, last: number): Float64Array {
    const known = this.#around.get(sounds) ?? summedAround(this.part(sounds), first, last);
    this.#around.set(sounds, known);
    return known;
  }

  /** Share of the strokes of these parts that return so many places later, 0 to 1: the same from wherever it is read. */
  returning(places: number, parts: readonly (readonly number[])[]): number {
    const ofParts = this.#returning.get(parts) ?? new Map<number, number>();
    this.#returning.set(parts, ofParts);
    const known = ofParts.get(places) ?? this.#shareReturning(places, parts);
    ofParts.set(places, known);
    return known;
  }

  #shareReturning(places: number, parts: readonly (readonly number[])[]): number {
    let same = 0;
    let all = 0;
    for (const sounds of parts) {
      const part = this.part(sounds);
      for (let place = 0; place < part.length; place += 1) {
        const here = part[place] ?? 0;
        const there = part[(place + places) % part.length] ?? 0;
        same += Math.min(here, there);
        all += (here + there) / 2;
      }
    }
    return all > 0 ? same / all : 0;
  }

  #summed(sounds: readonly number[]): Float64Array {
    const { counts, repeats } = this.#folded;
    const sums = new Float64Array(this.places);
    for (const sound of sounds) {
      for (let place = 0; place < this.places; place += 1)
        sums[place] = (sums[place] ?? 0) + (counts[sound * this.places + place] ?? 0) / repeats;
    }
    return sums;
  }
}

/** Folded strokes read from beat one. */
class TurnedFold {
  readonly beats: number;
  readonly #parts: FoldedParts;
  readonly #turn: number;

  constructor(parts: FoldedParts, turn: number) {
    this.#parts = parts;
    this.beats = parts.beats;
    this.#turn = ((turn % parts.places) + parts.places) % parts.places;
  }

  /** Adds strokes a repeat of these sounds around every `step`th place from beat one. */
  addAround(features: number[], sounds: readonly number[], step: number, first: number, last: number): void {
    const { places } = this.#parts;
    const sums = this.#parts.around(sounds, first, last);
    for (let place = 0; place < places; place += step)
      features.push(sums[(place + this.#turn) % places] ?? 0);
  }

  /** Strokes a repeat of these sounds, summed by kind of place (see {@link PLACE_KINDS}). */
  byKind(sounds: readonly number[]): readonly number[] {
    const part = this.#parts.part(sounds);
    const sums = [0, 0, 0, 0];
    for (let place = 0; place < part.length; place += 1) {
      const kind = PLACE_KINDS[(place + part.length - this.#turn) % PLACES_PER_BEAT] ?? 0;
      sums[kind] = (sums[kind] ?? 0) + (part[place] ?? 0);
    }
    return sums;
  }
}

function summedAround(part: Float64Array, first: number, last: number): Float64Array {
  const { length } = part;
  const sums = new Float64Array(length);
  for (let place = 0; place < length; place += 1) {
    let sum = 0;
    for (let offset = first; offset <= last; offset += 1)
      sum += part[(place + offset + length) % length] ?? 0;
    sums[place] = sum;
  }
  return sums;
}

/** Kick and back-beat at every sixteenth, the other parts at every eighth, of a bar of four beats. */
function addByPlace(features: number[], turned: TurnedFold): void {
  if (turned.beats !== BEATS_TOLD) {
    for (let place = 0; place < PLACES_TOLD; place += 1) features.push(0);
    return;
  }
  for (const sounds of SKELETON) turned.addAround(features, sounds, SIXTEENTH, -1, 1);
  for (const sounds of COLOURS) turned.addAround(features, sounds, 2 * SIXTEENTH, -3, 2);
}
const PLACES_TOLD = SKELETON.length * SIXTEENTHS_TOLD + (COLOURS.length * SIXTEENTHS_TOLD) / 2;

/** Strokes of a part a beat: in all, on the beat, on the half, on the sixteenths beside them, on triplets. */
function addDensities(features: number[], turned: TurnedFold, sounds: readonly number[]): void {
  const sums = turned.byKind(sounds).map((strokes) => strokes / turned.beats);
  const all = sums.reduce((a, b) => a + b, 0);
  features.push(all, ...sums, Math.log(all + 0.1));
}
/** By place of the beat: 0 on it, 1 on its half, 2 on a sixteenth, 3 on a triplet. */
const PLACE_KINDS = [0, 0, 2, 2, 3, 1, 1, 1, 3, 2, 2, 0];

/** A loud back-beat, by weight of stroke. */
const LOUD_WEIGHT = 0.95;
/** Nearer strokes are one: flams and unisons. Seconds. */
const TOGETHER = 0.05;
/** Where a part has no two strokes, they are taken to be as many seconds apart. */
const FAR_APART = 2;

/** The usual distance of neighbouring strokes, as a power of two of a beat: kick, loud back-beat, back-beat, cymbals, all. */
function apart(pulse: PulseHypothesis): readonly number[] {
  return usualDistances(pulse).map((seconds) => Math.log2(seconds / pulse.beatSeconds));
}

const distancesKnown = new WeakMap<Float64Array, readonly Seconds[]>();

/** The same in seconds: worked out once for all pulses of a take, which share its times. */
function usualDistances(pulse: PulseHypothesis): readonly Seconds[] {
  const { times } = pulse.map;
  const known = distancesKnown.get(times);
  if (known) return known;
  const distances = [
    usualDistance(pulse, KICK, 0),
    usualDistance(pulse, BACK_BEAT, LOUD_WEIGHT),
    usualDistance(pulse, BACK_BEAT, 0),
    usualDistance(pulse, TIME_KEEPER, 0),
    usualDistance(pulse, EVERY, 0),
  ];
  distancesKnown.set(times, distances);
  return distances;
}
const EVERY = Array.from({ length: SOUND_COUNT }, (_, sound) => sound);

function usualDistance({ map, strokes }: PulseHypothesis, sounds: readonly number[], least: number): Seconds {
  const distances: number[] = [];
  let before: number | undefined;
  map.times.forEach((time, index) => {
    if (!sounds.includes(strokes.sounds[index] ?? -1) || (strokes.weights[index] ?? 0) < least) return;
    if (before !== undefined && time - before > TOGETHER) distances.push(time - before);
    before = time;
  });
  distances.sort((a, b) => a - b);
  return distances[Math.floor(distances.length / 2)] ?? FAR_APART;
}

/** A distance as its nearness to a quarter, half, triplet half, one, one and a half, two and four beats. */
function spread(log2Beats: number): readonly number[] {
  const bells = [-2, -1, -0.42, 0, 0.58, 1, 2].map((centre) =>
    Math.exp(-0.5 * ((log2Beats - centre) / 0.18) ** 2),
  );
  return [log2Beats, log2Beats * log2Beats, ...bells];
}

const PARTS_BY_BAR = [...PARTS, TOMS, CRASH];
/** Which of these a sound is of, by sound; -1 for none. */
const PART_OF_SOUND = EVERY.map((sound) => PARTS_BY_BAR.findIndex((own) => own.includes(sound)));
/** Loudness is told of the kick, the back-beat and the time-keeper. */
const PARTS_LOUD = PARTS.length;
/** A stroke this little before a bar belongs to it, in bars. */
const BAR_SLACK = 0.03;
/** What a crash on the one after toms says more than one without. Our choice. */
const AFTER_TOMS = 1.5;
const TOMS_ALONE = 0.3;

/** Bar by bar: where the player leaves the pattern, which beats are struck harder, crashes on the one after toms. */
function byBar(pulse: PulseHypothesis, { beatsInBar, turn }: BarHypothesis): readonly number[] {
  if (beatsInBar !== BEATS_TOLD)
    return [...Array(BEATS_TOLD).fill(1 / BEATS_TOLD), ...Array(PARTS_LOUD * BEATS_TOLD + 1).fill(0)];
  const { beats, sounds, velocities } = pulse.strokes;
  const barOf = (index: number): number => ((beats[index] ?? 0) - turn / PLACES_PER_BEAT) / beatsInBar;
  const firstBar = Math.floor(barOf(0) + BAR_SLACK);
  const bars = Math.max(1, Math.ceil(barOf(beats.length - 1) - firstBar));
  const inBar = PARTS_BY_BAR.length * SIXTEENTHS_TOLD;
  const struck = new Uint8Array(bars * inBar);
  const loudness = new Float64Array(PARTS_LOUD * BEATS_TOLD);
  const loudCounts = new Float64Array(PARTS_LOUD * BEATS_TOLD);
  const usual = new Float64Array(PARTS_LOUD);
  const usualCounts = new Float64Array(PARTS_LOUD);
  for (let index = 0; index < beats.length; index += 1) {
    const part = PART_OF_SOUND[sounds[index] ?? -1] ?? -1;
    if (part < 0) continue;
    const place = barOf(index) - firstBar;
    const bar = Math.min(bars - 1, Math.max(0, Math.floor(place + BAR_SLACK)));
    const exact = (place - bar) * SIXTEENTHS_TOLD;
    const sixteenth = Math.min(SIXTEENTHS_TOLD - 1, Math.max(0, Math.round(exact)));
    struck[bar * inBar + part * SIXTEENTHS_TOLD + sixteenth] = 1;
    if (part >= PARTS_LOUD) continue;
    const velocity = velocities[index] ?? 0;
    usual[part] = (usual[part] ?? 0) + velocity;
    usualCounts[part] = (usualCounts[part] ?? 0) + 1;
    if (Math.round(exact) % BEATS_TOLD !== 0) continue;
    const at = part * BEATS_TOLD + (Math.round(exact / BEATS_TOLD) % BEATS_TOLD);
    loudness[at] = (loudness[at] ?? 0) + velocity;
    loudCounts[at] = (loudCounts[at] ?? 0) + 1;
  }
  const louder = loudness.map((sum, at) => {
    const count = loudCounts[at] ?? 0;
    const part = Math.floor(at / BEATS_TOLD);
    return count > 0 ? sum / count - (usual[part] ?? 0) / (usualCounts[part] ?? 1) : 0;
  });
  return [...leavings(struck, bars), ...louder, crashesAfterToms(struck, bars)];
}

/** Of all that differs from the usual bar, the share on each beat. */
function leavings(struck: Uint8Array, bars: number): readonly number[] {
  const inBar = struck.length / bars;
  const byBeat = new Float64Array(BEATS_TOLD);
  for (let slot = 0; slot < inBar; slot += 1) {
    let count = 0;
    for (let bar = 0; bar < bars; bar += 1) count += struck[bar * inBar + slot] ?? 0;
    const beat = Math.floor((slot % SIXTEENTHS_TOLD) / BEATS_TOLD);
    // So many bars have it, the others have not: each is that far from the usual.
    byBeat[beat] = (byBeat[beat] ?? 0) + (2 * count * (bars - count)) / bars;
  }
  const all = byBeat.reduce((a, b) => a + b, 1e-6);
  return [...byBeat].map((sum) => sum / all);
}

function crashesAfterToms(struck: Uint8Array, bars: number): number {
  const inBar = struck.length / bars;
  const toms = PARTS_BY_BAR.indexOf(TOMS) * SIXTEENTHS_TOLD;
  const crash = PARTS_BY_BAR.indexOf(CRASH) * SIXTEENTHS_TOLD;
  let sum = 0;
  for (let bar = 0; bar + 1 < bars; bar += 1) {
    const tomsFrom = bar * inBar + toms;
    const tommed = struck.subarray(tomsFrom + SIXTEENTHS_TOLD / 2, tomsFrom + SIXTEENTHS_TOLD).includes(1);
    const crashFrom = (bar + 1) * inBar + crash;
    const crashed = (struck[crashFrom] ?? 0) + (struck[crashFrom + 1] ?? 0);
    sum += (tommed ? TOMS_ALONE : 0) + crashed * (tommed ? AFTER_TOMS : 1);
  }
  return sum / bars;
}
