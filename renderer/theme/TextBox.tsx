import { FieldError, Input, Label, Text, TextArea, TextField } from "react-aria-components";
import styles from "./TextBox.module.css";

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
}: {
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
}) {
  return (
    <TextField
      className={styles.box ?? ""}
      value={value}
      type={type}
      autoFocus={autoFocus}
      maxLength={most ?? 4000}
      onChange={onChange}
    >
      <Label className={styles.label ?? ""}>{label}</Label>
      {lines > 1 ? (
        <TextArea className={styles.input ?? ""} rows={lines} spellCheck="false" />
      ) : (
        <Input
          className={styles.input ?? ""}
          autoComplete="off"
          spellCheck="false"
          onKeyDown={(event) => {
            if (event.key === "Enter" && onEnter) onEnter();
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
