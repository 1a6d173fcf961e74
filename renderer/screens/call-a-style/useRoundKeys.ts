import { useEffect } from "react";
import type { StyleRound } from "./styleRound.ts";

/** Controls that use Space and Enter themselves. */
const USES_ENTER = "button, a, input, textarea, select, summary, [role], [contenteditable]";

/** Space or Enter begins a take where no control has the focus; Escape or Enter ends it. */
export function useRoundKeys(round: StyleRound): void {
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent): void => {
      if (event.repeat || event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey) return;
      const isPlaying = round.get().at.stage === "playing";
      if (isPlaying && event.key === "Escape") {
        void round.stop();
        return;
      }
      const onControl = event.target instanceof Element && event.target.closest(USES_ENTER) !== null;
      if (onControl || (event.key !== "Enter" && event.key !== " ")) return;
      event.preventDefault();
      if (!isPlaying) round.start();
      else if (event.key === "Enter") void round.stop();
    };
    window.addEventListener("keydown", onKeyDown);
    return () => window.removeEventListener("keydown", onKeyDown);
  }, [round]);
}
