import { useLayoutEffect, useRef } from "react";

/** Where letters are typed, or a dialog or an open list has the keyboard. */
const USES_LETTERS =
  "input, textarea, select, [contenteditable], [role=menu], [role=listbox], [role=dialog], [role=alertdialog]";
/** Where Space and Enter press something. */
const IS_PRESSED = "button, a, summary, [role=button], [role=switch]";

/** A key of Replay, as it is printed on the key, and what it does. */
export interface ReplayKey {
  readonly caps: readonly string[];
  readonly does: string;
  /** It is shown only where there are. */
  readonly needs?: "several kits";
}

/** In the order they are shown. None of them is a key that plays the kit. */
export const REPLAY_KEYS: readonly ReplayKey[] = [
  { caps: ["Space"], does: "play, stop" },
  { caps: ["←", "→"], does: "a second" },
  { caps: ["Shift", "←", "→"], does: "a strike" },
  { caps: ["PgUp", "PgDn"], does: "a take" },
  { caps: ["Shift", "↑", "↓"], does: "the other kit", needs: "several kits" },
  { caps: ["N"], does: "hear this kit alone, or all", needs: "several kits" },
  { caps: ["Home", "End"], does: "beginning, end" },
  { caps: ["+", "−"], does: "nearer, further" },
  { caps: ["[", "]"], does: "loop from, to here" },
  { caps: ["\\"], does: "loop the take, or none" },
  { caps: [",", "."], does: "slower, faster" },
  { caps: ["M", "X"], does: "remark, flag" },
  { caps: ["Z"], does: "undo a remark" },
  { caps: ["B"], does: "beside another take" },
  { caps: ["O", "P"], does: "take along, practice page" },
  { caps: ["W"], does: "lesson report" },
  { caps: ["C"], does: "copy the link" },
];

export type ReplayAction =
  | "toggle"
  | "second-back"
  | "second-on"
  | "strike-back"
  | "strike-on"
  | "take-back"
  | "take-on"
  | "kit-back"
  | "kit-on"
  | "kit-alone"
  | "home"
  | "end"
  | "nearer"
  | "further"
  | "loop-from"
  | "loop-to"
  | "loop-take"
  | "slower"
  | "faster"
  | "remark"
  | "flag"
  | "undo"
  | "beside"
  | "report"
  | "copy";

/** By what stands on the key, so that signs are found wherever a layout has them. */
const BY_KEY: Readonly<Record<string, ReplayAction>> = {
  " ": "toggle",
  PageUp: "take-back",
  PageDown: "take-on",
  Home: "home",
  End: "end",
  "+": "nearer",
  "=": "nearer",
  "-": "further",
  "[": "loop-from",
  "]": "loop-to",
  "\\": "loop-take",
  ",": "slower",
  ".": "faster",
};
/** Letters by their place, as the keys that play the kit are. */
const BY_CODE: Readonly<Record<string, ReplayAction>> = {
  KeyM: "remark",
  KeyX: "flag",
  KeyZ: "undo",
  KeyW: "report",
  KeyB: "beside",
  KeyC: "copy",
  KeyN: "kit-alone",
};

/**
 * What a key means here; `undefined` for one that is not Replay's.
 *
 * @example
 * actionOf({ key: "ArrowLeft", code: "ArrowLeft", shiftKey: true }) // => "strike-back"
 */
export function actionOf({
  key,
  code,
  shiftKey,
}: Pick<KeyboardEvent, "key" | "code" | "shiftKey">): ReplayAction | undefined {
  if (key === "ArrowLeft") return shiftKey ? "strike-back" : "second-back";
  if (key === "ArrowRight") return shiftKey ? "strike-on" : "second-on";
  // Without Shift they scroll the page.
  if (key === "ArrowUp") return shiftKey ? "kit-back" : undefined;
  if (key === "ArrowDown") return shiftKey ? "kit-on" : undefined;
  return BY_KEY[key] ?? (shiftKey ? undefined : BY_CODE[code]);
}

/** Held down, these go on. */
const REPEATS: ReadonlySet<ReplayAction> = new Set([
  "second-back",
  "second-on",
  "strike-back",
  "strike-on",
  "nearer",
  "further",
]);

export function useReplayKeys(act: (action: ReplayAction) => void): void {
  const latest = useRef(act);
  useLayoutEffect(() => {
    latest.current = act;
  });
  // As soon as the page is drawn: a key pressed in that moment counts as well.
  useLayoutEffect(() => {
    const onKeyDown = (event: KeyboardEvent): void => {
      if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey) return;
      const action = actionOf(event);
      if (!action || (event.repeat && !REPEATS.has(action))) return;
      const { target } = event;
      if (target instanceof Element) {
        if (target.closest(USES_LETTERS)) return;
        if (action === "toggle" && target.closest(IS_PRESSED)) return;
      }
      event.preventDefault();
      latest.current(action);
    };
    window.addEventListener("keydown", onKeyDown);
    return () => window.removeEventListener("keydown", onKeyDown);
  }, []);
}
