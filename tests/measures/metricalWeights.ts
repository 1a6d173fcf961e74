/**
 * How strong a place of the bar is, and how much a rhythm runs against it.
 * Source: Longuet-Higgins & Lee, "The rhythmic interpretation of monophonic music", Music Perception 1 (1984) 424–441;
 * values for 4/4 in sixteenths as used by Fitch & Rosenfeld, Music Perception 25 (2007) 43–58.
 */

/** The weights of a bar whose levels divide by these numbers: the downbeat is 0, each finer level one less. */
export function metricalWeights(divisions: readonly number[]): readonly number[] {
  return divisions.reduce<readonly number[]>(
    (weights, parts, level) =>
      weights.flatMap((weight) => [weight, ...new Array<number>(parts - 1).fill(-(level + 1))]),
    [0],
  );
}

/**
 * The syncopation of a rhythm round and round: for each onset, by how much the strongest rest before the next onset is
 * stronger than it, where it is.
 *
 * @param onsets for each place, whether a note begins there.
 */
export function syncopation(onsets: readonly boolean[], weights: readonly number[]): number {
  const places = onsets.length;
  return onsets.reduce((sum, begins, place) => {
    if (!begins) return sum;
    let strongest = Number.NEGATIVE_INFINITY;
    for (let after = 1; after < places && !onsets[(place + after) % places]; after += 1) {
      strongest = Math.max(strongest, weights[(place + after) % places] ?? 0);
    }
    return sum + Math.max(0, strongest - (weights[place] ?? 0));
  }, 0);
}
