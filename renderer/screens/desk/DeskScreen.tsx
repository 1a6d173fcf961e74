import { lazy, Suspense } from "react";
import { PageToCome } from "../../app/PageToCome.tsx";
import { useRest } from "../../app/route.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { EmptyDesk } from "./EmptyDesk.tsx";
import { RunningDesk } from "./RunningDesk.tsx";
import { TodayDesk } from "./TodayDesk.tsx";
import { useToday } from "./useDesk.ts";

const KitLab = lazy(async () => ({ default: (await import("./lab/KitLab.tsx")).KitLab }));

/** Desk, the home of the day: who is next, what is due, the lesson that is on; or the kits of a lab. */
export function DeskScreen() {
  const [page] = useRest();
  if (page !== "kits") return <DeskOfToday />;
  return (
    <Suspense fallback={<PageToCome title="Kit lab" />}>
      <KitLab />
    </Suspense>
  );
}

function DeskOfToday() {
  const studio = useStudio();
  const { began, stage } = useWatched(studio.book.log);
  const today = useToday(studio);
  if (began && stage !== "ended") return <RunningDesk today={today} />;
  if (today.students?.length === 0) return <EmptyDesk />;
  return <TodayDesk today={today} />;
}
