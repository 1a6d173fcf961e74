import type { RefObject } from "react";
import { FieldError, Input, Label, Text, TextArea, TextField } from "react-aria-components";
import styles from "./TextBox.module.css";

export interface TextBoxProps {
  readonly label: string;
  readonly value: string;
  /** What it is for, in a clause. */
  readonly hint?: string;
  readonly type?: "text" | "date" | "time" | "password";
  readonly lines?: number;
  /** Letters at most. */
  readonly most?: number;
  readonly autoFocus?: boolean;
  readonly onChange: (value: string) => void;
  readonly onEnter?: () => void;
  /** Whether Escape empties the line, if anything stands on it; of one line only. */
  readonly emptiesOnEscape?: boolean;
  /** The key that leads here, as printed on it; of one line only. */
  readonly keyCap?: string;
  readonly inputRef?: RefObject<HTMLInputElement | null>;
}

/** A line to write on, or several. */
export function TextBox({
  label,
  value,
  hint,
  type = "text",
  lines = 1,
  most,
  autoFocus = false,
  onChange,
  onEnter,
  emptiesOnEscape = false,
  keyCap,
  inputRef,
}: TextBoxProps) {
  return (
    <TextField
      className={styles.box ?? ""}
      value={value}
      type={type}
      autoFocus={autoFocus}
      maxLength={most ?? 4000}
      onChange={onChange}
    >
      <div className={styles.above}>
        <Label className={styles.label ?? ""}>{label}</Label>
        {keyCap !== undefined && <kbd>{keyCap}</kbd>}
      </div>
      {lines > 1 ? (
        <TextArea className={styles.input ?? ""} rows={lines} spellCheck="false" />
      ) : (
        <Input
          ref={inputRef ?? null}
          className={styles.input ?? ""}
          aria-keyshortcuts={keyCap}
          autoComplete="off"
          spellCheck="false"
          onKeyDown={(event) => {
            if (event.key === "Enter" && onEnter) onEnter();
            if (event.key !== "Escape" || !emptiesOnEscape || value === "") return;
            // It does nothing else then, such as ending the round.
            event.preventDefault();
            onChange("");
          }}
        />
      )}
      {hint !== undefined && (
        <Text slot="description" className={styles.hint ?? ""}>
          {hint}
        </Text>
      )}
      <FieldError />
    </TextField>
  );
}
