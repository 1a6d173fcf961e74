import { Button } from "./Button.tsx";
import styles from "./OneOf.module.css";

/** One of a few, each with a button of its own. */
export function OneOf<Id extends string | null>({
  label,
  options,
  chosen,
  onChoose,
}: {
  readonly label: string;
  readonly options: readonly { readonly id: Id; readonly name: string }[];
  readonly chosen: Id;
  readonly onChoose: (id: Id) => void;
}) {
  return (
    <fieldset className={styles.few}>
      <legend>{label}</legend>
      {options.map(({ id, name }) => (
        <Button key={id} aria-pressed={id === chosen} isNow={id === chosen} onPress={() => onChoose(id)}>
          {name}
        </Button>
      ))}
    </fieldset>
  );
}
