/**
 * Question: how does a take lie on a groove where the groove is played, with fills set aside?
 * Method: a chain of two states over the beats of the pulse (a hidden Markov model, Rabiner 1989, from memory): the player is
 * in the groove or in a fill. Each beat has its likelihood under both; the strokes of each then count as far as it belongs
 * to the groove. In two bars a fill is a quarter or a half of all that is heard, and would else speak against the groove
 * as loudly as the other half speaks for it.
 */
import { FILLS } from "../catalogue/index.ts";
import { addBlurred, type BarModel, barModel, PLACES_PER_BEAT } from "./barModel.ts";
import { KNOWN_FILLS } from "./fillLikelihood.ts";
import type { Placing } from "./placing.ts";
import { numberOf, ROLE_COUNT, ROLE_WEIGHTS, SOUND_COUNT, SOUND_ROLES } from "./roles.ts";

export interface GrooveAlone {
  /** Log of how much likelier the beats are with fills than without, at least about 0. */
  readonly gain: number;
  /** Share of the beats that belong to the groove. */
  readonly share: number;
  readonly counts: Float64Array;
  /** How often each beat of the groove was heard. */
  readonly exposures: Float64Array;
}

interface FP {
  fill: number;
  back: number;
  backBar: number;
  temper: number;
  floor: number;
}
export const DEF: FP = { fill: 0.03, back: 0.3, backBar: 0.3, temper: 0.7, floor: 1 };
const now = (): FP => (globalThis as unknown as { FP?: FP }).FP ?? DEF;
const EARLY = 0.75 / PLACES_PER_BEAT;

const byFloor = new Map<number, BarModel>();
function fillOf(floor: number): BarModel {
  const m = byFloor.get(floor) ?? fillModel(floor);
  byFloor.set(floor, m);
  return m;
}
function fillModel(floor: number): BarModel {
  const beats = FILLS.reduce((sum, fill) => sum + fill.beats, 0);
  const rates = new Float64Array(ROLE_COUNT * PLACES_PER_BEAT);
  for (const { notes } of KNOWN_FILLS)
    for (const { beat, sound } of notes)
      for (const role of SOUND_ROLES[sound] ?? [])
        addBlurred(
          rates,
          { places: PLACES_PER_BEAT, role, place: (beat - Math.floor(beat)) * PLACES_PER_BEAT },
          1 / beats,
        );
  for (let place = 0; place < PLACES_PER_BEAT; place += 1) {
    for (const [role, least] of [
      ["kick", 0.03],
      ["pedal", 0.01],
      ["time-keeper", 0.02],
    ] as const) {
      const slot = numberOf(role) * PLACES_PER_BEAT + place;
      rates[slot] = Math.max(least, rates[slot] ?? 0);
    }
  }
  return barModel(rates, 1, floor);
}

const totals = new WeakMap<BarModel, Float64Array>();
function totalsOf(model: BarModel): Float64Array {
  const known = totals.get(model);
  if (known) return known;
  const sums = new Float64Array(model.beats);
  model.rates.forEach((rate, at) => {
    const beat = Math.floor((at % model.places) / PLACES_PER_BEAT);
    sums[beat] = (sums[beat] ?? 0) + rate * (ROLE_WEIGHTS[Math.floor(at / model.places)] ?? 0);
  });
  totals.set(model, sums);
  return sums;
}

