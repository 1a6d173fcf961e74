/**
 * Question: of a list named in its order, which names slipped, and where do they belong?
 * Method: the longest run of names that are in order among themselves (longest increasing subsequence; Schensted 1961):
 * those are right, whatever was left out between them; the others have moved, and are told with their place.
 */

export interface OrderSlip {
  /** The place, from 1, at which it was named. */
  readonly at: number;
  readonly id: string;
  /** The place, from 1, that it has on the list. */
  readonly belongsAt: number;
}

export interface NamedInOrder {
  /** In order among themselves. */
  readonly inOrder: readonly string[];
  readonly moved: readonly OrderSlip[];
  /** On the list and not named, in its order. */
  readonly leftOut: readonly string[];
}

/**
 * @param named each once, in the order they were named; those not of the list are passed over.
 * @example
 * namedInOrder(["a", "c", "b", "d"], ["a", "b", "c", "d"]).moved
 * // => [{ at: 2, id: "c", belongsAt: 3 }]
 */
export function namedInOrder(named: readonly string[], list: readonly string[]): NamedInOrder {
  const said = [...new Set(named)].flatMap((id, at) => {
    const place = list.indexOf(id);
    return place < 0 ? [] : [{ id, at: at + 1, place }];
  });
  // The longest run that ends at each name, and the name before it in that run.
  const runs: { readonly length: number; readonly before: number }[] = [];
  said.forEach(({ place }, at) => {
    let best = { length: 1, before: -1 };
    for (let earlier = 0; earlier < at; earlier += 1) {
      const length = (runs[earlier]?.length ?? 0) + 1;
      // Of runs of the same length the later one: what was named too early has moved, not all that came after it.
      if ((said[earlier]?.place ?? 0) < place && length >= best.length) best = { length, before: earlier };
    }
    runs.push(best);
  });
  const kept = new Set<number>();
  let last = runs.reduce((best, { length }, at) => (length >= (runs[best]?.length ?? 0) ? at : best), 0);
  while (last >= 0 && last < runs.length) {
    kept.add(last);
    last = runs[last]?.before ?? -1;
  }
  return {
    inOrder: said.filter((_, at) => kept.has(at)).map(({ id }) => id),
    moved: said.flatMap(({ id, at, place }, index) =>
      kept.has(index) ? [] : [{ at, id, belongsAt: place + 1 }],
    ),
    leftOut: list.filter((id) => !said.some((each) => each.id === id)),
  };
}
