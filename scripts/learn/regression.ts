/**
 * Conditional logistic regression (McFadden 1974): of several that could be right, each with its features, the chance of
 * each is its share of the exponentials of weighed features. Learnt by Newton's method with Fisher's expected curvature
 * (scoring; Nocedal & Wright 2006, chapter 10, from memory) and a ridge: it ends at the one best answer, which steps of
 * fixed length along the slope did not reach.
 */
import { CholeskyDecomposition, Matrix } from "ml-matrix";
import type { Weight } from "../../engine/listening/learning.ts";

/** What could be right, with its features, and what is. Groups count by the root of how many questions they hold. */
export interface Question {
  readonly group: string;
  readonly features: readonly Float64Array[];
  readonly right: readonly boolean[];
  /** Whether none of them is right, where that may be: its features count as nothing. */
  readonly noneIsRight?: boolean;
}

/** How weights are learnt. */
export interface Learning {
  /** How strongly weights are held back. */
  readonly ridge: number;
  /** A feature further from its mean than so many standard deviations is told as one so far. */
  readonly apart: number;
}

const MOST_ROUNDS = 200;
/** A round that betters the loss by less than this share of it is the last. */
const LEAST_GAIN = 1e-9;
/** In the curvature of each weight, so that a feature of which no question tells anything keeps its own. */
const DAMPING = 1e-9;
const MOST_HALVINGS = 30;

/**
 * The weights of the features, to be multiplied with features as they are.
 *
 * @param free numbers of the features that are not held back: what listening already trusts.
 * @param how how strongly the others are, and how many standard deviations from its mean a feature is told from its limit.
 */
export function learnWeights(
  questions: readonly Question[],
  free: readonly number[],
  { ridge, apart }: Learning,
): readonly Weight[] {
  const { means, deviations } = scales(questions);
  const low = means.map((mean, at) => mean - apart * (deviations[at] ?? 1));
  const high = means.map((mean, at) => mean + apart * (deviations[at] ?? 1));
  const asked = scaled(questions, (value, at) => {
    const told = Math.max(low[at] ?? value, Math.min(high[at] ?? value, value));
    return told / (deviations[at] ?? 1);
  });
  const held = means.map((_, at) => (free.includes(at) ? 0 : ridge));
  let weights = Float64Array.from(means, (_, at) => (free.includes(at) ? (deviations[at] ?? 1) : 0));
  let { loss, slope, curvature } = slopes(asked, weights, held);
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const step = new CholeskyDecomposition(curvature).solve(Matrix.columnVector([...slope])).to1DArray();
    const better = shortened(asked, weights, held, step, loss);
    if (!better) break;
    const gain = loss - better.loss;
    weights = better.weights;
    ({ loss, slope, curvature } = slopes(asked, weights, held));
    if (gain <= LEAST_GAIN * Math.abs(loss)) break;
  }
  const short = (value: number): number => Number(value.toPrecision(5));
  return Array.from(weights, (weight, at) => ({
    weight: short(weight / (deviations[at] ?? 1)),
    low: short(low[at] ?? 0),
    high: short(high[at] ?? 0),
  }));
}

interface Asked {
  readonly features: readonly Float64Array[];
  readonly right: readonly boolean[];
  readonly noneIsRight: boolean | undefined;
  /** How much it counts; those of all questions sum to 1. */
  readonly share: number;
}

function scaled(
  questions: readonly Question[],
  told: (value: number, at: number) => number,
): readonly Asked[] {
  const inGroup = new Map<string, number>();
  for (const { group } of questions) inGroup.set(group, (inGroup.get(group) ?? 0) + 1);
  const share = ({ group }: Question): number => 1 / Math.sqrt(inGroup.get(group) ?? 1);
  const whole = questions.reduce((sum, question) => sum + share(question), 0);
  return questions.map((question) => ({
    features: question.features.map((own) => own.map(told)),
    right: question.right,
    noneIsRight: question.noneIsRight,
    share: share(question) / whole,
  }));
}

