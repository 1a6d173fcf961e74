import type { RefObject } from "react";
import { Button, Input, Label, SearchField } from "react-aria-components";
import styles from "./FindBox.module.css";

/** A line to type into, to find something in a long list. Escape empties it. */
export function FindBox({
  label,
  keyCap,
  typed,
  inputRef,
  onType,
  onEnter,
  onArrowDown,
}: {
  readonly label: string;
  /** The key that leads here, as printed on it. */
  readonly keyCap: string;
  readonly typed: string;
  readonly inputRef: RefObject<HTMLInputElement | null>;
  readonly onType: (typed: string) => void;
  readonly onEnter: () => void;
  /** Into the list, which follows. */
  readonly onArrowDown: () => void;
}) {
  return (
    <SearchField
      className={styles.box ?? ""}
      value={typed}
      onChange={onType}
      onSubmit={onEnter}
      onKeyDown={(event) => {
        if (event.key !== "ArrowDown") return event.continuePropagation();
        event.preventDefault();
        onArrowDown();
      }}
    >
      <div className={styles.above}>
        <Label>{label}</Label>
        <kbd>{keyCap}</kbd>
      </div>
      <div className={styles.line}>
        <Input
          ref={inputRef}
          className={styles.input ?? ""}
          aria-keyshortcuts={keyCap}
          autoComplete="off"
          spellCheck="false"
        />
        <Button className={styles.empty ?? ""} aria-label="Empty this line">
          <svg viewBox="0 0 12 12" aria-hidden="true">
            <path d="M1.5 1.5l9 9m0-9l-9 9" fill="none" stroke="currentColor" strokeWidth="1.6" />
          </svg>
        </Button>
      </div>
    </SearchField>
  );
}
