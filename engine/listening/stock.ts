/**
 * Question: what may a take be compared with: the catalogue's written grooves, or a shelf of reference takes?
 * Method: a written groove becomes rates by blurring each note as timing does, at each swing ratio it may be played
 * with; reference takes are heard, laid on one another and counted. Both are mixed with grooves in general.
 */
import type { Style } from "../catalogue/index.ts";
import type { Hit } from "../kit/index.ts";
import {
  beatsPerBar,
  DYNAMIC_VELOCITY,
  FOUR_FOUR,
  type Groove,
  grooveBeats,
  type Metre,
  playedBeat,
} from "../score/index.ts";
import { type Milliseconds, toMs, toNumber } from "../units/index.ts";
import { type Background, shippedBackground } from "./background.ts";
import { addBlurred, barModel, PLACES_PER_BEAT } from "./barModel.ts";
import type { KnownFill } from "./fillLikelihood.ts";
import { grooveAlone } from "./grooveAlone.ts";
import { feltPerPulse, type GrooveModel, type KnownGroove } from "./knownGroove.ts";
import type { KnownParts } from "./knownParts.ts";
import { type HeardByBeat, LEAST_EXPOSURE, likeness, meanLikeness } from "./likeness.ts";
import { bestPlacing, type Placing, suitingPulses } from "./placing.ts";
import { type PulseHypothesis, pulseHypotheses } from "./pulse.ts";
import { likelyBars, likelyPulses, readBars } from "./reading.ts";
import { ROLE_COUNT, rolesOf, SOUND_ROLES, strokesOfHits, strokeWeight } from "./roles.ts";

/** What a take is compared with: known grooves, and grooves in general, from which they must stand out. */
export interface Stock {
  readonly grooves: readonly KnownGroove[];
  readonly general: Background;
  /** Fills that are told by name; left out, those of the catalogue. */
  readonly fills?: readonly KnownFill[];
  /** Drum parts that are told by name; left out, none. */
  readonly parts?: KnownParts;
  /** One of the grooves was played for certain: the pulse is that of the likeliest, however little speaks for it. */
  readonly isCertain?: boolean;
}

/** The same without drum parts: they cost most, and a take that is still being played, or was called, is not asked about them. */
export function withoutParts({ parts: _parts, ...stock }: Stock): Stock {
  return stock;
}

/** A written stroke is left out now and then. Our choice. */
const PLAYED_SHARE = 0.93;
/** Share of what is played on a written groove that is the player's own. Our choice, tuned on the development data. */
const EMBELLISHED_SHARE = 0.2;
/**
 * Timing blurs a written stroke by some 20 ms whatever the tempo, which is less of a place when the beat is slow.
 * (Repeated plays by professionals keep about 15 ms of spread on the Groove MIDI Dataset.) The steps are
 * small, so that a groove is not heard otherwise for a beat a minute more.
 */
const BLURS = [
  { places: 1.1, forBeatSeconds: { from: 0, below: 0.31 } },
  { places: 0.95, forBeatSeconds: { from: 0.31, below: 0.36 } },
  { places: 0.83, forBeatSeconds: { from: 0.36, below: 0.42 } },
  { places: 0.74, forBeatSeconds: { from: 0.42, below: 0.49 } },
  { places: 0.67, forBeatSeconds: { from: 0.49, below: 0.56 } },
  { places: 0.61, forBeatSeconds: { from: 0.56, below: 0.64 } },
  { places: 0.56, forBeatSeconds: { from: 0.64, below: Number.POSITIVE_INFINITY } },
] as const;
type Blur = (typeof BLURS)[number];

/** Swing ratios a swung groove is expected at: Friberg & Sundström 2002 measured 1 (fast) to 3.5 (slow). */
const SWING_RATIOS = [1.5, 2, 2.8];

/**
 * The catalogue as a stock.
 *
 * @example
 * catalogueStock(STYLES.slice(0, 2)).grooves.length // => 2
 */
export function catalogueStock(styles: readonly Style[], general: Background = shippedBackground()): Stock {
  return { general, grooves: styles.map((style) => knownStyle(style, general)) };
}

function knownStyle(style: Style, general: Background): KnownGroove {
  const variants = style.variants.map((groove) => writtenGroove(groove, general));
  const [first] = variants;
  return {
    id: style.id,
    name: style.name,
    metre: first?.metre ?? FOUR_FOUR,
    tempoBpm: first?.tempoBpm ?? { low: 0, high: Number.POSITIVE_INFINITY },
    models: variants.flatMap(({ models }) => models),
    own: style.own,
    isEveryday: style.isEveryday,
  };
}

/** One written groove as listening knows it, at each swing ratio it may be played with. */
export function writtenGroove(groove: Groove, general: Background = shippedBackground()): KnownGroove {
  const { id, name, metre, tempoBpm } = groove;
  const models = asSwung(groove).flatMap((swung) =>
    feltPerPulse(groove).flatMap((felt) =>
      BLURS.map((blur) => ({ ...writtenModel(swung, general, blur, felt), written: groove })),
    ),
  );
  return { id, name, metre, tempoBpm, models };
}

