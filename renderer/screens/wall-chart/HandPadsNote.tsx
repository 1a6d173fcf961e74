import { useLesson } from "../../app/LessonContext.tsx";
import { hrefOf } from "../../app/route.ts";
import { useWatched } from "../../session/store.ts";

/** Whether each hand has its pad, and what cannot be told without. */
export function HandPadsNote() {
  const { framed } = useLesson();
  const { L, R } = useWatched(framed["wall-chart"].hands);
  if (L !== null && R !== null)
    return (
      <p>
        Left hand on the pad of note {L}, right hand on that of note {R}. They are set in{" "}
        <a href={hrefOf("kit")}>Kit</a>.
      </p>
    );
  return (
    <p>
      Give each hand its own pad in <a href={hrefOf("kit")}>Kit</a> first. On one pad I cannot tell which hand
      struck, and I do not guess.
    </p>
  );
}
