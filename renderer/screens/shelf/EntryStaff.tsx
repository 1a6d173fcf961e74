import { useMemo } from "react";
import { onStaff, type Written } from "../../../engine/catalogue/index.ts";
import { Staff, sectionWords } from "../../notation/index.ts";
import styles from "./Shelf.module.css";

/** Pixels between two lines of the staff, and at least, where all bars shall stand on one line. */
const SPACE = 9;
const LEAST_SPACE = 7;

/** What is written, as it is read: what repeats between repeat signs, a part section by section. */
export function EntryStaff({ written, label }: { readonly written: Written; readonly label: string }) {
  const lines = useMemo(() => {
    let barsBefore = 0;
    return onStaff(written).map((section) => {
      const line = { name: sectionWords(section), staves: [{ score: section.score }], barsBefore };
      barsBefore += section.score.bars.length;
      return line;
    });
  }, [written]);
  const isPart = written.kind === "part";
  return (
    <div className={styles.staff}>
      {lines.map(({ name, staves, barsBefore }) => (
        <section key={barsBefore}>
          {name === undefined ? null : <h2 className={styles.sectionName}>{name}</h2>}
          <Staff
            staves={staves}
            label={name === undefined ? label : `${label}, ${name}`}
            space={SPACE}
            leastSpace={LEAST_SPACE}
            barsBefore={barsBefore}
            simile={isPart}
          />
        </section>
      ))}
    </div>
  );
}
