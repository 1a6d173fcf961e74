import { useLayoutEffect, useRef } from "react";

/** Where letters are typed, or choose from a list, or belong to a dialog. */
const USES_LETTERS =
  "input, textarea, select, [contenteditable], [role=menu], [role=listbox], [role=grid], [role=dialog], [role=alertdialog]";

/** A letter key that takes something along, from anywhere on the page that has no use for letters itself. */
export function useOutKey(code: string, act: () => void): void {
  const latest = useRef(act);
  useLayoutEffect(() => {
    latest.current = act;
  });
  // As soon as the page is drawn: a key pressed in that moment counts as well.
  useLayoutEffect(() => {
    const onKeyDown = (event: KeyboardEvent): void => {
      if (event.code !== code || event.repeat || event.defaultPrevented) return;
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      if (event.target instanceof Element && event.target.closest(USES_LETTERS)) return;
      event.preventDefault();
      latest.current();
    };
    window.addEventListener("keydown", onKeyDown);
    return () => window.removeEventListener("keydown", onKeyDown);
  }, [code]);
}
