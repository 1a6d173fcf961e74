import { useLayoutEffect, useRef } from "react";

export interface ListActs {
  readonly moveUp: () => void;
  readonly moveDown: () => void;
  readonly moveAcross: () => void;
  readonly crossOff: () => void;
  readonly undo: () => void;
  readonly add: () => void;
  readonly print: () => void;
}

/** Where letters are what is being typed, or choose from another list, or belong to a dialog. */
const USES_LETTERS =
  "input, textarea, select, [contenteditable], [role=dialog], [role=listbox]:not([data-next-time])";

/** The keys of the list, from anywhere on the page but a line of text or a dialog over it. */
export function useListKeys(acts: ListActs): void {
  const latest = useRef(acts);
  latest.current = acts;
  // As soon as the page is drawn: a key pressed in that moment counts as well.
  useLayoutEffect(() => {
    const onKeyDown = (event: KeyboardEvent): void => {
      if (event.defaultPrevented || isElsewhere(event.target)) return;
      const act = actOf(event, latest.current);
      if (!act) return;
      event.preventDefault();
      act();
    };
    window.addEventListener("keydown", onKeyDown);
    return () => window.removeEventListener("keydown", onKeyDown);
  }, []);
}

function isElsewhere(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest(USES_LETTERS) !== null;
}

/** By the place on the board, as the keys that strike drums are, and none of those. */
export const LIST_KEYS: Readonly<Record<string, keyof ListActs>> = {
  KeyM: "moveAcross",
  KeyX: "crossOff",
  Delete: "crossOff",
  KeyN: "add",
  KeyP: "print",
};

function actOf(event: KeyboardEvent, acts: ListActs): (() => void) | undefined {
  const { code, key } = event;
  if (event.ctrlKey || event.metaKey)
    return key.toLowerCase() === "z" && !event.shiftKey && !event.altKey ? acts.undo : undefined;
  if (event.altKey) return key === "ArrowUp" ? acts.moveUp : key === "ArrowDown" ? acts.moveDown : undefined;
  const act = event.repeat ? undefined : LIST_KEYS[code];
  return act && acts[act];
}
