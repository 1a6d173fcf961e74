import { type RefObject, useEffect } from "react";

/** Where a slash is a letter of what is being typed. */
const TAKES_TEXT = "input, textarea, select, [contenteditable]";

/** The slash leads to the line in which a style is found, from anywhere but another line of text. */
export function useFindKey(line: RefObject<HTMLInputElement | null>): void {
  useEffect(() => {
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
