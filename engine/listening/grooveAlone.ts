/**
 * Question: how does a take lie on a groove where that groove is played, fills set aside?
 * Method: the player is in the groove or in a fill, beat by beat (a hidden Markov model of two states, its chances by the
 * forward and backward algorithm; Rabiner 1989, from memory). Each beat's strokes then count as far as the beat is the
 * groove's. In two bars a fill is a quarter or half of all that is heard, and would else speak against the groove as loudly
 * as the rest speaks for it.
 */
import { type BarModel, PLACES_PER_BEAT } from "./barModel.ts";
import { FILLS_IN_GENERAL } from "./fillLikelihood.ts";
import type { HeardByBeat } from "./likeness.ts";
import { logAdd } from "./logSum.ts";
import type { Placing } from "./placing.ts";
import { ROLE_WEIGHTS, SOUND_COUNT } from "./roles.ts";

/** What is left of a take when its fills are set aside, laid on a groove. */
export interface GrooveAlone extends HeardByBeat {
  /** Share of what was heard that is the groove's, 0 to 1. */
  readonly share: number;
  /** How much likelier the take is with fills than as the groove throughout, in natural-log units; next to 0 without any. */
  readonly gain: number;
}

/** From a beat of the groove to a fill, and back: fills last three beats and take a fifth of the time. Our choice, tuned on takes left out of learning. */
const TO_FILL = 0.07;
const TO_GROOVE = 0.3;
const STARTS_IN_FILL = TO_FILL / (TO_FILL + TO_GROOVE);
/** An early stroke belongs to the beat it was meant for: so many beats before one are its own. Our choice. */
const EARLY = 0.75 / PLACES_PER_BEAT;
/** A beat of which only the edge was heard counts for so much. */
const LEAST_HEARD = 0.05;

/** What is left of a take, laid on this groove, when its fills are set aside. */
export function grooveAlone(model: BarModel, placing: Pick<Placing, "pulse" | "turn">): GrooveAlone {
  const laid = laidOn(placing);
  const groove = beatLogs(model, laid);
  const fill = beatLogs(FILLS_IN_GENERAL, laid);
  const { chances, log } = chancesOfGroove(groove, fill);
  const counts = new Float64Array(SOUND_COUNT * model.places);
  const exposures = new Float64Array(model.beats);
  let heard = 0;
  let ofGroove = 0;
  laid.heard.forEach((share, beat) => {
    const own = share * (chances[beat] ?? 0);
    const at = turned(laid.firstBeat + beat, model.beats);
    exposures[at] = (exposures[at] ?? 0) + own;
    heard += share;
    ofGroove += own;
  });
  const { sounds, weights } = placing.pulse.strokes;
  laid.places.forEach((place, index) => {
    const slot = (sounds[index] ?? 0) * model.places + turned(place, model.places);
    const own = (weights[index] ?? 0) * (chances[laid.beats[index] ?? 0] ?? 0);
    counts[slot] = (counts[slot] ?? 0) + own;
  });
  return { counts, exposures, share: ofGroove / heard, gain: log - groove.reduce((a, b) => a + b, 0) };
}

function turned(place: number, around: number): number {
  return ((place % around) + around) % around;
}

/** A take on the beats of a groove. */
interface Laid {
  readonly strokes: Placing["pulse"]["strokes"];
  /** Number of the take's first beat, 0 being one the groove begins at. */
  readonly firstBeat: number;
  /** Of each beat, how much was heard: less than 1 of the first and the last. */
  readonly heard: Float64Array;
  /** Of each stroke its beat, from 0, and its place, from a beginning of the groove. */
  readonly beats: Float64Array;
  readonly places: Float64Array;
}

function laidOn({ pulse: { strokes }, turn }: Pick<Placing, "pulse" | "turn">): Laid {
  const from = turn / PLACES_PER_BEAT;
  const first = (strokes.beats[0] ?? 0) - from + EARLY;
  const last = (strokes.beats.at(-1) ?? 0) - from + EARLY;
  const firstBeat = Math.floor(first);
  const heard = Float64Array.from({ length: Math.floor(last) - firstBeat + 1 }, (_, index) => {
    const beat = firstBeat + index;
    return Math.max(LEAST_HEARD, Math.min(last, beat + 1) - Math.max(first, beat));
  });
  const beats = strokes.beats.map((beat) => Math.floor(beat - from + EARLY) - firstBeat);
  const places = strokes.beats.map((beat) => Math.round((beat - from) * PLACES_PER_BEAT));
  return { strokes, firstBeat, heard, beats, places };
}

/** Log likelihood of each beat under a groove (see `barModel.ts`), up to a constant of the strokes. */
function beatLogs(model: BarModel, { strokes, firstBeat, heard, beats, places }: Laid): Float64Array {
  const expected = expectedByBeat(model);
  const logs = heard.map((share, beat) => -share * (expected[turned(firstBeat + beat, model.beats)] ?? 0));
  const { sounds, weights } = strokes;
  places.forEach((place, index) => {
    const beat = beats[index] ?? 0;
    const row = (2 * (sounds[index] ?? 0) + 1) * model.places - turned(place, model.places);
    logs[beat] = (logs[beat] ?? 0) + (weights[index] ?? 0) * (model.turned[row] ?? 0);
  });
  return logs;
}

const expectedOf = new WeakMap<BarModel, Float64Array>();

/** Weighted strokes a groove has in each of its beats. */
function expectedByBeat(model: BarModel): Float64Array {
  const known = expectedOf.get(model);
  if (known) return known;
  const sums = new Float64Array(model.beats);
  model.rates.forEach((rate, slot) => {
    const beat = Math.floor((slot % model.places) / PLACES_PER_BEAT);
    sums[beat] = (sums[beat] ?? 0) + rate * (ROLE_WEIGHTS[Math.floor(slot / model.places)] ?? 0);
  });
  expectedOf.set(model, sums);
  return sums;
}

/** Of each beat the chance that it is the groove's, and the log likelihood of all of them. */
function chancesOfGroove(
  groove: Float64Array,
  fill: Float64Array,
): { readonly chances: Float64Array; readonly log: number } {
  const [stays, leaves] = [Math.log(1 - TO_FILL), Math.log(TO_FILL)];
  const [goesOn, comesBack] = [Math.log(1 - TO_GROOVE), Math.log(TO_GROOVE)];
  const beats = groove.length;
  const inGroove = new Float64Array(beats);
  const inFill = new Float64Array(beats);
  let toGroove = Math.log(1 - STARTS_IN_FILL);
  let toFill = Math.log(STARTS_IN_FILL);
  for (let beat = 0; beat < beats; beat += 1) {
    const played = toGroove + (groove[beat] ?? 0);
    const filled = toFill + (fill[beat] ?? 0);
    inGroove[beat] = played;
    inFill[beat] = filled;
    toGroove = logAdd(played + stays, filled + comesBack);
    toFill = logAdd(played + leaves, filled + goesOn);
  }
  const log = logAdd(inGroove[beats - 1] ?? 0, inFill[beats - 1] ?? 0);
  let afterGroove = 0;
  let afterFill = 0;
  const chances = new Float64Array(beats);
  for (let beat = beats - 1; beat >= 0; beat -= 1) {
    chances[beat] = Math.exp((inGroove[beat] ?? 0) + afterGroove - log);
    const played = (groove[beat] ?? 0) + afterGroove;
    const filled = (fill[beat] ?? 0) + afterFill;
    afterGroove = logAdd(played + stays, filled + leaves);
    afterFill = logAdd(played + comesBack, filled + goesOn);
  }
  return { chances, log };
}
