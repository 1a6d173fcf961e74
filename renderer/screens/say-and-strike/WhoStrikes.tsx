import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Toggle } from "../../theme/index.ts";
import styles from "./SayAndStrike.module.css";

/** With several students: whether one after the other answers, or all answer each phrase. */
export function WhoStrikes() {
  const { framed } = useLesson();
  const round = framed["say-and-strike"];
  const answering = useWatched(round.answering);
  if (round.players().length < 2) return null;
  return (
    <div className={styles.part}>
      <Toggle
        isOn={answering === "all-at-once"}
        onChange={(isOn) => round.answering.dispatch(isOn ? "all-at-once" : "in-turn")}
      >
        Everybody answers each phrase
      </Toggle>
      <p className={styles.soft}>
        Those at a kit of their own strike at the same time, each told apart; on one kit it is one after the
        other.
      </p>
    </div>
  );
}
