/**
 * Question: where in a beat may it begin?
 * Method: where strokes gather. Places, PLACES_PER_BEAT to a beat, are laid so that strokes gather at their middles; those
 * that hold most are tried as the beat's beginning.
 */
import { PLACES_PER_BEAT, type PulseStrokes } from "./barModel.ts";
import { SOUND_WEIGHTS, type Stroke } from "./roles.ts";

/** So many places of the beat are tried as its beginning, at least so far apart. Our choice. */
const PHASES_TRIED = 4;
const PHASES_APART = 2;

/** The places of a beat at which strokes gather most, a stroke counting as much as its sound does. */
export function phasesOf({ beats, sounds, weights }: PulseStrokes): readonly number[] {
  const masses = new Float64Array(PLACES_PER_BEAT);
  beats.forEach((beat, index) => {
    const place = (beat - Math.floor(beat)) * PLACES_PER_BEAT;
    const low = Math.floor(place);
    const mass = (weights[index] ?? 0) * (SOUND_WEIGHTS[sounds[index] ?? 0] ?? 0);
    const next = (low + 1) % PLACES_PER_BEAT;
    masses[low % PLACES_PER_BEAT] = (masses[low % PLACES_PER_BEAT] ?? 0) + mass * (1 - (place - low));
    masses[next] = (masses[next] ?? 0) + mass * (place - low);
  });
  const byMass = [...masses.keys()].sort((a, b) => (masses[b] ?? 0) - (masses[a] ?? 0));
  const kept: number[] = [];
  for (const place of byMass) {
    if (kept.length === PHASES_TRIED) break;
    const apart = (other: number): number => {
      const steps = Math.abs(other - place);
      return Math.min(steps, PLACES_PER_BEAT - steps);
    };
    if (kept.every((other) => apart(other) >= PHASES_APART)) kept.push(place);
  }
  return kept;
}

/** Where, within a place, the strokes gather: their circular mean over the width of a place, in beats. */
export function placeOrigin(beats: Float64Array, strokes: readonly Stroke[]): number {
  let sine = 0;
  let cosine = 0;
  beats.forEach((beat, index) => {
    const angle = 2 * Math.PI * beat * PLACES_PER_BEAT;
    const weight = strokes[index]?.weight ?? 0;
    sine += weight * Math.sin(angle);
    cosine += weight * Math.cos(angle);
  });
  return Math.atan2(sine, cosine) / (2 * Math.PI * PLACES_PER_BEAT);
}
