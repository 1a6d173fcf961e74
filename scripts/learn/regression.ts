/**
 * Conditional logistic regression (McFadden 1974): of several that could be right, each with its features, the chance of
 * each is its share of the exponentials of weighed features. Learnt by gradient descent (Adam; Kingma & Ba 2015) with a
 * ridge.
 */

/** What could be right, with its features, and what is. Groups count by the root of how many questions they hold. */
export interface Question {
  readonly group: string;
  readonly features: readonly Float64Array[];
  readonly right: readonly boolean[];
}

const ROUNDS = 400;
const STEP = 0.03;
const RIDGE = 0.005;

/**
 * The weights of the features, to be multiplied with features as they are.
 *
 * @param free numbers of the features that are not held back: what listening already trusts.
 */
export function learnWeights(questions: readonly Question[], free: readonly number[]): readonly number[] {
  const { means, deviations } = scales(questions);
  const inGroup = new Map<string, number>();
  for (const { group } of questions) inGroup.set(group, (inGroup.get(group) ?? 0) + 1);
  const asked = questions.map(({ group, features, right }) => ({
    right,
    share: 1 / Math.sqrt(inGroup.get(group) ?? 1),
    features: features.map((own) =>
      own.map((value, at) => (value - (means[at] ?? 0)) / (deviations[at] ?? 1)),
    ),
  }));
  const whole = asked.reduce((sum, { share }) => sum + share, 0);
  const size = means.length;
  const weights = new Float64Array(size);
  for (const at of free) weights[at] = deviations[at] ?? 1;
  const mean = new Float64Array(size);
  const square = new Float64Array(size);
  for (let round = 1; round <= ROUNDS; round += 1) {
    const slope = weights.map((weight, at) => (free.includes(at) ? 0 : RIDGE * weight));
    for (const { features, right, share } of asked) {
      const chances = sharesOf(features.map((own) => dot(own, weights)));
      const ofRight = chances.reduce((sum, chance, index) => sum + (right[index] ? chance : 0), 0);
      features.forEach((own, index) => {
        const chance = chances[index] ?? 0;
        const pull = ((chance - (right[index] ? chance / ofRight : 0)) * share) / whole;
        if (Math.abs(pull) < 1e-10) return;
        for (let at = 0; at < size; at += 1) slope[at] = (slope[at] ?? 0) + pull * (own[at] ?? 0);
      });
    }
    const step = STEP * (1 - (0.9 * round) / ROUNDS);
    for (let at = 0; at < size; at += 1) {
      const own = slope[at] ?? 0;
      mean[at] = 0.9 * (mean[at] ?? 0) + 0.1 * own;
      square[at] = 0.999 * (square[at] ?? 0) + 0.001 * own * own;
      const even = (mean[at] ?? 0) / (1 - 0.9 ** round);
      weights[at] =
        (weights[at] ?? 0) - (step * even) / (Math.sqrt((square[at] ?? 0) / (1 - 0.999 ** round)) + 1e-8);
    }
  }
  // What is subtracted of every feature is the same for all bars of a question, and falls out.
  return Array.from(weights, (weight, at) => Number((weight / (deviations[at] ?? 1)).toPrecision(5)));
}

function scales(questions: readonly Question[]): {
  readonly means: readonly number[];
  readonly deviations: readonly number[];
} {
  const all = questions.flatMap(({ features }) => features);
  const size = all[0]?.length ?? 0;
  const means = Array.from(
    { length: size },
    (_, at) => all.reduce((sum, own) => sum + (own[at] ?? 0), 0) / all.length,
  );
  const deviations = means.map(
    (mean, at) =>
      Math.sqrt(all.reduce((sum, own) => sum + ((own[at] ?? 0) - mean) ** 2, 0) / all.length) || 1,
  );
  return { means, deviations };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let at = 0; at < a.length; at += 1) sum += (a[at] ?? 0) * (b[at] ?? 0);
  return sum;
}

function sharesOf(logits: readonly number[]): readonly number[] {
  const most = Math.max(...logits);
  const shares = logits.map((logit) => Math.exp(logit - most));
  const whole = shares.reduce((a, b) => a + b, 0);
  return shares.map((share) => share / whole);
}
