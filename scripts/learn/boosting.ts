/**
 * Learns boosted trees (Friedman 2001): tree after tree corrects what all before it make of what is right. What could be
 * right is taken each by itself (logistic loss, steps by Newton's method). Each tree is learnt from some of the questions
 * (Friedman 2002); a split is looked for in some of the features, at one limit each, both drawn by chance (Geurts, Ernst &
 * Wehenkel 2006): on players left out such trees were better than those whose limits are all tried.
 */
import type { Tree } from "../../engine/listening/learning.ts";
import type { Chance } from "../../engine/units/index.ts";
import type { Question } from "./regression.ts";

/** How trees are learnt. */
export interface Boosting {
  readonly trees: number;
  /** Ends of a tree, at most. */
  readonly ends: number;
  /** What an end holds, at least. */
  readonly fewest: number;
  /** Share of each step that is taken. */
  readonly step: number;
  /** How strongly the ends are held back. */
  readonly ridge: number;
  /** Share of the features among which a split is looked for. */
  readonly features: number;
  /** Share of the questions a tree is learnt from. */
  readonly questions: number;
}

/** Values are told apart by so many limits at most. */
const MOST_LIMITS = 254;
/** Limits are quantiles of every so manieth. */
const SAMPLED = 7;

/** The trees whose sum tells best what is right. Groups count by the root of how many questions they hold. */
export function learnTrees(questions: readonly Question[], how: Boosting, chance: Chance): readonly Tree[] {
  const asked = binned(questions);
  const told = new Float64Array(asked.right.length);
  const slopes = new Float64Array(told.length);
  const curvatures = new Float64Array(told.length);
  return Array.from({ length: how.trees }, () => {
    asked.right.forEach((right, row) => {
      const share = asked.shares[row] ?? 0;
      const belief = 1 / (1 + Math.exp(-(told[row] ?? 0)));
      slopes[row] = share * (belief - right);
      curvatures[row] = share * belief * (1 - belief);
    });
    const tree = grown(asked, { slopes, curvatures }, how, chance);
    for (let row = 0; row < told.length; row += 1) told[row] = (told[row] ?? 0) + endOf(tree, asked, row);
    return written(tree, asked.limits);
  });
}

/** All that could be right, row by row. */
interface Binned {
  /** By feature, row by row: the number of limits below the value. */
  readonly bins: readonly Uint8Array[];
  /** By feature, rising. */
  readonly limits: readonly Float64Array[];
  readonly right: Uint8Array;
  /** How much each counts; 1 on average over the questions. */
  readonly shares: Float64Array;
  /** Rows of each question: from one to below the next. */
  readonly from: Int32Array;
}

function binned(questions: readonly Question[]): Binned {
  const rows = questions.flatMap(({ features }) => features);
  const limits = Array.from(rows[0] ?? [], (_, at) =>
    limitsOf(rows.filter((_row, index) => index % SAMPLED === 0).map((row) => row[at] ?? 0)),
  );
  const bins = limits.map((own, at) => Uint8Array.from(rows, (row) => limitsBelow(own, row[at] ?? 0)));
  const inGroup = new Map<string, number>();
  for (const { group } of questions) inGroup.set(group, (inGroup.get(group) ?? 0) + 1);
  const shareOf = ({ group }: Question): number => 1 / Math.sqrt(inGroup.get(group) ?? 1);
  const mean = questions.reduce((sum, question) => sum + shareOf(question), 0) / questions.length;
  const from = new Int32Array(questions.length + 1);
  questions.forEach((question, index) => {
    from[index + 1] = (from[index] ?? 0) + question.features.length;
  });
  return {
    bins,
    limits,
    right: Uint8Array.from(questions.flatMap(({ right }) => right.map(Number))),
    shares: Float64Array.from(
      questions.flatMap((question) => question.features.map(() => shareOf(question) / mean)),
    ),
    from,
  };
}

/** Quantiles of these values, each once. */
function limitsOf(values: readonly number[]): Float64Array {
  const sorted = Float64Array.from(values).sort();
  const quantiles = Array.from({ length: MOST_LIMITS }, (_, index) => {
    const exact = sorted[Math.floor(((index + 1) / (MOST_LIMITS + 1)) * (sorted.length - 1))] ?? 0;
    return Number(exact.toPrecision(5));
  });
  return Float64Array.from(new Set(quantiles)).sort();
}

