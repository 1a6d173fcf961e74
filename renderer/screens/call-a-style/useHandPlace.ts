import { useEffect, useState } from "react";
import type { Seconds } from "../../../engine/units/index.ts";
import { type BarClock, placeAt } from "./barClock.ts";

/** Now, on the session clock of this window. */
export const sessionNow = (): Seconds => performance.now() / 1000;

/**
 * Where the hand of the ring stands now; `undefined` without a clock. It sweeps, or steps from beat to beat
 * where the user asked for less motion.
 *
 * @param now the session clock; another window's, on the wall.
 */
export function useHandPlace(
  clock: BarClock | undefined,
  now: () => Seconds = sessionNow,
): number | undefined {
  const [place, setPlace] = useState<number>();
  useEffect(() => {
    if (!clock) {
      setPlace(undefined);
      return;
    }
    const steps = window.matchMedia("(prefers-reduced-motion: reduce)").matches
      ? clock.beatsPerTurn
      : undefined;
    // The hand shows the even clock: heard turns are past ones.
    const even = { ...clock, turns: [] };
    let frame = 0;
    const draw = (): void => {
      const swept = placeAt(even, now());
      setPlace(steps === undefined ? swept : Math.floor(swept * steps) / steps);
      frame = requestAnimationFrame(draw);
    };
    draw();
    return () => cancelAnimationFrame(frame);
  }, [clock, now]);
  return place;
}
