import { misheardBy, playerInTurn } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { Note } from "../../app/Page.tsx";
import { useWatched } from "../../session/store.ts";

/** How often a sound was taken for another: a skill of its own, beside rhythm. */
export function MisheardNote() {
  const { framed } = useLesson();
  const play = useWatched(framed["say-and-strike"]);
  const { sounds, misheard } = misheardBy(play.own, playerInTurn(play));
  if (sounds === 0) return null;
  return (
    <Note heading="Heard as said">
      <p>
        {misheard === 0
          ? `All ${sounds} sounds were taken for what they were.`
          : `Of ${sounds} sounds ${misheard} ${misheard === 1 ? "was" : "were"} taken for another.`}
      </p>
    </Note>
  );
}