function asSwung(groove: Groove): readonly Groove[] {
  const { feel } = groove;
  if (feel.kind === "straight") return [groove];
  return SWING_RATIOS.map((ratio) => ({ ...groove, feel: { ...feel, ratio } }));
}

/** The rates of a written groove, with a little of what players add to any groove. */
function writtenModel(groove: Groove, general: Background, blur: Blur, felt: number): GrooveModel {
  const feltBeats = grooveBeats(groove);
  // The repeat must be whole beats of the pulse.
  const times = feltBeats % felt === 0 ? 1 : felt;
  const beats = (feltBeats * times) / felt;
  const places = beats * PLACES_PER_BEAT;
  const rates = new Float64Array(ROLE_COUNT * places);
  for (let time = 0; time < times; time += 1) {
    for (const note of groove.notes) {
      const beat = time * feltBeats + playedBeat(groove.feel, toNumber(note.position));
      const place = (beat / felt) * PLACES_PER_BEAT;
      const amount = PLAYED_SHARE * strokeWeight(DYNAMIC_VELOCITY[note.dynamic]);
      for (const role of rolesOf(note.voice)) addBlurred(rates, { places, role, place }, amount, blur.places);
    }
  }
  const usual = general.average.get(beatsPerBar(groove.metre));
  return {
    ...barModel(
      withUsual(rates, usual, () => EMBELLISHED_SHARE),
      beats,
    ),
    feltPerPulse: felt,
    forBeatSeconds: blur.forBeatSeconds,
  };
}

/**
 * Rates mixed with those of grooves in general, repeated over the length of `rates`.
 *
 * @param usual rates of one bar; left out, the other share is silence.
 * @param shareAt share of those in general, by slot.
 */
function withUsual(
  rates: Float64Array,
  usual: Float64Array | undefined,
  shareAt: (slot: number) => number,
): Float64Array {
  const places = rates.length / ROLE_COUNT;
  const usualPlaces = (usual?.length ?? 0) / ROLE_COUNT;
  return rates.map((rate, slot) => {
    const role = Math.floor(slot / places);
    const general =
      usualPlaces > 0 ? (usual?.[role * usualPlaces + ((slot % places) % usualPlaces)] ?? 0) : 0;
    const share = shareAt(slot);
    return (1 - share) * rate + share * general;
  });
}

/** A reference groove of a shelf: its takes, whose tempo and metre are found by listening. */
export interface ReferenceGroove {
  readonly id: string;
  readonly name: string;
  readonly takes: readonly (readonly Hit[])[];
}

/**
 * A shelf of reference takes as a stock. Grooves in whose takes no pulse is heard are left out.
 *
 * @example
 * shelfStock([{ id: "a", name: "A", takes: [hits] }, { id: "b", name: "B", takes: [[]] }]).grooves.map(({ id }) => id)
 * // => ["a"]
 */
export function shelfStock(
  references: readonly ReferenceGroove[],
  general: Background = shippedBackground(),
): Stock {
  const grooves = references.flatMap((reference) => {
    const known = knownFromTakes(reference, general);
    return known ? [known] : [];
  });
  return { general, grooves };
}

/**
 * Weight, in repeats, of grooves in general beside what the takes show: a few bars are not the whole groove, and a
 * fill elsewhere must not speak against it as if it could never happen. Our choice, tuned on the development data.
 */
const DOUBT_REPEATS = 2;
/** A tempo heard in the takes, widened to a range: the studio plays it slower and faster. Our choice. */
const TEMPO_WIDTH = 1.3;

/** A groove may come round after one bar or after two; both are kept, and the better one speaks. Our choice. */
export const BARS_IN_REPEAT = [1, 2];

/** A groove as its takes have it; `undefined` when no pulse is heard in them. */
export function knownFromTakes(reference: ReferenceGroove, general: Background): KnownGroove | undefined {
  const pulses = reference.takes
    .map((take) => pulseHypotheses(strokesOfHits(take), general))
    .filter((hypotheses) => hypotheses.length > 0);
  const [seedPulses, ...others] = pulses;
  if (!seedPulses) return undefined;
  const [seed] = readBars(likelyBars(likelyPulses(seedPulses, general), general), general);
  if (!seed) return undefined;

  const models = BARS_IN_REPEAT.map((bars) =>
    modelOfTakes(seed, others, seed.beatsInBar * bars, general.average.get(seed.beatsInBar)),
  );
  const tempoBpm = 60 / seed.pulse.beatSeconds;
  return {
    id: reference.id,
    name: reference.name,
    metre: quarterMetre(seed.beatsInBar),
    models,
    tempoBpm: { low: tempoBpm / TEMPO_WIDTH, high: tempoBpm * TEMPO_WIDTH },
  };
}

/**
 * What takes of one groove have in common: they are laid on one another, and their strokes counted, first all of them, then
 * with fills set aside.
 *
 * @param first where the groove lies in the first take.
 * @param others the pulses each other take may have.
 * @param beats after which the groove comes round, in beats of the pulse.
 * @param usual rates of grooves in general, of one bar.
 */
