import { useProgram } from "../../app/ProgramContext.tsx";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { KitSwitch } from "../kit/KitSwitch.tsx";
import styles from "./Desk.module.css";

/** In a lesson on two kits: whose turn it is. Both kits are recorded all the while. */
export function WhoIsListenedTo() {
  const { session } = useProgram();
  const { book, players, roster } = useStudio();
  const { began } = useWatched(book.log);
  const { lane } = useWatched(players);
  const secondKit = useWatched(session.secondKit);
  useWatched(roster);
  const lanes = began?.lanes ?? [];
  if (lanes.length < 2) return null;
  return (
    <div className={styles.turn}>
      <KitSwitch
        label="The round listens to"
        kits={lanes.map(({ studentId, kit }, index) => ({
          name: kit ?? (index === 0 ? "first kit" : "second kit"),
          about: studentId === null ? "the teacher" : (roster.student(studentId)?.nickname ?? "a student"),
        }))}
        chosen={lane}
        onChoose={(kit) => players.turnTo(kit)}
      />
      <p className={styles.soft}>
        {secondKit.state === "connected"
          ? "Both kits are recorded."
          : "The second kit is not plugged in. Plug it in: it is taken up by itself."}
      </p>
    </div>
  );
}
