import { useLetterKey } from "../app/useLetterKey.ts";

/** Where letters are typed, or choose from a list, or belong to a dialog. */
const USES_LETTERS =
  "input, textarea, select, [contenteditable], [role=menu], [role=listbox], [role=grid], [role=dialog], [role=alertdialog]";

/** A letter key that takes something along, from anywhere on the page that has no use for letters itself. */
export function useOutKey(code: string, act: () => void): void {
  useLetterKey(code, act, USES_LETTERS);
}
