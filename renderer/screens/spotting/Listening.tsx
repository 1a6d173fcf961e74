import styles from "./Spotting.module.css";

/** Between questions: the next one is on its way. */
export function Listening() {
  return (
    <section aria-labelledby="listen">
      <h2 id="listen" className={styles.say}>
        Listen.
      </h2>
    </section>
  );
}
