import { type ConfusionRow, surfaceName } from "../../../engine/ear/index.ts";
import styles from "./ConfusionTable.module.css";
import { CONFUSION_COLUMNS, insteadWords } from "./confusionWords.ts";

/** What was sounded, and what it was taken for; whole, with how often it was named rightly. */
export function ConfusionTable({
  rows,
  isWhole,
}: {
  readonly rows: readonly ConfusionRow[];
  readonly isWhole: boolean;
}) {
  const [sounded, rightly, takenFor] = CONFUSION_COLUMNS;
  return (
    <table className={styles.table}>
      <thead>
        <tr>
          <th scope="col">{sounded}</th>
          {isWhole && <th scope="col">{rightly}</th>}
          <th scope="col">{takenFor}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.sounded}>
            <th scope="row">{surfaceName(row.sounded)}</th>
            {isWhole && (
              <td>
                {row.right} of {row.times}
              </td>
            )}
            <td>{insteadWords(row)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
