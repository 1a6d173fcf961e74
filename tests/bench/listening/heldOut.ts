/**
 * What listening is measured on: human takes of two drummers it has learnt nothing from, and grooves in general learnt
 * without them. The bars that ship are learnt from all drummers; measured with those, listening would know the answers.
 * Data: Groove MIDI Dataset v1.0.0 (Gillick, Roberts, Engel, Eck & Bamman, ICML 2019; CC BY 4.0).
 */
import type { Hit } from "../../../engine/kit/index.ts";
import { type Background, readBackground } from "../../../engine/listening/index.ts";
import withoutTestDrummers from "../../fixtures/bars-without-test-drummers.json" with { type: "json" };
import {
  DEVELOPMENT_TAKES_ARE_HERE,
  type DevelopmentTake,
  developmentFills,
  developmentGrooves,
  strikesOfTake,
} from "../../reference/developmentTakes.ts";

const TEST_DRUMMERS = /^drummer[79]\//;

/** Grooves in general, learnt from the other drummers only. */
export const BACKGROUND: Background = readBackground(withoutTestDrummers);

export interface HumanTake extends DevelopmentTake {
  readonly hits: readonly Hit[];
}

/** Grooves by the held-out drummers; none where the large data set is not beside the project. */
export function heldOutTakes(): readonly HumanTake[] {
  return DEVELOPMENT_TAKES_ARE_HERE ? read(developmentGrooves()) : [];
}

/** Fills by the held-out drummers. */
export function heldOutFills(): readonly HumanTake[] {
  return DEVELOPMENT_TAKES_ARE_HERE ? read(developmentFills()) : [];
}

function read(takes: readonly DevelopmentTake[]): readonly HumanTake[] {
  return takes
    .filter(({ id }) => TEST_DRUMMERS.test(id))
    .map((take) => ({ ...take, hits: strikesOfTake(take) }));
}
