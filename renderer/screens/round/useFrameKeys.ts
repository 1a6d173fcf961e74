import { useLayoutEffect } from "react";
import type { LessonBook } from "../../session/lessonBook.ts";
import { usesKeys } from "../call-a-style/useRoundKeys.ts";
import { doCommand } from "./doCommand.ts";
import type { FramedRound, RoundCommand } from "./framedRound.ts";

/** Behind the page's name in the address: the round begins with the page. */
export const START_NOW = "now";

interface Key {
  readonly code: string;
  /** As it is printed on the key. */
  readonly shown: string;
}

/** Letters by their place on the board; none of them plays the kit. */
export const COMMAND_KEYS: Readonly<Record<RoundCommand, Key>> = {
  next: { code: "KeyN", shown: "N" },
  again: { code: "KeyR", shown: "R" },
  "turn-round": { code: "KeyB", shown: "B" },
  stop: { code: "Escape", shown: "Esc" },
};
export const PAUSE_KEY: Key = { code: "KeyP", shown: "P" };

/** Controls that letters are typed into, or that find an entry by its first letters. */
const TAKES_LETTERS = "input, textarea, select, [contenteditable], [role=listbox], [role=combobox]";

/** The keys of a round. Space or Enter begins it. A letter that is typed into a box is no command. */
export function useFrameKeys(round: FramedRound, book: Pick<LessonBook, "log">): void {
  // As soon as the page is drawn: a key pressed in that moment counts as well.
  useLayoutEffect(() => {
    const onKeyDown = (event: KeyboardEvent): void => {
      if (event.repeat || event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey) return;
      if (act(event, round, book)) event.preventDefault();
    };
    window.addEventListener("keydown", onKeyDown);
    return () => window.removeEventListener("keydown", onKeyDown);
  }, [round, book]);
}

function act(
  { key, code, target }: KeyboardEvent,
  round: FramedRound,
  book: Pick<LessonBook, "log">,
): boolean {
  const { stage } = round.get();
  if (stage === "ready") {
    if ((key !== "Enter" && key !== " ") || usesKeys(target)) return false;
    round.begin();
    return true;
  }
  const command = (Object.keys(COMMAND_KEYS) as RoundCommand[]).find(
    (each) => COMMAND_KEYS[each].code === code,
  );
  const isTyped = target instanceof Element && target.closest(TAKES_LETTERS) !== null;
  if (isTyped && command !== "stop") return false;
  if (code === PAUSE_KEY.code && stage !== "over") {
    if (stage === "paused") round.resume();
    else round.pause();
    return true;
  }
  return command !== undefined && doCommand(command, "key", round, book);
}
