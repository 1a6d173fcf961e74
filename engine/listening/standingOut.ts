/**
 * Question: how far does a take stand out from grooves in general towards one groove, part by part, and how far would
 * that groove itself?
 * Method: the log likelihood ratio of a Poisson bar against the average bar, split by role; for the groove itself its
 * expectation, the Kullback–Leibler divergence of the two (Kullback & Leibler 1951). A groove that hardly differs from the
 * average bar cannot stand out, however well it is played: the one figure is to be seen beside the other.
 */
import { type Background, tempering } from "./background.ts";
import type { GrooveModel } from "./knownGroove.ts";
import type { Placing } from "./placing.ts";
import { numberOf, ROLE_COUNT, ROLE_WEIGHTS, SOUND_ROLES } from "./roles.ts";

/** Roles told together. */
const PARTS: readonly (readonly number[])[] = [
  [numberOf("kick")],
  [numberOf("back-beat")],
  [numberOf("time-keeper")],
  [numberOf("toms"), numberOf("pedal"), numberOf("crash")],
  [numberOf("snare"), numberOf("cross-stick")],
  [numberOf("closed hi-hat"), numberOf("open hi-hat"), numberOf("ride")],
];

/** The average bar has something everywhere: strokes a place and role. Our choice. */
const USUAL_FLOOR = 0.004;

/** In natural-log units: of the take, and what is expected of the groove itself over as many bars. */
export interface StandingOut {
  readonly take: number;
  readonly groove: number;
}

/** Over all roles by their weights, for each beat, and tempered for the whole take; and of each part, tempered. */
export interface StandingOutByPart {
  readonly perBeat: StandingOut;
  readonly whole: StandingOut;
  readonly parts: readonly StandingOut[];
}

export function standingOut(
  model: GrooveModel,
  { folded, turn, pulse }: Placing,
  general: Background,
): StandingOutByPart {
  const { places, rates } = model;
  const usual = general.average.get(model.beats) ?? general.average.get(4) ?? new Float64Array();
  const usualPlaces = usual.length / ROLE_COUNT;
  const take = new Float64Array(ROLE_COUNT);
  const groove = new Float64Array(ROLE_COUNT);
  const logRatios = new Float64Array(rates.length);
  for (let role = 0; role < ROLE_COUNT; role += 1) {
    for (let place = 0; place < places; place += 1) {
      const at = role * places + place;
      const rate = rates[at] ?? 0;
      const average = (usual[role * usualPlaces + (place % usualPlaces)] ?? 0) + USUAL_FLOOR;
      const logRatio = Math.log(rate / average);
      logRatios[at] = logRatio;
      groove[role] = (groove[role] ?? 0) + rate * logRatio - rate + average;
      take[role] = (take[role] ?? 0) - rate + average;
    }
  }
  SOUND_ROLES.forEach((roles, sound) => {
    for (let place = 0; place < places; place += 1) {
      const count = folded.counts[sound * places + ((place + turn) % places)] ?? 0;
      if (count === 0) continue;
      for (const role of roles)
        take[role] = (take[role] ?? 0) + (count / folded.repeats) * (logRatios[role * places + place] ?? 0);
    }
  });
  const weighed = (of: Float64Array): number =>
    of.reduce((sum, own, role) => sum + own * (ROLE_WEIGHTS[role] ?? 0), 0);
  const temper = tempering(pulse.spanBeats * pulse.beatSeconds) * folded.repeats;
  const sums = { take: weighed(take), groove: weighed(groove) };
  const told = (of: Float64Array, roles: readonly number[]): number =>
    temper * roles.reduce((sum, role) => sum + (of[role] ?? 0), 0);
  return {
    perBeat: { take: sums.take / model.beats, groove: sums.groove / model.beats },
    whole: { take: sums.take * temper, groove: sums.groove * temper },
    parts: PARTS.map((roles) => ({ take: told(take, roles), groove: told(groove, roles) })),
  };
}
