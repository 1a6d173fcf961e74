import { Button, Group, Input, Label, NumberField } from "react-aria-components";
import styles from "./NumberBox.module.css";

/** A whole number with its unit in the label, typed or stepped. */
export function NumberBox({
  label,
  value,
  least,
  most,
  step = 1,
  onChange,
}: {
  readonly label: string;
  readonly value: number;
  readonly least: number;
  readonly most: number;
  readonly step?: number;
  readonly onChange: (value: number) => void;
}) {
  return (
    <NumberField
      className={styles.box ?? ""}
      value={value}
      minValue={least}
      maxValue={most}
      step={step}
      formatOptions={{ useGrouping: false, maximumFractionDigits: 0 }}
      // An emptied field answers NaN: keep the last number instead.
      onChange={(next) => onChange(Number.isNaN(next) ? value : next)}
    >
      <Label className={styles.label ?? ""}>{label}</Label>
      <Group className={styles.group ?? ""}>
        <Button slot="decrement" className={styles.step ?? ""}>
          −
        </Button>
        <Input className={styles.input ?? ""} />
        <Button slot="increment" className={styles.step ?? ""}>
          +
        </Button>
      </Group>
    </NumberField>
  );
}
