import styles from "./room.module.css";

/** How a room is opened, where there is none yet. */
export function OpenHere() {
  return (
    <section className={styles.part}>
      <h2>No room yet?</h2>
      <p>
        On one computer of the house, <code>npm run room</code> opens one and prints its address and code. Any
        MQTT 5 broker does as well: its address with <code>wss://</code>, your user name and password there.
      </p>
    </section>
  );
}
