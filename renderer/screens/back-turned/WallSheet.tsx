import type { RoundSheet } from "../../wall/wallPage.ts";
import styles from "./WallSheet.module.css";

/** What may be said, in big type, and what has been said so far. */
export function WallSheet({
  sheet: { names, given },
}: {
  readonly sheet: Extract<RoundSheet, { round: "back-turned" }>;
}) {
  return (
    <>
      <ul className={styles.names}>
        {names.map((name) => (
          <li key={name}>{name}</li>
        ))}
      </ul>
      {given.length > 0 && <p className={styles.given}>{given.join(", then ")}</p>}
    </>
  );
}
