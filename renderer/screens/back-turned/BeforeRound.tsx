import { useLesson } from "../../app/LessonContext.tsx";
import { hrefOf } from "../../app/route.ts";
import { onePitchWords } from "../../audio/tomPitches.ts";
import { useWatched } from "../../session/store.ts";
import { Toggle } from "../../theme/index.ts";
import styles from "./BackTurned.module.css";

/** What can be chosen before the round begins. */
export function BeforeRound() {
  const { framed, toms } = useLesson();
  const round = framed["back-turned"];
  const { source, answering } = useWatched(round.wanted);
  const onePitch = onePitchWords(useWatched(toms));
  return (
    <div className={styles.before}>
      <Toggle
        isOn={source === "kit"}
        onChange={(isOn) => round.wanted.dispatch({ source: isOn ? "kit" : "sampler" })}
      >
        The questions come from a kit: what I hear there is the key
      </Toggle>
      {round.players().length > 1 && (
        <Toggle
          isOn={answering === "all-at-once"}
          onChange={(isOn) => round.wanted.dispatch({ answering: isOn ? "all-at-once" : "in-turn" })}
        >
          Everybody answers each question
        </Toggle>
      )}
      {onePitch !== null && source === "sampler" && <p role="status">{onePitch}</p>}
      <p className={styles.soft}>
        The toms sound as those of this studio where their pitches are set in <a href={hrefOf("kit")}>Kit</a>.
      </p>
    </div>
  );
}
