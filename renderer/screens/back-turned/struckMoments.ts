/** From strikes to the moments of a question or an answer. */
import {
  MOST_MOMENTS,
  type Moment,
  type Moments,
  type Sounded,
  surfaceOf,
} from "../../../engine/ear/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import type { Seconds, Velocity } from "../../../engine/units/index.ts";
import { LOUD, SOFT } from "./soundedStrokes.ts";

/** Two hands that mean one moment are closer than this. Our choice, as for command strikes, and half as much again. */
export const TOGETHER_SECONDS: Seconds = 0.06;

/** From this velocity on a strike is loud. Our choice: midway between the two that are sounded, as the ear counts. */
const LOUD_FROM: Velocity = Math.sqrt(LOUD * SOFT);

/**
 * Strikes on the session clock, as they come; what is none of the surfaces is left out.
 *
 * @param withTouch where loud or soft is asked as well.
 */
export function struckMoments(
  hits: readonly Pick<Hit, "time" | "voice" | "zone" | "openness" | "velocity">[],
  withTouch = false,
): Moments {
  const moments: { readonly from: Seconds; readonly sounded: Sounded[] }[] = [];
  for (const hit of hits) {
    const surface = surfaceOf(hit);
    if (surface === null) continue;
    const last = moments.at(-1);
    const isSame = last !== undefined && hit.time - last.from <= TOGETHER_SECONDS;
    const struck: Sounded = withTouch
      ? { surface, touch: hit.velocity >= LOUD_FROM ? "loud" : "soft" }
      : { surface };
    if (isSame && last.sounded.length < 2) {
      if (!last.sounded.some((each) => each.surface === surface)) last.sounded.push(struck);
    } else moments.push({ from: hit.time, sounded: [struck] });
  }
  return moments.slice(0, MOST_MOMENTS).map(({ sounded }): Moment => sounded);
}
