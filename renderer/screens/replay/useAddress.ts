import { type RefObject, useEffect } from "react";
import { goesAlong } from "./playhead.ts";
import { lessonHref } from "./replayPlace.ts";
import type { ReplayPlayer } from "./replayPlayer.ts";

/** The address the page itself wrote last. */
export type Written = RefObject<string | null>;

/** Browsers refuse an address that changes many times a second. */
const SETTLES_MS = 250;

/** The address says where the cursor stands, whenever it stands; going there and back is no page of its own. */
export function useAddress(player: ReplayPlayer, lessonId: string, written: Written): void {
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const settle = (): void => {
      clearTimeout(timer);
      if (player.get().isPlaying) return;
      timer = setTimeout(() => {
        // Where one goes along with a lesson, its address leads to where it has come to.
        const moment = goesAlong(player.get()) ? undefined : player.get().cursor;
        written.current = lessonHref(lessonId, moment);
        window.history.replaceState(window.history.state, "", written.current);
      }, SETTLES_MS);
    };
    const stop = player.subscribe(settle);
    return () => {
      clearTimeout(timer);
      stop();
    };
  }, [player, lessonId, written]);
}
