/**
 * Question: what is played next?
 *
 * Method: only what this student has met, drawn by lot, what is more likely forgotten more often; and one new thing in a
 * round, after something that was met. A student who has met less than a handful meets more new ones, since one thing alone
 * is no question.
 */
import type { Chance } from "../../units/index.ts";
import type { SpottingQuestion } from "./round.ts";
import type { Spottable } from "./spottable.ts";
import { type Thing, thingKey } from "./thing.ts";

/** Something that may be played, and how it stands with this student. */
export interface Askable {
  readonly spottable: Spottable;
  /** Chance that its name is forgotten today, 0 to 1; `null`: never met. */
  readonly chanceForgotten: number | null;
}

export interface DrawnThing {
  readonly spottable: Spottable;
  readonly isNew: boolean;
}

/** With fewer than these to choose from, naming is guessing. Our choice. */
export const FEWEST_MET = 4;
/** What was met comes up now and then, however fresh. Our choice. */
const LEAST_WEIGHT = 0.1;
/** So many others are asked before the same thing comes again, where there are so many. Our choice. */
const OTHERS_BETWEEN = 3;

/**
 * Draws what is played next; `null` where there is nothing at all.
 *
 * @param askable in the order in which new things are met.
 * @param past the program's own questions of this round, to this student.
 */
export function nextThing(
  askable: readonly Askable[],
  past: readonly Pick<SpottingQuestion, "key">[],
  chance: Chance,
): DrawnThing | null {
  const asked = past.flatMap(({ key }) => (key.by === "program" ? [key] : []));
  const timesOf = (thing: Thing): number =>
    asked.filter((each) => thingKey(each.thing) === thingKey(thing)).length;
  // What was new in this round has been met by now.
  const isMet = ({ spottable, chanceForgotten }: Askable): boolean =>
    chanceForgotten !== null || timesOf(spottable.thing) > 0;
  const met = askable.filter(isMet);
  const [fresh] = begunWithEveryday(askable.filter((each) => !isMet(each)));
  const newOnes = asked.filter(({ isNew }) => isNew).length;
  const isNewDue = newOnes === 0 || met.length < FEWEST_MET;
  // Something that was met comes first, where there is something.
  if (fresh && (met.length === 0 || (asked.length > 0 && isNewDue)))
    return { spottable: fresh.spottable, isNew: true };
  const between = Math.min(OTHERS_BETWEEN, met.length - 1);
  const latest = new Set(between > 0 ? asked.slice(-between).map(({ thing }) => thingKey(thing)) : []);
  const due = met.filter(({ spottable }) => !latest.has(thingKey(spottable.thing)));
  const weights = due.map(
    ({ spottable, chanceForgotten }) =>
      Math.max(LEAST_WEIGHT, chanceForgotten ?? 1) / (1 + timesOf(spottable.thing)) ** 2,
  );
  const drawn = due[placeDrawn(weights, chance)];
  return drawn ? { spottable: drawn.spottable, isNew: false } : null;
}

function begunWithEveryday(fresh: readonly Askable[]): readonly Askable[] {
  return [...fresh].sort((a, b) => Number(b.spottable.isEveryday) - Number(a.spottable.isEveryday));
}

/** A place by lot, each as likely as its weight. */
function placeDrawn(weights: readonly number[], chance: Chance): number {
  let left = chance() * weights.reduce((sum, each) => sum + each, 0);
  for (const [place, weight] of weights.entries()) {
    left -= weight;
    if (left < 0) return place;
  }
  return weights.length - 1;
}
