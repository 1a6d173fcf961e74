import type { RoundSheet } from "../../wall/wallPage.ts";
import { ChartOfRudiments } from "./ChartOfRudiments.tsx";
import styles from "./WallSheet.module.css";

/** A page of the chart, large; or the names that were named so far. */
export function WallSheet({
  sheet: { entries, named },
}: {
  readonly sheet: Extract<RoundSheet, { round: "wall-chart" }>;
}) {
  return (
    <div className={styles.sheet}>
      {entries.length === 1 && <ChartOfRudiments entries={entries} space={20} hands="under-notes" />}
      {entries.length > 1 && <ChartOfRudiments entries={entries} space={7} hands="not" />}
      {named.length > 0 && (
        <ul className={styles.named}>
          {named.map((name) => (
            <li key={name}>{name}</li>
          ))}
        </ul>
      )}
    </div>
  );
}