/** Chances of what could be right, beforehand and once it is known that a right one is; none comes last where it may be. */
function chancesOf(
  { features, right, noneIsRight }: Asked,
  weights: Float64Array,
): { readonly chances: readonly number[]; readonly known: readonly number[]; readonly ofRight: number } {
  const logits = features.map((own) => dot(own, weights));
  const isRight = [...right];
  if (noneIsRight !== undefined) {
    logits.push(0);
    isRight.push(noneIsRight);
  }
  const most = Math.max(...logits);
  const shares = logits.map((logit) => Math.exp(logit - most));
  const whole = shares.reduce((a, b) => a + b, 0);
  const mostRight = Math.max(...logits.filter((_, index) => isRight[index]));
  const sharesRight = logits.map((logit, index) => (isRight[index] ? Math.exp(logit - mostRight) : 0));
  const wholeRight = sharesRight.reduce((a, b) => a + b, 0);
  return {
    chances: shares.map((share) => share / whole),
    known: sharesRight.map((share) => share / wholeRight),
    ofRight: mostRight + Math.log(wholeRight) - most - Math.log(whole),
  };
}

/** The mean log loss with its ridge. */
function lossOf(asked: readonly Asked[], weights: Float64Array, held: readonly number[]): number {
  const ridge = held.reduce((sum, own, at) => sum + 0.5 * own * (weights[at] ?? 0) ** 2, 0);
  return asked.reduce((sum, one) => sum - one.share * chancesOf(one, weights).ofRight, ridge);
}

/** The loss, its slope, and its expected curvature, row by row. */
function slopes(
  asked: readonly Asked[],
  weights: Float64Array,
  held: readonly number[],
): { readonly loss: number; readonly slope: Float64Array; readonly curvature: Matrix } {
  const size = weights.length;
  const slope = Float64Array.from(weights, (weight, at) => (held[at] ?? 0) * weight);
  const curvature = Array.from({ length: size }, (_, at) => {
    const row = new Float64Array(size);
    row[at] = (held[at] ?? 0) + DAMPING;
    return row;
  });
  let loss = held.reduce((sum, own, at) => sum + 0.5 * own * (weights[at] ?? 0) ** 2, 0);
  for (const one of asked) {
    const { chances, known, ofRight } = chancesOf(one, weights);
    loss -= one.share * ofRight;
    const mean = new Float64Array(size);
    one.features.forEach((own, index) => {
      const chance = chances[index] ?? 0;
      const pull = one.share * (chance - (known[index] ?? 0));
      for (let at = 0; at < size; at += 1) {
        slope[at] = (slope[at] ?? 0) + pull * (own[at] ?? 0);
        mean[at] = (mean[at] ?? 0) + chance * (own[at] ?? 0);
      }
      addSquare(curvature, own, one.share * chance);
    });
    addSquare(curvature, mean, -one.share);
  }
  return { loss, slope, curvature: mirrored(curvature) };
}

/** Adds so much of the outer product of these numbers with themselves: its rows as far as the diagonal. */
function addSquare(rows: readonly Float64Array[], own: Float64Array, much: number): void {
  if (Math.abs(much) < 1e-14) return;
  rows.forEach((row, from) => {
    const value = much * (own[from] ?? 0);
    if (value === 0) return;
    for (let to = 0; to <= from; to += 1) row[to] = (row[to] ?? 0) + value * (own[to] ?? 0);
  });
}

/** A symmetric matrix of its rows as far as the diagonal. */
function mirrored(rows: readonly Float64Array[]): Matrix {
  const matrix = new Matrix([...rows]);
  rows.forEach((row, from) => {
    for (let to = 0; to < from; to += 1) matrix.set(to, from, row[to] ?? 0);
  });
  return matrix;
}

/** The step, halved until it betters the loss; `undefined` where no step does. */
function shortened(
  asked: readonly Asked[],
  weights: Float64Array,
  held: readonly number[],
  step: readonly number[],
  loss: number,
): { readonly weights: Float64Array<ArrayBuffer>; readonly loss: number } | undefined {
  for (let halving = 0; halving < MOST_HALVINGS; halving += 1) {
    const moved = Float64Array.from(weights, (weight, at) => weight - (step[at] ?? 0) / 2 ** halving);
    const then = lossOf(asked, moved, held);
    if (then < loss) return { weights: moved, loss: then };
  }
  return undefined;
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
