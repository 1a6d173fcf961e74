import { useRef } from "react";
import { TextBox, type TextBoxProps, useSlashKey } from "../../theme/index.ts";

/**
 * The line in which an answer, or what is asked, is typed: the slash leads to it, since the other letters command or play.
 * Escape empties it first, and stops the round only from an empty one.
 */
export function AnswerLine(
  line: Omit<TextBoxProps, "type" | "lines" | "keyCap" | "inputRef" | "emptiesOnEscape">,
) {
  const input = useRef<HTMLInputElement>(null);
  useSlashKey(input);
  return <TextBox {...line} keyCap="/" inputRef={input} emptiesOnEscape />;
}
