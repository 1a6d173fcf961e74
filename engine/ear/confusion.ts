/**
 * What a listener takes for what: how often each surface was sounded, and as what it was named. What is asked next is drawn
 * from it: what is confused comes up more often.
 */
import type { Moments } from "./question.ts";
import { SURFACES, type Surface } from "./surface.ts";

/** One surface that sounded, and what was said for it; `null` where nothing was. */
export interface HeardAs {
  readonly sounded: Surface;
  readonly named: Surface | null;
}

/**
 * What was said for each surface of a question. Moments are laid side by side by their place; within a moment what is right
 * is taken first, whichever was named first.
 */
export function heardAs(asked: Moments, answered: Moments): readonly HeardAs[] {
  return asked.flatMap((moment, place) => {
    const said = (answered[place] ?? []).map(({ surface }) => surface);
    const right = moment.filter(({ surface }) => said.includes(surface));
    const left = said.filter((each) => !right.some(({ surface }) => surface === each));
    return [
      ...right.map(({ surface }) => ({ sounded: surface, named: surface })),
      ...moment
        .filter((each) => !right.includes(each))
        .map(({ surface }, index) => ({ sounded: surface, named: left[index] ?? null })),
    ];
  });
}

/** A row of the table: a surface that sounded, how often, and what was said for it, the most frequent first. */
export interface ConfusionRow {
  readonly sounded: Surface;
  readonly times: number;
  readonly right: number;
  readonly instead: readonly { readonly named: Surface | null; readonly times: number }[];
}

/** Rows for what was sounded, in the order of the kit. */
export function confusionTable(all: readonly HeardAs[]): readonly ConfusionRow[] {
  return SURFACES.flatMap((sounded): readonly ConfusionRow[] => {
    const of = all.filter((each) => each.sounded === sounded);
    if (of.length === 0) return [];
    const wrong = new Map<Surface | null, number>();
    for (const { named } of of) if (named !== sounded) wrong.set(named, (wrong.get(named) ?? 0) + 1);
    return [
      {
        sounded,
        times: of.length,
        right: of.filter(({ named }) => named === sounded).length,
        instead: [...wrong]
          .map(([named, times]) => ({ named, times }))
          .sort((a, b) => b.times - a.times || String(a.named).localeCompare(String(b.named))),
      },
    ];
  });
}

/**
 * How much a surface should come up in the next question: its share of misses, whether it was sounded or said for another,
 * by Laplace's rule of succession, so that what was never asked comes up as often as what is missed every other time.
 */
export function askingWeight(all: readonly HeardAs[]): (surface: Surface) => number {
  const of = new Map<Surface, { times: number; missed: number }>();
  const count = (surface: Surface, missed: boolean): void => {
    const { times, missed: before } = of.get(surface) ?? { times: 0, missed: 0 };
    of.set(surface, { times: times + 1, missed: before + (missed ? 1 : 0) });
  };
  for (const { sounded, named } of all) {
    count(sounded, named !== sounded);
    if (named !== null && named !== sounded) count(named, true);
  }
  return (surface) => {
    const { times, missed } = of.get(surface) ?? { times: 0, missed: 0 };
    return (missed + 1) / (times + 2);
  };
}
