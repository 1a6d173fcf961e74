import { hrefOf } from "../../app/route.ts";
import styles from "./CallAStyle.module.css";

/** What can be done while no kit is connected. */
export function NoKit() {
  return (
    <p className={styles.noKit}>
      No kit is connected. Connect it in <a href={hrefOf("kit")}>Kit</a>, play on the letters A to ; of this
      computer, or let the demonstration play.
    </p>
  );
}
