import { useLayoutEffect } from "react";
import type { NextStyle } from "../desk/nextStyle.ts";
import type { StyleRound } from "./styleRound.ts";

/** Controls that use Space and Enter themselves, or letters. */
export const USES_KEYS = "button, a, input, textarea, select, summary, [role], [contenteditable]";

/** Whether a key struck there belongs to the control in focus. */
export function usesKeys(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest(USES_KEYS) !== null;
}

/**
 * The keys of a round: Space or Enter begins, Escape or Enter ends, R plays again (while a take is thought over, as
 * soon as it is), N goes to another style, or to the next of those that were dealt.
 * A report is left by a key of its own, so that a second Enter does not wipe it away.
 */
export function useRoundKeys(round: StyleRound, next: NextStyle | undefined): void {
  // As soon as the page is drawn: a key pressed in that moment counts as well.
  useLayoutEffect(() => {
    const onKeyDown = (event: KeyboardEvent): void => {
      if (event.repeat || event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey) return;
      const act = actOf(event, round, next);
      if (!act) return;
      event.preventDefault();
      act();
    };
    window.addEventListener("keydown", onKeyDown);
    return () => window.removeEventListener("keydown", onKeyDown);
  }, [round, next]);
}

function actOf(
  { key, code, target }: KeyboardEvent,
  round: StyleRound,
  next: NextStyle | undefined,
): (() => void) | undefined {
  const { stage } = round.get().at;
  if (stage === "playing" && key === "Escape") return () => void round.stop();
  if (usesKeys(target)) return undefined;
  switch (stage) {
    case "before":
      if (code === "KeyN") return next?.act;
      return key === "Enter" || key === " " ? () => round.start() : undefined;
    case "playing":
      return key === "Enter" ? () => void round.stop() : undefined;
    case "after":
    case "failed":
      if (code === "KeyR") return () => round.again();
      if (code !== "KeyN") return undefined;
      return next?.act ?? (() => round.dispatch({ kind: "another-style" }));
    case "judging":
      return code === "KeyR" ? () => round.again() : undefined;
  }
}