export function modelOfTakes(
  first: Pick<Placing, "pulse" | "turn">,
  others: readonly (readonly PulseHypothesis[])[],
  beats: number,
  usual: Float64Array | undefined,
): GrooveModel {
  const whole = new Summed(beats, usual);
  const laid: Laid[] = [first];
  whole.add(wholeTake(first, beats));
  for (const other of others) {
    const model = whole.model();
    const placed = bestPlacing(model, suitingPulses(other, model.feltPerPulse));
    if (!placed) continue;
    laid.push(placed);
    whole.add(wholeTake(placed, beats));
  }
  const rough = whole.model();
  const alone = laid.map((take) => ({
    ...grooveAlone(rough, take),
    blurPlaces: shelfBlurPlaces(take.pulse),
  }));
  const summed = (takes: readonly Counted[]): GrooveModel => {
    const sum = new Summed(beats, usual);
    for (const take of takes) sum.add(take);
    return sum.model();
  };
  return { ...summed(alone), ...(alone.length > 1 ? amongOneAnother(alone, summed) : {}) };
}

/** A take where the groove lies in it. */
type Laid = Pick<Placing, "pulse" | "turn">;

/** The strokes of a take by sound and place of a groove, and how often each of its beats was heard. */
interface Counted extends HeardByBeat {
  readonly blurPlaces: number;
}

/** A take as it was played, fills and all. */
function wholeTake({ pulse, turn }: Laid, beats: number): Counted {
  const { counts, places, repeats } = pulse.folded(beats);
  const turned = counts.map((_, slot) => {
    const place = slot % places;
    return counts[slot - place + ((((place + turn) % places) + places) % places)] ?? 0;
  });
  return {
    counts: turned,
    exposures: new Float64Array(beats).fill(repeats),
    blurPlaces: shelfBlurPlaces(pulse),
  };
}

/** Among so many takes it is told how they lie on one another: more would take long and tell little more. Our choice. */
const TAKES_COMPARED = 4;

/** The first of several takes, one by one, and how each of them lies on the others, on the average. */
function amongOneAnother(
  takes: readonly Counted[],
  summed: (takes: readonly Counted[]) => GrooveModel,
): Pick<GrooveModel, "amongTakes" | "takes"> {
  const compared = takes.slice(0, TAKES_COMPARED);
  return {
    amongTakes: meanLikeness(
      compared.map((take) => likeness(summed(takes.filter((other) => other !== take)), take)),
    ),
    takes: compared.map((take) => {
      const { beats, places, rates } = summed([take]);
      return { beats, places, rates };
    }),
  };
}

/** Takes of one groove counted together. */
class Summed {
  readonly #beats: number;
  readonly #places: number;
  readonly #counts: Float64Array;
  readonly #exposures: Float64Array;
  readonly #usual: Float64Array | undefined;

  /** @param usual rates of grooves in general, of one bar. */
  constructor(beats: number, usual: Float64Array | undefined) {
    this.#usual = usual;
    this.#beats = beats;
    this.#places = beats * PLACES_PER_BEAT;
    this.#counts = new Float64Array(ROLE_COUNT * this.#places);
    this.#exposures = new Float64Array(beats);
  }

  add({ counts, exposures, blurPlaces }: Counted): void {
    counts.forEach((count, slot) => {
      if (count === 0) return;
      const place = slot % this.#places;
      for (const role of SOUND_ROLES[Math.floor(slot / this.#places)] ?? [])
        addBlurred(this.#counts, { places: this.#places, role, place }, count, blurPlaces);
    });
    exposures.forEach((exposure, beat) => {
      this.#exposures[beat] = (this.#exposures[beat] ?? 0) + exposure;
    });
  }

  model(): GrooveModel {
    const heard = this.#counts.map((count, slot) => count / Math.max(LEAST_EXPOSURE, this.#exposureAt(slot)));
    const doubt = (slot: number): number => DOUBT_REPEATS / (this.#exposureAt(slot) + DOUBT_REPEATS);
    return { ...barModel(withUsual(heard, this.#usual, doubt), this.#beats), feltPerPulse: 1 };
  }

  #exposureAt(slot: number): number {
    return this.#exposures[Math.floor((slot % this.#places) / PLACES_PER_BEAT)] ?? 0;
  }
}

/** A take's own timing already blurs its places; a little more stands for other players' timing. Our choice. */
const SHELF_BLUR_MS: Milliseconds = 20;
/** However slow the beat, places are not sharper than this: a stroke must reach the place beside it. Our choice. */
const LEAST_BLUR_PLACES = 0.2;

function shelfBlurPlaces(pulse: PulseHypothesis): number {
  return Math.max(LEAST_BLUR_PLACES, (SHELF_BLUR_MS * PLACES_PER_BEAT) / toMs(pulse.beatSeconds));
}

/** A bar of so many beats, as a metre: what is heard tells beats, not how they would be written. */
export function quarterMetre(beatsInBar: number): Metre {
  return { numerator: beatsInBar, denominator: 4 };
}
