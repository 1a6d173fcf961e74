/** The take at the cursor as files and pages: as from its report on the day it was played. */
import { useMemo } from "react";
import { instantAfter } from "../../../engine/session/index.ts";
import type { Origin } from "../../out/TakenFrom.ts";
import { TakeItAlong } from "../call-a-style/report/index.ts";
import type { OpenLesson } from "./replayDesk.ts";
import type { TakeAgain } from "./takeAgain.ts";

export function TakeAlong({
  lesson,
  again: { take, hits, judgement },
  of,
}: {
  readonly lesson: OpenLesson;
  readonly again: TakeAgain;
  readonly of: string;
}) {
  const origin = useMemo((): Origin => {
    const { began } = lesson.moments.whole;
    const day = began ? new Date(instantAfter(began.at, take.from)) : new Date(0);
    const { compared, hearing } = judgement;
    const heardBpm = hearing.kind === "heard" ? hearing.pulse.tempoBpm : null;
    return { of, day, tempoBpm: compared?.report.tempoBpm ?? heardBpm };
  }, [lesson, take, judgement, of]);
  if (hits.length === 0) return null;
  return <TakeItAlong judgement={judgement} hits={hits} origin={origin} calledName={take.called?.name} />;
}
