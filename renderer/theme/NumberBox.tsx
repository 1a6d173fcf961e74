import { Button, Group, Input, Label, NumberField } from "react-aria-components";
import styles from "./NumberBox.module.css";

/** A whole number with its unit in the label, typed or stepped. */
export function NumberBox({
  label,
  value,
  least,
  most,
  isStepped = true,
  onChange,
}: {
  readonly label: string;
  readonly value: number;
  readonly least: number;
  readonly most: number;
  /** False where stepping by one is of no use: it is only typed. */
  readonly isStepped?: boolean;
  readonly onChange: (value: number) => void;
}) {
  return (
    <NumberField
      className={styles.box ?? ""}
      value={value}
      minValue={least}
      maxValue={most}
      formatOptions={{ useGrouping: false, maximumFractionDigits: 0 }}
      // An emptied field answers NaN: keep the last number instead.
      onChange={(next) => onChange(Number.isNaN(next) ? value : next)}
    >
      <Label className={styles.label ?? ""}>{label}</Label>
      <Group className={styles.group ?? ""}>
        {isStepped && (
          <Button slot="decrement" className={styles.step ?? ""}>
            −
          </Button>
        )}
        <Input className={styles.input ?? ""} />
        {isStepped && (
          <Button slot="increment" className={styles.step ?? ""}>
            +
          </Button>
        )}
      </Group>
    </NumberField>
  );
}
