/**
 * From evidence to chances.
 * The evidence of a groove is how far its score stands above that of grooves in general. Bars are not
 * independent witnesses, so the evidence is tempered (see background.ts); what is left is turned into chances by
 * a temperature and an offset, fitted for least surprise (log loss) on humanised catalogue grooves and on windows
 * of the development part of the Groove MIDI Dataset, each heard once with its own groove among the known ones
 * and once without. `tests/bench/hearing.test.ts` measures what became of it.
 */

/** Divides evidence, in natural-log units. Fitted. */
const TEMPERATURE = 1.3;
/**
 * Evidence at which a groove and "none I know" are equally likely. Fitted (6.75) with as many unknown grooves as
 * known ones, then lowered: by TEMPERATURE · log 3, since in lessons three takes of four are something from the
 * stock (our assumption), and by a little more, since real players are further from what is written than the
 * humanised catalogue is.
 */
const NONE_AT = 4.5;

/** Calibrated chances, 0 to 1. */
export interface Chances {
  /** In the order the scores were given. */
  readonly grooves: readonly number[];
  readonly none: number;
  /** Whether one of the grooves is likelier than none. */
  /** Whether it is likelier one of the grooves, whichever, than none of them. */
  readonly known: boolean;
}

/**
 * Chances of each groove and of none; they sum to 1.
 *
 * @param scores of the grooves, in natural-log units.
 * @param generalScore of grooves in general, in the same units.
 * @example
 * certainty([-90, -104], -100).known // => true
 * certainty([-99, -104], -100).known // => false
 */
export function certainty(scores: readonly number[], generalScore: number): Chances {
  const logits = [...scores.map((score) => (score - generalScore) / TEMPERATURE), NONE_AT / TEMPERATURE];
  const most = Math.max(...logits);
  const shares = logits.map((logit) => Math.exp(logit - most));
  const whole = shares.reduce((sum, share) => sum + share, 0);
  const chances = shares.map((share) => share / whole);
  const none = chances.pop() ?? 1;
  return { grooves: chances, none, known: none < 0.5 };
}

/**
 * How sure, in words that fit "I am … ." and "heard with … certainty".
 *
 * @example
 * certaintyWords(0.97) // => "nearly sure"
 */
export function certaintyWords(confidence: number): string {
  if (confidence >= 0.985) return "sure";
  if (confidence >= 0.9) return "nearly sure";
  if (confidence >= 0.7) return "fairly sure";
  if (confidence >= 0.5) return "half sure";
  return "not sure";
}
