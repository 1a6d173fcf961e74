import { useLetterKey } from "../../app/useLetterKey.ts";

/** Controls that letters are typed into. */
const TAKES_LETTERS = "input, textarea, select, [contenteditable], [role=listbox], [role=combobox]";

/** A further key of a round, by its place on the board; `null` while it does nothing. */
export function useRoundKey(code: string, act: (() => void) | null): void {
  useLetterKey(code, act, TAKES_LETTERS);
}
