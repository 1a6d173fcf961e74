import { useProgram } from "../../app/ProgramContext.tsx";
import { hrefOf } from "../../app/route.ts";
import { useWatched } from "../../session/store.ts";
import styles from "./NoKit.module.css";

/** What can be done while no kit is connected; nothing while one is. */
export function NoKit() {
  const { session } = useProgram();
  const { state } = useWatched(session.connection);
  if (state === "connected") return null;
  return (
    <p className={styles.noKit}>
      No kit is connected. Connect it in <a href={hrefOf("kit")}>Kit</a>, play on the letters A to ; of this
      computer, or let the demonstration play.
    </p>
  );
}
