import styles from "./out.module.css";
import type { Saving } from "./useSaving.ts";

/** Where a file went, or why it did not. The place is always there, so that a screen reader hears what comes into it. */
export function SavingTold({ saving }: { readonly saving: Saving }) {
  if (saving?.kind === "failed") {
    return (
      <p role="alert" className={styles.trouble}>
        {saving.reason}
      </p>
    );
  }
  return (
    <p role="status" className={styles.told}>
      {saving === null ? "" : wordsOf(saving)}
    </p>
  );
}

function wordsOf(saving: Exclude<Saving, null | { readonly kind: "failed" }>): string {
  switch (saving.kind) {
    case "making":
      return "It is being made.";
    case "saved":
      return `Saved: ${saving.name}`;
    case "handed-over":
      return `Handed over to the downloads: ${saving.name}`;
  }
}
