import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import type { NextStyle } from "../desk/nextStyle.ts";
import type { StyleRound } from "./styleRound.ts";

/** What "next" does here where Five Left has dealt styles; `undefined` where it has not. */
export function useNextStyle(round: StyleRound): NextStyle | undefined {
  const { fiveLeft, nextStyle } = useLesson();
  useWatched(round);
  useWatched(fiveLeft);
  return nextStyle(round);
}
