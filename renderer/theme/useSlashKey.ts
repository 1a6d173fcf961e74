import { type RefObject, useLayoutEffect } from "react";

/** Where a slash is a letter of what is being typed. */
const TAKES_TEXT = "input, textarea, select, [contenteditable]";

/** The slash leads to the line in which something is found or answered, from anywhere but another line of text. */
export function useSlashKey(line: RefObject<HTMLInputElement | null>): void {
  // As soon as the page is drawn: a key pressed in that moment counts as well.
  useLayoutEffect(() => {
    const onKeyDown = (event: KeyboardEvent): void => {
      if (event.key !== "/" || event.repeat || event.ctrlKey || event.metaKey || event.altKey) return;
      if (event.target instanceof Element && event.target.closest(TAKES_TEXT)) return;
      event.preventDefault();
      line.current?.focus();
    };
    window.addEventListener("keydown", onKeyDown);
    return () => window.removeEventListener("keydown", onKeyDown);
  }, [line]);
}
