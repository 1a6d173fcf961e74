/**
 * Question: at which pulse and turn do the strokes fit this groove best, and how well?
 * Method: all pulses and all turns are tried; the tempo and the place of the first stroke have their say.
 */
import { tempering } from "./background.ts";
import { type Folded, mostOfPhases, PLACES_PER_BEAT, scorePhase } from "./barModel.ts";
import type { GrooveModel } from "./knownGroove.ts";
import { PHASES_TRIED } from "./phases.ts";
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

/** One phase of one pulse a model could be placed on, and what it may come to at most. */
interface Chance {
  readonly pulse: PulseHypothesis;
  readonly folded: Folded;
  readonly phase: number;
  readonly temper: number;
  readonly prior: number;
  readonly most: number;
}

/**
 * The best placing of a model among the pulses; `undefined` when there is no pulse, or none on which it comes to more
 * than `over`. Phases are tried in the order of what they may come to at most, until none can be better than the best.
 */
export function bestPlacing(
  model: GrooveModel,
  pulses: readonly PulseHypothesis[],
  tempoPrior: (tempoBpm: number) => number = () => 0,
  over = Number.NEGATIVE_INFINITY,
): Placing | undefined {
  const chances = chancesOf(model, pulses, tempoPrior, over);
  chances.sort((a, b) => b.most - a.most);
  let best: Placing | undefined;
  let least = over;
  const scores = new Float64Array(model.beats);
  for (const { pulse, folded, phase, temper, prior, most } of chances) {
    if (most <= least) break;
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
function chancesOf(
  model: GrooveModel,
  pulses: readonly PulseHypothesis[],
  tempoPrior: (tempoBpm: number) => number,
  over: number,
): Chance[] {
  const chances: Chance[] = [];
  const mosts = new Float64Array(PHASES_TRIED);
  for (const pulse of pulses) {
    const meant = model.forBeatSeconds;
    if (meant && (pulse.beatSeconds < meant.from || pulse.beatSeconds >= meant.below)) continue;
    const tempo = tempoPrior((60 * model.feltPerPulse) / pulse.beatSeconds);
    if (tempo < HOPELESS_TEMPO) continue;
    const folded = pulse.folded(model.beats);
    const temper = tempering(folded.repeats * folded.beats * pulse.beatSeconds);
    const prior = tempo - folded.mass * Math.log(pulse.beatSeconds) * temper;
    mostOfPhases(model, folded, pulse.phases, mosts);
    pulse.phases.forEach((phase, index) => {
      const most = (mosts[index] ?? 0) * temper + prior + BEGINS_ON_ONE;
      if (most > over) chances.push({ pulse, folded, phase, temper, prior, most });
    });
  }
  return chances;
}
