/** The takes at the cursor, one at each kit. */
import { useMemo, useSyncExternalStore } from "react";
import type { TakeState } from "../../../engine/session/index.ts";
import type { OpenLesson } from "./replayDesk.ts";
import type { ReplayPlayer } from "./replayPlayer.ts";
import { LEAD_IN, takeAtOrBefore, takesOf } from "./takesOfLesson.ts";

/** Addresses hold milliseconds: one that leads to the threshold leads over it. */
const THRESHOLD = LEAD_IN + 0.001;

/** The first kit at which a take goes on where the lesson is opened; else the one of the last take, or of the first. */
export function laneOfFirst({ moments }: OpenLesson, seconds: number | null): number {
  const begun = takesOf(moments.stateAt((seconds ?? 0) + THRESHOLD));
  const goingOn = begun.filter(({ to }) => to === null).map(({ lane }) => lane);
  if (goingOn.length > 0) return Math.min(...goingOn);
  return begun.at(-1)?.lane ?? takesOf(moments.whole)[0]?.lane ?? 0;
}

/** The take at the cursor at each kit, in the order of the kits. */
export function useTakesAtCursor({ moments, lanes }: OpenLesson, player: ReplayPlayer): readonly TakeState[] {
  const ids = useSyncExternalStore(player.subscribe, () => {
    // One who stands on a take's threshold looks at that take.
    const state = moments.stateAt(player.get().cursor + THRESHOLD);
    return lanes.map(({ lane }) => takeAtOrBefore(state, lane)?.takeId ?? "").join(" ");
  });
  return useMemo(() => {
    const wanted = new Set(ids.split(" "));
    // As they are known now, with all that was said of them since.
    return takesOf(moments.whole)
      .filter(({ takeId }) => wanted.has(takeId))
      .toSorted((a, b) => a.lane - b.lane);
  }, [ids, moments]);
}
