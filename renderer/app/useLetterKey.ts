import { useLayoutEffect, useRef } from "react";

/**
 * A key of the page, by its place on the board.
 *
 * @param act `null` while it does nothing.
 * @param belongsTo a selector: where the key is pressed on such a control, or within it, it is the control's.
 */
export function useLetterKey(code: string, act: (() => void) | null, belongsTo: string): void {
  const latest = useRef(act);
  useLayoutEffect(() => {
    latest.current = act;
  });
  // As soon as the page is drawn: a key pressed in that moment counts as well.
  useLayoutEffect(() => {
    const onKeyDown = (event: KeyboardEvent): void => {
      if (event.code !== code || event.repeat || event.defaultPrevented) return;
      if (event.ctrlKey || event.metaKey || event.altKey || !latest.current) return;
      if (event.target instanceof Element && event.target.closest(belongsTo)) return;
      event.preventDefault();
      latest.current();
    };
    window.addEventListener("keydown", onKeyDown);
    return () => window.removeEventListener("keydown", onKeyDown);
  }, [code, belongsTo]);
}
