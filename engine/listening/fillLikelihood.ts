/**
 * Question: how likely are these strokes as a fill: as this written one, or as fills in general?
 * Method: a written fill is a row of strokes, most of which come; other drums may stand for those written, and the feet may
 * go on under the hands. Fills in general are rates: of each part at each place of a beat, averaged over the catalogue's.
 */
import { FILLS } from "../catalogue/index.ts";
import { beatsPerBar, type Fill, playedBeat } from "../score/index.ts";
import { toNumber } from "../units/index.ts";
import { PLACES_PER_BEAT } from "./barModel.ts";
import { numberOf, PART_COUNT, SOUND_PARTS, SOUND_ROLES, soundOf } from "./roles.ts";
import { type BeatRates, type LaidStroke, widened } from "./usualBar.ts";

/** A written fill as listening knows it; places in felt beats from its first beat. */
export interface KnownFill {
  readonly fill: Fill;
  readonly beatsInBar: number;
  readonly notes: readonly KnownNote[];
}

interface KnownNote {
  readonly beat: number;
  readonly sound: number;
  /** Written with a flam or a drag. */
  readonly ornate: boolean;
}

export const KNOWN_FILLS: readonly KnownFill[] = FILLS.map((fill) => ({
  fill,
  beatsInBar: beatsPerBar(fill.metre),
  notes: fill.notes.flatMap(({ position, voice, ornament }) => {
    const sound = soundOf(voice);
    if (sound === undefined) return [];
    return [{ beat: playedBeat(fill.feel, toNumber(position)), sound, ornate: ornament !== undefined }];
  }),
}));

/** Chances that a written stroke comes on its own sound, on another drum, and not at all. Our choice. */
const AS_WRITTEN = Math.log(0.8);
const OTHER_TOM = Math.log(0.2);
const OTHER_DRUM = Math.log(0.05);
const LEFT_OUT = Math.log(0.06);
/** A flam or drag played as written or not at all, and one played that is not written. Our choice. */
const ORNAMENT = { asWritten: Math.log(0.75), plain: Math.log(0.25), added: Math.log(0.08) };
/** Timing spreads about a written place by this share of how far off a stroke may lie at all. Our choice. */
const SPREAD_OF_NEAR = 0.45;
/** A stroke that is not written: of the hands, and of the feet, which may go on as they were. Our choice. */
const ADDED_BY_HAND = Math.log(0.015);
const ADDED_BY_FOOT = Math.log(0.06);

const TOMS = numberOf("toms");
const BACK_BEAT = numberOf("back-beat");
const FEET = [numberOf("kick"), numberOf("pedal")];

function added(sound: number): number {
  return FEET.includes(SOUND_PARTS[sound] ?? 0) ? ADDED_BY_FOOT : ADDED_BY_HAND;
}

function ornamentLog(written: boolean, heard: boolean): number {
  if (written) return heard ? ORNAMENT.asWritten : ORNAMENT.plain;
  return heard ? ORNAMENT.added : 0;
}

function soundsLike(written: number, heard: number): number {
  if (written === heard) return AS_WRITTEN;
  const [one = 0] = SOUND_ROLES[written] ?? [];
  const [other = 0] = SOUND_ROLES[heard] ?? [];
  if (one === other) return OTHER_TOM;
  const drums = [TOMS, BACK_BEAT];
  return drums.includes(one) && drums.includes(other) ? OTHER_DRUM : Number.NEGATIVE_INFINITY;
}

/**
 * Log likelihood of the strokes of a span as this fill.
 *
 * @param strokes those of the fill's beats, in order.
 * @param from place of the fill's first beat; `beat` the places of a felt beat; `near` how far a stroke may lie off.
 */
export function fillLog(
  known: KnownFill,
  strokes: readonly LaidStroke[],
  { from, beat, near }: { readonly from: number; readonly beat: number; readonly near: number },
): number {
  const taken = new Uint8Array(strokes.length);
  let log = 0;
  let start = 0;
  for (const note of known.notes) {
    const place = from + note.beat * beat;
    while (start < strokes.length && (strokes[start]?.place ?? 0) < place - near) start += 1;
    let best = -1;
    // A stroke that does not answer this note would be one left out and one added.
    let most = LEFT_OUT + added(note.sound);
    for (let index = start; index < strokes.length; index += 1) {
      const stroke = strokes[index];
      if (!stroke || stroke.place > place + near) break;
      if (taken[index] === 1) continue;
      const late = (stroke.place - place) / (SPREAD_OF_NEAR * near);
      const like =
        soundsLike(note.sound, stroke.sound) - 0.5 * late * late + ornamentLog(note.ornate, stroke.ornate);
      if (like <= most) continue;
      most = like;
      best = index;
    }
    log += best < 0 ? LEFT_OUT : most;
    if (best >= 0) taken[best] = 1;
  }
  strokes.forEach(({ sound }, index) => {
    if (taken[index] === 0) log += FEET.includes(SOUND_PARTS[sound] ?? 0) ? ADDED_BY_FOOT : ADDED_BY_HAND;
  });
  return log;
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

/** Whether a stroke is of the kind fills are made of: a drum struck by hand, or a crash. */
export function isOfFills(sound: number): boolean {
  return [TOMS, BACK_BEAT, numberOf("crash")].includes(SOUND_PARTS[sound] ?? 0);
}
