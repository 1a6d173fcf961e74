import { Button as AriaButton, type ButtonProps } from "react-aria-components";
import styles from "./Button.module.css";

/** A push button of the page: `go` for the one thing to do next, `plain` for the rest, `quiet` for a way out. */
export function Button({
  weight = "plain",
  ...props
}: Omit<ButtonProps, "className"> & { weight?: "go" | "plain" | "quiet" }) {
  return <AriaButton {...props} className={`${styles.button} ${styles[weight]}`} />;
}
