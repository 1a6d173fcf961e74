import { type RefObject, useLayoutEffect } from "react";
import type { Roster } from "./roster.ts";

const WRITES = "input, textarea, [contenteditable]";

/** Ctrl+Z takes the latest change back, unless something is being written; the slash leads to the line to find with. */
export function useRosterKeys(roster: Roster, line?: RefObject<HTMLInputElement | null>): void {
  // As soon as the page is drawn: a key pressed in that moment counts as well.
  useLayoutEffect(() => {
    const press = (event: KeyboardEvent): void => {
      const isWriting = event.target instanceof Element && event.target.closest(WRITES) !== null;
      if (isWriting || event.altKey || event.shiftKey) return;
      if (event.key === "/" && line?.current) {
        event.preventDefault();
        line.current.focus();
      }
      if (event.key.toLowerCase() === "z" && (event.ctrlKey || event.metaKey)) {
        event.preventDefault();
        void roster.undo();
      }
    };
    window.addEventListener("keydown", press);
    return () => window.removeEventListener("keydown", press);
  }, [roster, line]);
}
