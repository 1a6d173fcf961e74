import { useId } from "react";
import styles from "./KitSwitch.module.css";

/** One of the two kits of the room. */
export interface KitOfTwo {
  /** Name of its MIDI input. */
  readonly name: string;
  /** What there is to say of it, under its name. */
  readonly about: string;
}

/** The first kit or the second, by their names: both stand there, the chosen one filled. */
export function KitSwitch({
  label,
  kits,
  chosen,
  onChoose,
}: {
  readonly label: string;
  readonly kits: readonly KitOfTwo[];
  readonly chosen: number;
  readonly onChoose: (kit: number) => void;
}) {
  const group = useId();
  return (
    <fieldset className={styles.switch}>
      <legend>{label}</legend>
      <div className={styles.kits}>
        {kits.map(({ name, about }, index) => (
          <label key={index === 0 ? "first" : "second"} className={styles.kit}>
            <input
              type="radio"
              name={group}
              checked={index === chosen}
              onChange={() => onChoose(index)}
              className={styles.mark}
            />
            <span className={styles.words}>
              <b>{name}</b>
              <span className={styles.about}>{about}</span>
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
