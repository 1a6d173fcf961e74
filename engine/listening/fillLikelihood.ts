/**
 * Question: how likely are these strokes as a fill: as this written one, or as fills in general?
 * Method: a written fill is a row of strokes (`strokeRow.ts`), and the feet may go on under the hands. Fills in general are rates: of each part at each place of a beat, averaged over the catalogue's.
 */
import { FILLS } from "../catalogue/index.ts";
import { beatsPerBar, type Fill } from "../score/index.ts";
import { addBlurred, type BarModel, barModel, PLACES_PER_BEAT } from "./barModel.ts";
import { numberOf, PART_COUNT, ROLE_COUNT, SOUND_PARTS, SOUND_ROLES } from "./roles.ts";
import { FEET, type RowNote, type RowPlace, rowLog, rowOf } from "./strokeRow.ts";
import { type BeatRates, type LaidStroke, widened } from "./usualBar.ts";

/** A written fill as listening knows it; places in felt beats from its first beat. */
export interface KnownFill {
  readonly fill: Fill;
  readonly beatsInBar: number;
  readonly notes: readonly RowNote[];
}

/** A written fill as listening knows it. */
export function knownFill(fill: Fill): KnownFill {
  return { fill, beatsInBar: beatsPerBar(fill.metre), notes: rowOf(fill.notes, fill.feel) };
}

/** The catalogue's. */
export const KNOWN_FILLS: readonly KnownFill[] = FILLS.map(knownFill);

/**
 * Log likelihood of the strokes of a span as this fill.
 *
 * @param strokes those of the fill's beats, in order.
 */
export function fillLog({ notes }: KnownFill, strokes: readonly LaidStroke[], at: RowPlace): number {
  return rowLog(notes, strokes, at);
}

/** A part that fills in general have not at a place. Our choice. */
const LEAST_RATE = 0.02;
/** The feet may go on under the hands, at any place. Our choice. */
const LEAST_FOOT_RATE = 0.06;

/** Fills in general. */
export const FILL_RATES: BeatRates = fillRates();

function fillRates(): BeatRates {
  const beats = FILLS.reduce((sum, fill) => sum + fill.beats, 0);
  const sums = new Float64Array(PART_COUNT * PLACES_PER_BEAT);
  for (const { notes } of KNOWN_FILLS) {
    for (const { beat, sound } of notes) {
      const place = Math.round((beat - Math.floor(beat)) * PLACES_PER_BEAT) % PLACES_PER_BEAT;
      const slot = (SOUND_PARTS[sound] ?? 0) * PLACES_PER_BEAT + place;
      sums[slot] = (sums[slot] ?? 0) + 1 / beats;
    }
  }
  const rates = widened(sums, LEAST_RATE);
  for (const foot of FEET) {
    for (let place = 0; place < PLACES_PER_BEAT; place += 1) {
      const slot = foot * PLACES_PER_BEAT + place;
      rates[slot] = Math.max(LEAST_FOOT_RATE, rates[slot] ?? 0);
    }
  }
  return rates;
}

/** Strokes anywhere in a fill, per beat: more than in a groove, since few fills are written ones. Our choice. */
const FLOOR_PER_BEAT = 1;
/** What may go on under a fill, at any place of a beat, by role. Our choice. */
const GOES_ON = [
  { role: numberOf("kick"), rate: 0.03 },
  { role: numberOf("time-keeper"), rate: 0.02 },
  { role: numberOf("pedal"), rate: 0.01 },
];

/** Fills in general as a groove of one beat: for beats that are compared with those of a groove. */
export const FILLS_IN_GENERAL: BarModel = fillsInGeneral();

function fillsInGeneral(): BarModel {
  const rates = new Float64Array(ROLE_COUNT * PLACES_PER_BEAT);
  const beats = FILLS.reduce((sum, fill) => sum + fill.beats, 0);
  for (const { beat, sound } of KNOWN_FILLS.flatMap(({ notes }) => notes)) {
    const place = (beat - Math.floor(beat)) * PLACES_PER_BEAT;
    for (const role of SOUND_ROLES[sound] ?? [])
      addBlurred(rates, { places: PLACES_PER_BEAT, role, place }, 1 / beats);
  }
  for (const { role, rate } of GOES_ON) {
    for (let slot = role * PLACES_PER_BEAT; slot < (role + 1) * PLACES_PER_BEAT; slot += 1)
      rates[slot] = Math.max(rate, rates[slot] ?? 0);
  }
  return barModel(rates, 1, FLOOR_PER_BEAT);
}

/** Whether a stroke is of the kind fills are made of: a drum struck by hand, or a crash. */
export function isOfFills(sound: number): boolean {
  return [numberOf("toms"), numberOf("back-beat"), numberOf("crash")].includes(SOUND_PARTS[sound] ?? 0);
}
