/**
 * Question: at which pulse and turn do the strokes fit this groove best, and how well?
 * Method: all pulses and all turns are tried; the tempo and the place of the first stroke have their say.
 */
import { tempering } from "./background.ts";
import { type Folded, scoreTurns, turnAt } from "./barModel.ts";
import type { GrooveModel } from "./knownGroove.ts";
import { beginningPrior, foldPulse, type PulseHypothesis } from "./pulse.ts";

export interface Placing {
  readonly pulse: PulseHypothesis;
  /** The model's first place stands `turn` places after the pulse's beat 0. */
  readonly turn: number;
  readonly folded: Folded;
  /** Tempered log likelihood per second; what tempo and first stroke say is included. */
  readonly score: number;
}

/** Folds are shared by all models of one length. */
export class Folds {
  readonly #folds = new Map<PulseHypothesis, Map<number, Folded>>();

  get(pulse: PulseHypothesis, beats: number): Folded {
    const ofPulse = this.#folds.get(pulse) ?? new Map<number, Folded>();
    this.#folds.set(pulse, ofPulse);
    const known = ofPulse.get(beats) ?? foldPulse(pulse, beats);
    ofPulse.set(beats, known);
    return known;
  }
}

/** A tempo that speaks so much against a groove is not tried, in natural-log units. Our choice. */
const HOPELESS_TEMPO = -6;

/** The best placing of a model among the pulses; `undefined` when there is no pulse. */
export function bestPlacing(
  model: GrooveModel,
  pulses: readonly PulseHypothesis[],
  tempoPrior: (tempoBpm: number) => number = () => 0,
  folds: Folds = new Folds(),
): Placing | undefined {
  let best: Placing | undefined;
  for (const pulse of pulses) {
    const meant = model.forBeatSeconds;
    if (meant && (pulse.beatSeconds < meant.from || pulse.beatSeconds >= meant.below)) continue;
    const tempo = tempoPrior((60 * model.feltPerPulse) / pulse.beatSeconds);
    if (tempo < HOPELESS_TEMPO) continue;
    const folded = folds.get(pulse, model.beats);
    const temper = tempering(folded.repeats * folded.beats * pulse.beatSeconds);
    const prior = tempo - folded.mass * Math.log(pulse.beatSeconds) * temper;
    const scores = new Float64Array(model.beats * pulse.phases.length);
    scoreTurns(model, folded, pulse.phases, scores);
    for (let index = 0; index < scores.length; index += 1) {
      const turn = turnAt({ beats: model.beats, phases: pulse.phases }, index);
      const score = (scores[index] ?? 0) * temper + prior + beginningPrior(pulse, turn, model.places);
      if (best === undefined || score > best.score) best = { pulse, turn, folded, score };
    }
  }
  return best;
}
