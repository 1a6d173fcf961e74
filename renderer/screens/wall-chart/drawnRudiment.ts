import type { Chance } from "../../../engine/units/index.ts";

/**
 * Draws the rudiment that is asked next, of those that were asked least often, so that none comes again before all have been;
 * `undefined` of none.
 *
 * @param asked all that were asked so far, each as often as it was.
 */
export function drawnRudiment(
  list: readonly string[],
  asked: readonly string[],
  chance: Chance,
): string | undefined {
  const times = (id: string): number => asked.filter((each) => each === id).length;
  const least = Math.min(...list.map(times));
  const open = list.filter((id) => times(id) === least);
  return open[Math.floor(chance() * open.length)];
}
