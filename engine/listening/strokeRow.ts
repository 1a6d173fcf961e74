/**
 * Question: how likely are these strokes as a row of written ones?
 * Method: most of the written strokes come; other drums, and another hand's cymbal, may stand for those written; what is not
 * written was added. Each written stroke takes the stroke that answers it best, in order.
 */
import type { Feel, Note } from "../score/index.ts";
import { playedBeat } from "../score/index.ts";
import { toNumber } from "../units/index.ts";
import { numberOf, SOUND_PARTS, SOUND_ROLES, soundOf } from "./roles.ts";
import type { LaidStroke } from "./usualBar.ts";

/** A written stroke as listening knows it. */
export interface RowNote {
  /** Felt beats from where the row begins, as the feel has it played. */
  readonly beat: number;
  readonly sound: number;
  /** Written with a flam or a drag. */
  readonly ornate: boolean;
}

/** The row that written notes make; those that listening passes over are left out. */
export function rowOf(notes: readonly Note[], feel: Feel): readonly RowNote[] {
  return notes.flatMap(({ position, voice, ornament }) => {
    const sound = soundOf(voice);
    if (sound === undefined) return [];
    return [{ beat: playedBeat(feel, toNumber(position)), sound, ornate: ornament !== undefined }];
  });
}

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
/** Parts that are played by the feet. */
export const FEET: readonly number[] = [numberOf("kick"), numberOf("pedal")];

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

/** Where a row is laid. */
export interface RowPlace {
  /** Place of the row's beginning. */
  readonly from: number;
  /** Places of a felt beat. */
  readonly beat: number;
  /** How far off its place a stroke may lie. */
  readonly near: number;
  /** First and last place that were heard, where the take begins or ends within the row; what lies outside cannot come. */
  readonly heard?: { readonly from: number; readonly to: number };
}

/**
 * Log likelihood of the strokes of a span as this row.
 *
 * @param strokes those of the row's beats, in order.
 */
export function rowLog(
  row: readonly RowNote[],
  strokes: readonly LaidStroke[],
  { from, beat, near, heard }: RowPlace,
): number {
  const taken = new Uint8Array(strokes.length);
  let log = 0;
  let start = 0;
  for (const note of row) {
    const place = from + note.beat * beat;
    if (heard && (place < heard.from - near || place > heard.to + near)) continue;
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
