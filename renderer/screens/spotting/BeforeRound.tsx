import { ABOUT, type About } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { OneOf, Toggle } from "../../theme/index.ts";
import styles from "./Spotting.module.css";

const ABOUT_NAMES: Readonly<Record<About, string>> = {
  grooves: "Grooves",
  fills: "Fills",
  both: "Both",
};

/** What can be chosen before the round begins. */
export function BeforeRound() {
  const { framed } = useLesson();
  const round = framed.spotting;
  const { source, about, answering } = useWatched(round.wanted);
  return (
    <div className={styles.before}>
      <OneOf
        label="What is asked"
        options={ABOUT.map((id) => ({ id, name: ABOUT_NAMES[id] }))}
        chosen={about}
        onChoose={(each) => round.wanted.dispatch({ about: each })}
      />
      <Toggle
        isOn={source === "kit"}
        onChange={(isOn) => round.wanted.dispatch({ source: isOn ? "kit" : "program" })}
      >
        The teacher plays: what I hear there is the key
      </Toggle>
      {round.players().length > 1 && (
        <Toggle
          isOn={answering === "all-at-once"}
          onChange={(isOn) => round.wanted.dispatch({ answering: isOn ? "all-at-once" : "in-turn" })}
        >
          Everybody answers each question
        </Toggle>
      )}
      <p className={styles.soft}>
        {source === "kit"
          ? "You can say otherwise, before the answer or after it."
          : round.players().length === 0
            ? "Without a student I play what is met every day, and now and then something rarer."
            : "I play what this student has met, and one thing that is new."}
      </p>
    </div>
  );
}
