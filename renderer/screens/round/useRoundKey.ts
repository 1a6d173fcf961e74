import { useLayoutEffect, useRef } from "react";

/** Controls that letters are typed into. */
const TAKES_LETTERS = "input, textarea, select, [contenteditable], [role=listbox], [role=combobox]";

/** A further key of a round, by its place on the board; `null` while it does nothing. */
export function useRoundKey(code: string, act: (() => void) | null): void {
  const latest = useRef(act);
  useLayoutEffect(() => {
    latest.current = act;
  });
  // As soon as the page is drawn: a key pressed in that moment counts as well.
  useLayoutEffect(() => {
    const onKeyDown = (event: KeyboardEvent): void => {
      if (event.code !== code || event.repeat || event.defaultPrevented) return;
      if (event.ctrlKey || event.metaKey || event.altKey || !latest.current) return;
      if (event.target instanceof Element && event.target.closest(TAKES_LETTERS)) return;
      event.preventDefault();
      latest.current();
    };
    window.addEventListener("keydown", onKeyDown);
    return () => window.removeEventListener("keydown", onKeyDown);
  }, [code]);
}
