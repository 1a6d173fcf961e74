import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { EmptyDesk } from "./EmptyDesk.tsx";
import { RunningDesk } from "./RunningDesk.tsx";
import { TodayDesk } from "./TodayDesk.tsx";
import { useToday } from "./useDesk.ts";

/** Desk, the home of the day: who is next, what is due, the lesson that is on. */
export function DeskScreen() {
  const studio = useStudio();
  const { began, stage } = useWatched(studio.book.log);
  const today = useToday(studio);
  if (began && stage !== "ended") return <RunningDesk today={today} />;
  if (today.students?.length === 0) return <EmptyDesk />;
  return <TodayDesk today={today} />;
}
