import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { After } from "./After.tsx";
import { Before } from "./Before.tsx";
import { Judging } from "./Judging.tsx";
import { Playing } from "./Playing.tsx";
import { useNextStyle } from "./useNextStyle.ts";
import { useRoundKeys } from "./useRoundKeys.ts";

/** Call a Style: a style is called, or the choice is free; the student plays; the program says what it heard. */
export function CallAStyle() {
  const { round } = useLesson();
  const { asked, at } = useWatched(round);
  useRoundKeys(round, useNextStyle(round));
  switch (at.stage) {
    case "before":
      return <Before asked={asked} />;
    case "playing":
      return <Playing asked={asked} at={at} />;
    case "judging":
      return <Judging at={at} />;
    case "after":
    case "failed":
      return <After asked={asked} at={at} />;
  }
}
