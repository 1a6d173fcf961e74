/**
 * Question: how far apart are two rhythms?
 *
 * A rhythm is a row of pulses, each struck or silent. Four distances of the literature, each with its own idea of what a
 * small change is (compared in Toussaint, "A comparison of rhythmic similarity measures", Proc. ISMIR 2004):
 *
 * - **Hamming**: at how many pulses they differ (Hamming 1950).
 * - **edit**: how many pulses must be put in, taken out or changed (Levenshtein 1966).
 * - **swap**: how many exchanges of neighbouring pulses make one of the other (Toussaint, Bridges 2002). With unequal numbers
 *   of strokes every stroke of the denser one goes to a stroke of the sparser one and none is left without (the directed swap
 *   distance, Díaz-Báñez, Farigu, Gómez, Rappaport & Toussaint, Bridges 2004; from memory).
 * - **chronotonic**: the area between the two chains of intervals, each pulse standing as high as the interval it lies in is
 *   long (Gustafson 1988; Hofmann-Engl 2002).
 */

/** One value a pulse: struck or silent. */
export type OnsetPattern = readonly boolean[];

/** Thrown when two patterns that must be equally long are not. */
export class PatternError extends Error {
  override readonly name = "PatternError";
}

/**
 * A pattern from its text.
 *
 * @example
 * onsetPattern("x..x..x.").filter(Boolean).length // => 3
 */
export function onsetPattern(text: string): OnsetPattern {
  return [...text].map((mark) => mark === "x");
}

/**
 * Pulses at which the two differ.
 *
 * @throws PatternError when they are not equally long.
 * @example
 * hammingDistance(onsetPattern("x.x."), onsetPattern("x..x")) // => 2
 */
export function hammingDistance(a: OnsetPattern, b: OnsetPattern): number {
  equallyLong(a, b);
  return a.filter((struck, at) => struck !== b[at]).length;
}

/**
 * Insertions, deletions and substitutions that make one sequence of the other.
 *
 * @example
 * editDistance([..."kitten"], [..."sitting"]) // => 3
 */
export function editDistance<T>(a: readonly T[], b: readonly T[]): number {
  let row = Array.from({ length: b.length + 1 }, (_, at) => at);
  a.forEach((value, index) => {
    const next = [index + 1];
    b.forEach((other, at) => {
      next.push(
        Math.min((row[at + 1] ?? 0) + 1, (next[at] ?? 0) + 1, (row[at] ?? 0) + (value === other ? 0 : 1)),
      );
    });
    row = next;
  });
  return row[b.length] ?? 0;
}

/**
 * Exchanges of neighbouring pulses; `null` where only one of the two is silent, since no exchange makes a stroke.
 *
 * @throws PatternError when they are not equally long.
 * @example
 * swapDistance(onsetPattern("x..x"), onsetPattern("x.x.")) // => 1
 */
export function swapDistance(a: OnsetPattern, b: OnsetPattern): number | null {
  equallyLong(a, b);
  const [sparse = [], dense = []] = [strokesOf(a), strokesOf(b)].sort((x, y) => x.length - y.length);
  if (sparse.length === 0) return dense.length === 0 ? 0 : null;
  // row[k]: the least way of the strokes so far, the last of them at the k-th of the sparser one.
  let row = sparse.map((place, k) =>
    k === 0 ? Math.abs(place - (dense[0] ?? 0)) : Number.POSITIVE_INFINITY,
  );
  for (const stroke of dense.slice(1)) {
    row = sparse.map(
      (place, k) => Math.min(row[k] ?? 0, row[k - 1] ?? Number.POSITIVE_INFINITY) + Math.abs(place - stroke),
    );
  }
  return row.at(-1) ?? null;
}

/**
 * Area between the chains of intervals, in pulses times pulses, the pattern taken as a circle; `null` where one of the two
 * is silent.
 *
 * @throws PatternError when they are not equally long.
 * @example
 * chronotonicDistance(onsetPattern("x.x."), onsetPattern("x..x")) // => 4
 */
export function chronotonicDistance(a: OnsetPattern, b: OnsetPattern): number | null {
  equallyLong(a, b);
  const [chainA, chainB] = [chain(a), chain(b)];
  if (!chainA || !chainB) return null;
  return chainA.reduce((sum, height, at) => sum + Math.abs(height - (chainB[at] ?? 0)), 0);
}

/** For each pulse the length of the interval it lies in, around the circle. */
function chain(pattern: OnsetPattern): readonly number[] | undefined {
  const strokes = strokesOf(pattern);
  const [first] = strokes;
  if (first === undefined) return undefined;
  const heights = new Array<number>(pattern.length).fill(0);
  strokes.forEach((stroke, at) => {
    const next = strokes[at + 1] ?? first + pattern.length;
    for (let pulse = stroke; pulse < next; pulse += 1) heights[pulse % pattern.length] = next - stroke;
  });
  return heights;
}

function strokesOf(pattern: OnsetPattern): readonly number[] {
  return pattern.flatMap((struck, at) => (struck ? [at] : []));
}

function equallyLong(a: OnsetPattern, b: OnsetPattern): void {
  if (a.length !== b.length)
    throw new PatternError(
      `One rhythm has ${a.length} pulses and the other ${b.length}: lay both on equally many before comparing them.`,
    );
}
