import { cardIdSchema } from "../../../engine/rounds/index.ts";
import type { RoundSheet } from "../../wall/wallPage.ts";
import { CardFace } from "./CardFace.tsx";
import styles from "./WallSheet.module.css";

/** The card, and the names to choose from while it is open. */
export function WallSheet({
  sheet: { card, names },
}: {
  readonly sheet: Extract<RoundSheet, { round: "card-table" }>;
}) {
  return (
    <div className={styles.sheet}>
      <div className={styles.card}>
        <CardFace card={cardIdSchema.parse(card)} />
      </div>
      {names.length > 0 && (
        <ol className={styles.names}>
          {names.map((name) => (
            <li key={name}>{name}</li>
          ))}
        </ol>
      )}
    </div>
  );
}
