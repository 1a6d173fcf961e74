import { styleById } from "../../../../engine/catalogue/index.ts";
import styles from "./room.module.css";

/** At a kit of a lab: what the desk has called. */
export function CalledHere({ called }: { readonly called: string | null | undefined }) {
  return (
    <section className={styles.part}>
      <h2>Called by the desk</h2>
      <p role="status" className={styles.say}>
        {calledWords(called)}
      </p>
    </section>
  );
}

function calledWords(called: string | null | undefined): string {
  if (called === undefined) return "Nothing yet. What you play is heard at the desk.";
  if (called === null) return "Play whatever you like.";
  return `Play: ${styleById(called)?.name ?? called}.`;
}
