import { useLayoutEffect, useRef } from "react";

export interface OpenActs {
  readonly keep: () => void;
  readonly undo: () => void;
  readonly redo: () => void;
  readonly leave: () => void;
}

/** The keys of an open entry, also while text is typed: keep, undo, redo, go back. */
export function useOpenKeys(acts: OpenActs): void {
  const latest = useRef(acts);
  latest.current = acts;
  // As soon as the page is drawn: a key pressed in that moment counts as well.
  useLayoutEffect(() => {
    const onKeyDown = (event: KeyboardEvent): void => {
      const act = actOf(event, latest.current);
      if (!act) return;
      event.preventDefault();
      act();
    };
    window.addEventListener("keydown", onKeyDown);
    return () => window.removeEventListener("keydown", onKeyDown);
  }, []);
}

function actOf(event: KeyboardEvent, acts: OpenActs): (() => void) | undefined {
  if (event.defaultPrevented || event.altKey) return undefined;
  const key = event.key.toLowerCase();
  if (!event.ctrlKey && !event.metaKey) return key === "escape" ? acts.leave : undefined;
  switch (key) {
    case "s":
      return acts.keep;
    case "z":
      return event.shiftKey ? acts.redo : acts.undo;
    case "y":
      return acts.redo;
    default:
      return undefined;
  }
}
