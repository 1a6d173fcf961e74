/**
 * Question: where on the beats of a pulse does each stroke lie?
 * Conventions: places, PLACES_PER_BEAT to a beat of the pulse, from where the turn has its one.
 */
import type { Seconds } from "../units/index.ts";
import { PLACES_PER_BEAT } from "./barModel.ts";
import type { PulseHypothesis } from "./pulse.ts";
import type { LaidStroke } from "./usualBar.ts";

/** The grace strokes of flams and drags come within this before their main stroke, and at most so strong beside it. */
const GRACE_SECONDS: Seconds = 0.06;
const GRACE_STRENGTH = 0.65;

/** The strokes by place, those of an ornament as one. */
export function laidStrokes(pulse: PulseHypothesis, turn: number): readonly LaidStroke[] {
  const { beats, sounds, velocities } = pulse.strokes;
  const { times } = pulse.map;
  const ornate = new Uint8Array(beats.length);
  const laid: LaidStroke[] = [];
  beats.forEach((beat, index) => {
    const sound = sounds[index] ?? 0;
    for (let next = index + 1; next < beats.length; next += 1) {
      if ((times[next] ?? 0) - (times[index] ?? 0) > GRACE_SECONDS) break;
      if (sounds[next] !== sound) continue;
      if ((velocities[index] ?? 0) >= GRACE_STRENGTH * (velocities[next] ?? 0)) continue;
      ornate[next] = 1;
      return;
    }
    laid.push({ place: beat * PLACES_PER_BEAT - turn, sound, ornate: ornate[index] === 1 });
  });
  return laid;
}

/** How far a stroke may lie off its place: so many seconds, but within so many places. Our choice. */
const NEAR = { seconds: 0.045, least: 1.2, most: 2 };

/** How far a stroke may lie off its place, in places. */
export function nearPlaces({ beatSeconds }: Pick<PulseHypothesis, "beatSeconds">): number {
  return Math.min(NEAR.most, Math.max(NEAR.least, (NEAR.seconds * PLACES_PER_BEAT) / beatSeconds));
}