export function grooveAlone(model: BarModel, { pulse, turn }: Pick<Placing, "pulse" | "turn">): GrooveAlone {
  const { fill: P_FILL, back: P_BACK, backBar, temper: T, floor } = now();
  const FILL_MODEL = fillOf(floor);
  const bar = model.beats % 4 === 0 ? 4 : model.beats % 3 === 0 ? 3 : model.beats;
  const { beats, sounds, weights } = pulse.strokes;
  const from = turn / PLACES_PER_BEAT - EARLY;
  const first = (beats[0] ?? 0) - from;
  const last = (beats.at(-1) ?? 0) - from;
  const firstBeat = Math.floor(first);
  const count = Math.floor(last) - firstBeat + 1;
  const covered = new Float64Array(count);
  for (let k = 0; k < count; k += 1) {
    covered[k] = Math.max(0.05, Math.min(last, firstBeat + k + 1) - Math.max(first, firstBeat + k));
  }
  const total = totalsOf(model);
  const at = (k: number): number => (((firstBeat + k) % model.beats) + model.beats) % model.beats;
  const groove = new Float64Array(count);
  const fill = new Float64Array(count);
  for (let k = 0; k < count; k += 1) {
    groove[k] = -(covered[k] ?? 0) * (total[at(k)] ?? 0);
    fill[k] = -(covered[k] ?? 0) * FILL_MODEL.total;
  }
  const slots = new Int32Array(beats.length);
  const of = new Int32Array(beats.length);
  for (let index = 0; index < beats.length; index += 1) {
    const own = (beats[index] ?? 0) - from;
    const k = Math.floor(own) - firstBeat;
    const within = Math.round((own - EARLY_BACK(own)) * PLACES_PER_BEAT);
    const place = ((within % model.places) + model.places) % model.places;
    const sound = sounds[index] ?? 0;
    const weight = weights[index] ?? 0;
    of[index] = k;
    slots[index] = sound * model.places + place;
    groove[k] =
      (groove[k] ?? 0) + weight * (model.turned[2 * sound * model.places + model.places - place] ?? 0);
    fill[k] =
      (fill[k] ?? 0) +
      weight *
        (FILL_MODEL.turned[2 * sound * PLACES_PER_BEAT + PLACES_PER_BEAT - (place % PLACES_PER_BEAT)] ?? 0);
  }
  // Forward and backward.
  const fg = new Float64Array(count),
    ff = new Float64Array(count);
  const start = P_FILL / (P_FILL + P_BACK);
  const lse = (a: number, b: number): number => {
    const m = Math.max(a, b);
    return m + Math.log(Math.exp(a - m) + Math.exp(b - m));
  };
  const [gg, gf] = [Math.log(1 - P_FILL), Math.log(P_FILL)];
  const backAt = (k: number): number => (at(k) % bar === 0 ? backBar : P_BACK);
  for (let k = 0; k < count; k += 1) {
    const [fgg, fff] = [Math.log(backAt(k)), Math.log(1 - backAt(k))];
    const g = k === 0 ? Math.log(1 - start) : lse((fg[k - 1] ?? 0) + gg, (ff[k - 1] ?? 0) + fgg);
    const f = k === 0 ? Math.log(start) : lse((fg[k - 1] ?? 0) + gf, (ff[k - 1] ?? 0) + fff);
    fg[k] = g + T * (groove[k] ?? 0);
    ff[k] = f + T * (fill[k] ?? 0);
  }
  const whole = lse(fg[count - 1] ?? 0, ff[count - 1] ?? 0);
  const chance = new Float64Array(count);
  let bg = 0,
    bf = 0;
  for (let k = count - 1; k >= 0; k -= 1) {
    chance[k] = Math.exp((fg[k] ?? 0) + bg - whole);
    const [fgg, fff] = [Math.log(backAt(k)), Math.log(1 - backAt(k))];
    const eg = bg + T * (groove[k] ?? 0);
    const ef = bf + T * (fill[k] ?? 0);
    bg = lse(gg + eg, gf + ef);
    bf = lse(fgg + eg, fff + ef);
  }
  const counts = new Float64Array(SOUND_COUNT * model.places);
  const exposures = new Float64Array(model.beats);
  let heard = 0,
    all = 0,
    plain = 0;
  for (let k = 0; k < count; k += 1) {
    const c = covered[k] ?? 0;
    exposures[at(k)] = (exposures[at(k)] ?? 0) + c * (chance[k] ?? 0);
    heard += c * (chance[k] ?? 0);
    all += c;
    plain += T * (groove[k] ?? 0);
  }
  for (let index = 0; index < beats.length; index += 1) {
    const slot = slots[index] ?? 0;
    counts[slot] = (counts[slot] ?? 0) + (weights[index] ?? 0) * (chance[of[index] ?? 0] ?? 0);
  }
  return { gain: whole - plain, share: heard / all, counts, exposures };
}

function EARLY_BACK(_own: number): number {
  return EARLY;
}
