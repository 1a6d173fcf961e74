/**
 * Question: at which pulse and turn do the strokes fit this groove best, and how well?
 * Method: all pulses and all turns are tried; the tempo and the place of the first stroke have their say.
 */

import type { Bpm } from "../units/index.ts";
import { tempering } from "./background.ts";
import { type Folded, mostOfPhases, PLACES_PER_BEAT, scorePhase } from "./barModel.ts";
import type { GrooveModel } from "./knownGroove.ts";
import { BEGINS_ON_ONE, beginningPrior, type PulseHypothesis } from "./pulse.ts";

export interface Placing {
  readonly pulse: PulseHypothesis;
  /** The model's first place stands `turn` places after the pulse's beat 0. */
  readonly turn: number;
  readonly folded: Folded;
  /** Tempered log likelihood per second; what tempo and first stroke say is included. */
  readonly score: number;
}

/** A tempo that speaks so much against a groove is not tried, in natural-log units. Our choice. */
const HOPELESS_TEMPO = -6;

/** A pulse a groove may be placed on, with what is the same for all its models. */
export interface SuitingPulse {
  readonly pulse: PulseHypothesis;
  /** Weight of the evidence. */
  readonly temper: number;
  /** What the tempo says, and what makes pulses comparable: log likelihoods are per second. */
  readonly prior: number;
  /** The strokes folded onto one beat. */
  readonly onBeat: Folded;
}

/**
 * Those of the pulses whose tempo does not speak against a groove.
 *
 * @param feltPerPulse felt beats in one beat of the pulse.
 * @param tempoPrior what a felt tempo says for it, in natural-log units.
 */
export function suitingPulses(
  pulses: readonly PulseHypothesis[],
  feltPerPulse: number,
  tempoPrior: (tempoBpm: Bpm) => number = () => 0,
): readonly SuitingPulse[] {
  return pulses.flatMap((pulse) => {
    const { beatSeconds, spanBeats } = pulse;
    const tempo = tempoPrior((60 * feltPerPulse) / beatSeconds);
    if (tempo < HOPELESS_TEMPO) return [];
    const onBeat = pulse.folded(1);
    const temper = tempering(spanBeats * beatSeconds);
    return [{ pulse, temper, prior: tempo - onBeat.mass * Math.log(beatSeconds) * temper, onBeat }];
  });
}

/** One phase of one pulse a model could be placed on, and what it may come to at most. */
interface Chance {
  readonly on: SuitingPulse;
  readonly phase: number;
  readonly most: number;
}

/**
 * The best placing of a model among the pulses; `undefined` when there is no pulse, or none on which it comes to more
 * than `over`. Phases are tried in the order of what they may come to at most, until none can be better than the best.
 */
export function bestPlacing(
  model: GrooveModel,
  pulses: readonly SuitingPulse[],
  over = Number.NEGATIVE_INFINITY,
): Placing | undefined {
  const chances = chancesOf(model, pulses, over);
  if (chances.length === 0) return undefined;
  chances.sort((a, b) => b.most - a.most);
  let best: Placing | undefined;
  let least = over;
  const scores = new Float64Array(model.beats);
  for (const { on, phase, most } of chances) {
    if (most <= least) break;
    const { pulse, temper, prior } = on;
    const folded = pulse.folded(model.beats);
    scorePhase(model, folded, phase, scores);
    for (let beat = 0; beat < model.beats; beat += 1) {
      const turn = phase + beat * PLACES_PER_BEAT;
      const score = (scores[beat] ?? 0) * temper + prior + beginningPrior(pulse, turn, model.places);
      if (score <= least) continue;
      least = score;
      best = { pulse, turn, folded, score };
    }
  }
  return best;
}

/** Those that may come to more than `over`. */
function chancesOf(model: GrooveModel, pulses: readonly SuitingPulse[], over: number): Chance[] {
  const chances: Chance[] = [];
  const meant = model.forBeatSeconds;
  for (const on of pulses) {
    const { pulse, temper, prior, onBeat } = on;
    if (meant && (pulse.beatSeconds < meant.from || pulse.beatSeconds >= meant.below)) continue;
    const mosts = mostOfPhases(model, onBeat, pulse.phases);
    for (let index = 0; index < pulse.phases.length; index += 1) {
      const most = (mosts[index] ?? 0) * temper + prior + BEGINS_ON_ONE;
      if (most > over) chances.push({ on, phase: pulse.phases[index] ?? 0, most });
    }
  }
  return chances;
}
