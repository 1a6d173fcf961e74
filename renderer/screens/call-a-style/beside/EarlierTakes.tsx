import { useMemo } from "react";
import { useLesson } from "../../../app/LessonContext.tsx";
import { useWatched } from "../../../session/store.ts";
import { BesideTake } from "./BesideTake.tsx";
import { takesBeside } from "./takesBeside.ts";

/** The take just played beside an earlier one of this sitting, where there is one like it. */
export function EarlierTakes() {
  const { round } = useLesson();
  const sitting = useWatched(round);
  const takes = useMemo(() => takesBeside(sitting), [sitting]);
  if (!takes) return null;
  return <BesideTake takes={takes} onChoose={(beside) => round.dispatch({ kind: "laid-beside", beside })} />;
}
