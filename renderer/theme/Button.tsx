import { Button as AriaButton, type ButtonProps } from "react-aria-components";
import styles from "./Button.module.css";

export interface PushButtonProps extends Omit<ButtonProps, "className"> {
  readonly weight?: "go" | "plain" | "quiet";
  /** Whether what it stands for is what is chosen, or on, now. */
  readonly isNow?: boolean;
}

/** A push button of the page: `go` for the one thing to do next, `plain` for the rest, `quiet` for a way out. */
export function Button({ weight = "plain", isNow = false, ...props }: PushButtonProps) {
  return (
    <AriaButton {...props} className={`${styles.button} ${styles[weight]}`} data-now={isNow || undefined} />
  );
}
