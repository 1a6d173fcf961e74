import { Button, Label, ListBox, ListBoxItem, Popover, Select, SelectValue } from "react-aria-components";
import styles from "./Choice.module.css";

/** How high the list may open: seven entries, and half of the eighth to show that there are more. */
const MOST_PIXELS = 336;

/** One of a list, chosen from a drop-down. */
export function Choice<Id extends string>({
  label,
  options,
  chosen,
  onChoose,
}: {
  readonly label: string;
  readonly options: readonly { readonly id: Id; readonly name: string }[];
  readonly chosen: Id | null;
  readonly onChoose: (id: Id) => void;
}) {
  return (
    <Select
      className={styles.choice ?? ""}
      value={chosen}
      onChange={(key) => {
        const option = options.find(({ id }) => id === key);
        if (option) onChoose(option.id);
      }}
      placeholder="choose"
    >
      <Label className={styles.label ?? ""}>{label}</Label>
      <Button className={styles.button ?? ""}>
        <SelectValue className={styles.value ?? ""} />
        <svg className={styles.arrow} viewBox="0 0 12 8" aria-hidden="true">
          <path d="M1 1.5 6 6.5 11 1.5" fill="none" stroke="currentColor" strokeWidth="1.6" />
        </svg>
      </Button>
      <Popover className={styles.popover ?? ""} offset={2} maxHeight={MOST_PIXELS}>
        <ListBox className={styles.list ?? ""} items={options}>
          {(option) => (
            <ListBoxItem className={styles.option ?? ""} id={option.id} textValue={option.name}>
              {option.name}
            </ListBoxItem>
          )}
        </ListBox>
      </Popover>
    </Select>
  );
}
