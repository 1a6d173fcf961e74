/**
 * What was recalled of a list after each look at it: how much, and what a further look gained.
 */

/** What was named between one look and the next. Ids of the list, in the order they were named. */
export interface Look {
  readonly named: readonly string[];
}

export interface LookFigures {
  /** Named after this look, each once. */
  readonly count: number;
  /** Named now, and not after any look before. */
  readonly gained: readonly string[];
  /** Named after the look before, and not now. */
  readonly gone: readonly string[];
  /** All that were named after this look or one before. */
  readonly soFar: number;
}

/**
 * The recall curve: figures look by look.
 *
 * @example
 * recallCurve([{ named: ["a", "b"] }, { named: ["b", "c"] }])[1]
 * // => { count: 2, gained: ["c"], gone: ["a"], soFar: 3 }
 */
export function recallCurve(looks: readonly Look[]): readonly LookFigures[] {
  const ever = new Set<string>();
  let before: readonly string[] = [];
  return looks.map(({ named }) => {
    const now = [...new Set(named)];
    const gained = now.filter((id) => !ever.has(id));
    const gone = before.filter((id) => !now.includes(id));
    for (const id of now) ever.add(id);
    before = now;
    return { count: now.length, gained, gone, soFar: ever.size };
  });
}