function limitsBelow(limits: Float64Array, value: number): number {
  let low = 0;
  let high = limits.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((limits[middle] ?? 0) < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** A question of a growing tree: whether this bin is above that one. */
interface Split {
  readonly feature: number;
  readonly bin: number;
  readonly gain: number;
}

/** What stands between a question and what follows. */
interface Branch {
  readonly split: Pick<Split, "feature" | "bin">;
  readonly below: Grown;
  readonly above: Grown;
}
type Grown = { readonly end: number } | Branch;

interface Slopes {
  readonly slopes: Float64Array;
  readonly curvatures: Float64Array;
}

/** Rows that are together still, from one to below another of all rows in hand, and where they would best be parted. */
interface Together {
  readonly from: number;
  readonly to: number;
  readonly slope: number;
  readonly curvature: number;
  readonly split: Split | undefined;
}

/** One tree: what gains most is parted first. */
function grown(asked: Binned, of: Slopes, how: Boosting, chance: Chance): Grown {
  const rows = rowsDrawn(asked, how.questions, chance);
  const together = (from: number, to: number): Together => {
    let slope = 0;
    let curvature = 0;
    for (let index = from; index < to; index += 1) {
      slope += of.slopes[rows[index] ?? 0] ?? 0;
      curvature += of.curvatures[rows[index] ?? 0] ?? 0;
    }
    const all = { from, to, slope, curvature };
    return { ...all, split: bestSplit(asked, of, rows, all, how, chance) };
  };
  const nodes = new Map<Together, { split: Split; below: Together; above: Together }>();
  const first = together(0, rows.length);
  let ends: readonly Together[] = [first];
  while (ends.length < how.ends) {
    const most = ends.reduce((best, end) => ((end.split?.gain ?? 0) > (best.split?.gain ?? 0) ? end : best));
    if (!most.split) break;
    const middle = parted(rows, most.from, most.to, asked, most.split);
    const below = together(most.from, middle);
    const above = together(middle, most.to);
    nodes.set(most, { split: most.split, below, above });
    ends = [...ends.filter((end) => end !== most), below, above];
  }
  const made = (here: Together): Grown => {
    const node = nodes.get(here);
    if (!node) return { end: (-how.step * here.slope) / (here.curvature + how.ridge) };
    return { split: node.split, below: made(node.below), above: made(node.above) };
  };
  return made(first);
}

/** Rows of questions drawn by chance. */
function rowsDrawn({ from }: Binned, share: number, chance: Chance): Int32Array {
  const rows: number[] = [];
  for (let question = 0; question + 1 < from.length; question += 1) {
    if (chance() >= share) continue;
    for (let row = from[question] ?? 0; row < (from[question + 1] ?? 0); row += 1) rows.push(row);
  }
  return Int32Array.from(rows);
}

/** The split that gains most, of one in each of some features, all drawn by chance; `undefined` where none gains. */
function bestSplit(
  { bins }: Binned,
  { slopes, curvatures }: Slopes,
  rows: Int32Array,
  all: Omit<Together, "split">,
  { fewest, ridge, features: share }: Boosting,
  chance: Chance,
): Split | undefined {
  const count = all.to - all.from;
  if (count < 2 * fewest) return undefined;
  const worth = (slope: number, curvature: number): number => (slope * slope) / (curvature + ridge);
  const undivided = worth(all.slope, all.curvature);
  let best: Split | undefined;
  for (const [feature, own] of bins.entries()) {
    if (chance() >= share) continue;
    const bin = binDrawn(own, rows.subarray(all.from, all.to), chance);
    if (bin === undefined) continue;
    let slope = 0;
    let curvature = 0;
    let below = 0;
    for (let index = all.from; index < all.to; index += 1) {
      const row = rows[index] ?? 0;
      if ((own[row] ?? 0) > bin) continue;
      slope += slopes[row] ?? 0;
      curvature += curvatures[row] ?? 0;
      below += 1;
    }
    if (below < fewest || count - below < fewest) continue;
    const gain = worth(slope, curvature) + worth(all.slope - slope, all.curvature - curvature) - undivided;
    if (gain > (best?.gain ?? 0)) best = { feature, bin, gain };
  }
  return best;
}

/** A bin between the least and the most of these rows; `undefined` where they are all alike. */
function binDrawn(bins: Uint8Array, rows: Int32Array, chance: Chance): number | undefined {
  let least = MOST_LIMITS;
  let most = 0;
  for (const row of rows) {
    const bin = bins[row] ?? 0;
    if (bin < least) least = bin;
    if (bin > most) most = bin;
  }
  return least < most ? least + Math.floor(chance() * (most - least)) : undefined;
}

/** Moves rows that are not above the split before those that are; where these begin. */
function parted(
  rows: Int32Array,
  from: number,
  to: number,
  { bins }: Binned,
  { feature, bin }: Split,
): number {
  const own = rows.slice(from, to);
  const isBelow = (row: number): boolean => (bins[feature]?.[row] ?? 0) <= bin;
  const below = own.filter(isBelow);
  rows.set(below, from);
  rows.set(
    own.filter((row) => !isBelow(row)),
    from + below.length,
  );
  return from + below.length;
}

function endOf(tree: Grown, { bins }: Binned, row: number): number {
  let here = tree;
  while ("split" in here) {
    const { feature, bin } = here.split;
    here = (bins[feature]?.[row] ?? 0) <= bin ? here.below : here.above;
  }
  return here.end;
}

/** The tree as it is kept. */
function written(tree: Grown, limits: readonly Float64Array[]): Tree {
  const asked: number[] = [];
  const limitsAsked: number[] = [];
  const below: number[] = [];
  const above: number[] = [];
  const ends: number[] = [];
  const write = (here: Grown): number => {
    if (!("split" in here)) return -ends.push(Number(here.end.toPrecision(4)));
    const { feature, bin } = here.split;
    const own = asked.push(feature) - 1;
    limitsAsked.push(limits[feature]?.[bin] ?? 0);
    below[own] = write(here.below);
    above[own] = write(here.above);
    return own;
  };
  write(tree);
  return { asked, limits: limitsAsked, below, above, ends };
}
