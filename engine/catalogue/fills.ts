import { type Fill, parseFill } from "../score/index.ts";
import { FIRST_YEAR } from "./fills/firstYear.ts";
import { SECOND_YEAR } from "./fills/secondYear.ts";
import { STEADY } from "./fills/steady.ts";
import { WORKING } from "./fills/working.ts";

/**
 * The studio's stock of fills, from the first year on. They are of our own making, out of what drummers have in
 * common (common practice, no source). None has the crash on the one that often follows.
 */
export const FILLS: readonly Fill[] = [...FIRST_YEAR, ...SECOND_YEAR, ...STEADY, ...WORKING].map(parseFill);

/** The fill with this id, or `undefined`. */
export function fillById(id: string): Fill | undefined {
  return FILLS.find((fill) => fill.id === id);
}
