import { useCallback, useSyncExternalStore } from "react";
import { useWatched } from "../session/store.ts";
import { useProgram } from "./ProgramContext.tsx";

/** Whether a take is being played, at either kit. None is before the lesson is loaded. */
export function useIsTaking(): boolean {
  const { lesson } = useProgram();
  const rounds = useWatched(lesson)?.rounds;
  const subscribe = useCallback(
    (listener: () => void) => {
      const stops = (rounds ?? []).map((round) => round.subscribe(listener));
      return () => {
        for (const stop of stops) stop();
      };
    },
    [rounds],
  );
  return useSyncExternalStore(
    subscribe,
    () => rounds?.some((round) => round.get().at.stage === "playing") ?? false,
  );
}
