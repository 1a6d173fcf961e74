import { thresholdOf } from "../../../engine/ear/index.ts";
import { playerInTurn, rungAnswersOf } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { Note } from "../../app/Page.tsx";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { standsWords } from "./backTurnedWords.ts";

/** For the teacher: where the student stands whose turn it is, and what is asked. */
export function StandsNote() {
  const { framed } = useLesson();
  const { roster } = useStudio();
  const round = framed["back-turned"];
  const play = useWatched(round);
  if (play.stage === "ready") return null;
  const by = playerInTurn(play);
  const answers = rungAnswersOf(play.own, by);
  const rung = round.rung();
  const name = by === null ? null : roster.student(by)?.nickname;
  return (
    <Note heading={name ? `Where ${name} stands` : "Where the listener stands"}>
      <p>
        {answers.length === 0
          ? "Not known yet: the first answers tell."
          : standsWords(thresholdOf(round.listener().belief()))}
      </p>
      {rung && play.stage !== "over" && <p>Asked now: {rung.words}.</p>}
    </Note>
  );
}
