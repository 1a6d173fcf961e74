import { type ConfusionRow, surfaceName } from "../../../engine/ear/index.ts";
import styles from "./ConfusionTable.module.css";

/** What was sounded, and what it was taken for; whole, with how often it was named rightly. */
export function ConfusionTable({
  rows,
  isWhole,
}: {
  readonly rows: readonly ConfusionRow[];
  readonly isWhole: boolean;
}) {
  return (
    <table className={styles.table}>
      <thead>
        <tr>
          <th scope="col">sounded</th>
          {isWhole && <th scope="col">named rightly</th>}
          <th scope="col">taken for</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ sounded, times, right, instead }) => (
          <tr key={sounded}>
            <th scope="row">{surfaceName(sounded)}</th>
            {isWhole && (
              <td>
                {right} of {times}
              </td>
            )}
            <td>
              {instead
                .map(
                  (each) =>
                    `${each.named === null ? "nothing" : surfaceName(each.named)} ${timesWords(each.times)}`,
                )
                .join(", ")}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function timesWords(times: number): string {
  return times === 1 ? "once" : times === 2 ? "twice" : `${times} times`;
}
