import type { ReactNode } from "react";
import { Switch } from "react-aria-components";
import styles from "./Toggle.module.css";

/** On or off. The knob stands left when off, right when on, and fills when on. */
export function Toggle({
  isOn,
  onChange,
  children,
}: {
  readonly isOn: boolean;
  readonly onChange: (isOn: boolean) => void;
  readonly children: ReactNode;
}) {
  return (
    <Switch className={styles.toggle ?? ""} isSelected={isOn} onChange={onChange}>
      <span className={styles.track} aria-hidden="true">
        <span className={styles.knob} />
      </span>
      <span>{children}</span>
    </Switch>
  );
}
